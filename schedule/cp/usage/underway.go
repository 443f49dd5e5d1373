package usage

import "ripeby/schedule/cp/problem"

// What has happened is put in force: stock, and where the boxes of what is under way stand.

// SettleHomes finds where the boxes that stand somewhere now stand: those whose place is known first,
// then the others, and last of all those that are still in hand.
func (s *Ledger) SettleHomes() {
	m := s.Model
	s.Homes = make([]problem.StayPlace, len(m.Begun))
	stockHomes := make([]problem.StayPlace, len(m.Stocks))
	hold := func(p problem.StayPlace, kind, boxes, since int) {
		if p.Space >= 0 && !p.Homeless {
			s.addVisit(p.Space, Visit{From: since, Until: problem.Infinite, Kind: kind, Boxes: boxes, Stacks: p.Stacks, Begun: true})
		}
	}
	for _, turn := range []settling{whereKnown, whereTheyStand, inHand} {
		for i := range m.Stocks {
			st := &m.Stocks[i]
			if turn == turnOf(st.Prefer, false) {
				stockHomes[i] = s.home(st.Space, st.Kind, st.Boxes, st.Prefer, m.Stands(i), st.Keep)
				hold(stockHomes[i], st.Kind, st.Boxes, m.Stands(i))
			}
		}
		for i := range m.Begun {
			b := &m.Begun[i]
			r := b.RunningStay()
			if r < 0 {
				s.Homes[i] = problem.StayPlace{Space: -1}
				continue
			}
			if since, until := b.StandsFor(r); turn == turnOf(b.Prefer, since > m.From) {
				s.Homes[i] = s.home(b.Homes[r], b.Mode.Stays[r].Kind, b.Mode.Stays[r].Boxes, b.Prefer, since, until)
				hold(s.Homes[i], b.Mode.Stays[r].Kind, b.Mode.Stays[r].Boxes, m.From)
			}
		}
	}
	for i := range s.Spaces {
		s.Spaces[i] = nil
	}
	s.Stocks = make([]problem.StockPlan, len(m.Stocks))
	for i := range stockHomes {
		s.Stocks[i] = problem.StockPlan{Place: stockHomes[i], End: m.Stocks[i].Keep}
	}
}

// settling is a turn in which boxes are given their place.
type settling int

const (
	whereKnown settling = iota
	whereTheyStand
	inHand
)

// turnOf is the turn of boxes that stood somewhere before, or are still in hand.
func turnOf(stood []problem.Standing, hand bool) settling {
	switch {
	case len(stood) > 0:
		return whereKnown
	case hand:
		return inHand
	}
	return whereTheyStand
}

// KeepStock puts stock in force with what it is to serve.
func (s *Ledger) KeepStock(i int, shares []problem.Share) {
	st := &s.Model.Stocks[i]
	p := &s.Stocks[i]
	p.Shares, p.End = shares, st.Keep
	for k, sh := range shares {
		s.Unmet[sh.Demand] -= sh.Units
		if due := s.Model.Demands[sh.Demand].Due; k == 0 || due > p.End {
			p.End = due
		}
	}
	if st.Pool >= 0 && st.Boxes > 0 && p.End+st.Clean > s.Model.From {
		s.addOccupation(st.Pool, Occupation{s.Model.From, p.End + st.Clean, st.Boxes, nil, true})
	}
	if since := s.Model.Stands(i); p.Place.Space >= 0 && !p.Place.Homeless && p.End > since {
		s.addVisit(p.Place.Space, Visit{since, p.End, st.Kind, st.Boxes, p.Place.Stacks, nil, true})
	}
}
