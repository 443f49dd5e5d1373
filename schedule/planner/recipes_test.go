package planner_test

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

var (
	usePot    = schedule.Use{Kind: schedule.UsePot}
	useMould  = schedule.Use{Kind: schedule.UseMould}
	useBox    = schedule.Use{Kind: schedule.UseBox}
	inTheRoom = schedule.At{Kind: schedule.AtRoom}
)

func useOf(station string) schedule.Use {
	return schedule.Use{Kind: schedule.UseStation, Name: station}
}

// recipe draws one cheese: curd in a pot, then whatever kit there is, boxes towards
// the end, and packing last.
func (m *maker) recipe(i int) schedule.Recipe {
	r := schedule.Recipe{Name: fmt.Sprintf("Cheese %d", i+1), Code: fmt.Sprintf("C%d", i+1),
		Yield: schedule.Yield{Pieces: m.n("yield", 1, 8), From: litres(m.n("from", 2, 5))},
		Mould: "ring", Box: &schedule.Boxing{Name: "box", Takes: m.n("box takes", 2, 8)},
		Keeps: minutes(60 * pick(m, "keeps", 144, 72, 36, 480, 20))}
	if m.chance("keeps oddly", 15) {
		r.Keeps += minutes(m.n("odd", 1, 29))
	}
	if n := len(m.p.Kitchen.Milk); n > 0 && m.chance("milk?", 70) {
		r.Milk = m.p.Kitchen.Milk[m.n("which milk", 0, n-1)].Name
	}
	largest := resources.Millilitres(0)
	for _, p := range m.p.Kitchen.Pots {
		largest = max(largest, p.Holds)
	}
	r.Batch = schedule.BatchSize{Least: min(litres(m.n("least", 2, 6)), largest), Step: pick(m, "batch step", litres(1), litres(2), 500), Serves: 1}
	r.Batch.Most = r.Batch.Least + r.Batch.Step*resources.Millilitres(m.n("sizes", 0, 8))
	if int64(min(largest, r.Batch.Most))*int64(r.Yield.Pieces) < int64(r.Yield.From) {
		r.Yield = schedule.Yield{Pieces: 2, From: litres(2)}
	}
	// Sizes lie on a ladder from least: the largest that fits may be below the pot.
	steps := (min(largest, r.Batch.Most) - r.Batch.Least) / r.Batch.Step
	made := int(int64(r.Batch.Least+steps*r.Batch.Step) * int64(r.Yield.Pieces) / int64(r.Yield.From))
	if made > 1 && m.chance("spare?", 50) {
		r.Spare = m.n("spare", 1, min(2, made-1))
	}
	if m.chance("serves?", 25) {
		r.Batch.Serves = m.n("serves", 2, 6-2*m.plenty)
	}
	for n := m.n("stages", 2, 7); len(r.Stages) < n; {
		m.addStage(&r, n)
	}
	return r
}

// addStage draws the next of n stages.
func (m *maker) addStage(r *schedule.Recipe, n int) {
	i := len(r.Stages)
	s := schedule.Stage{Name: fmt.Sprintf("stage %d", i+1), At: inTheRoom}
	after := i > 0 && r.Stages[i-1].Hold != nil && r.Stages[i-1].Hold.Most > 0
	if i == 0 || !m.chance("no work", 25-5*m.plenty) {
		s.Hands = &schedule.Hands{Fixed: rate(1000 * pick(m, "fixed", 20, 40, 13, 60-20*m.plenty, 90-30*m.plenty)),
			PerLitre: rate(pick(m, "per litre", 0, 0, 1000, 1500)), PerPiece: rate(pick(m, "per piece", 0, 0, 500, 1000))}
		if m.chance("who?", 20-8*m.plenty) {
			s.Who = []string{m.p.Kitchen.People[m.n("who", 0, len(m.p.Kitchen.People)-1)].Name}
		}
	}
	if s.Hands == nil && after {
		before := &r.Stages[i-1]
		s.Uses, s.Box, s.At = before.Uses, before.Box, before.At
	} else {
		m.addKit(r, &s, i, n)
	}
	if i < n-1 && m.chance("hold?", 70+15*m.plenty) || i == n-1 && m.chance("last hold?", 10) {
		s.Hold = m.hold(r, i == n-1)
	}
	if s.Hold != nil && m.chance("care?", 30) {
		s.Care = &schedule.Care{Do: "turn", Every: m.n("every", 1, 3), Hands: minutes(m.n("care", 1, 15))}
	}
	r.Stages = append(r.Stages, s)
}

// addKit draws what a stage uses and where it is.
func (m *maker) addKit(r *schedule.Recipe, s *schedule.Stage, i, n int) {
	potBefore := i == 0 || usesKind(&r.Stages[i-1], schedule.UsePot)
	switch {
	case i == 0 || potBefore && i < n-1 && m.chance("pot?", 40):
		u := usePot
		if m.chance("named pot", 15) {
			for _, p := range m.p.Kitchen.Pots {
				if p.Holds >= r.Batch.Least {
					u.Name = p.Name
				}
			}
		}
		s.Uses = append(s.Uses, u)
	default:
		switch m.n("kit", 0, 5) {
		case 0:
			s.Uses = append(s.Uses, useOf(pick(m, "station", "hook", "press", "tub")))
		case 1:
			s.Uses = append(s.Uses, useMould)
		case 2:
			s.Uses = append(s.Uses, useMould, useBox)
		default:
			s.Uses = append(s.Uses, useBox)
		}
	}
	if !usesKind(s, schedule.UseBox) {
		return
	}
	if m.chance("carton?", 25) {
		s.Box = &schedule.Boxing{Name: "carton", Takes: m.n("carton takes", 2, 10)}
	}
	if m.chance("fresh?", 25) {
		s.Fresh = []schedule.UseKind{schedule.UseBox}
	}
	place := m.p.Kitchen.Cold[m.n("which place", 0, len(m.p.Kitchen.Cold)-1)]
	switch m.n("at", 0, 3) {
	case 0:
	case 1:
		s.At = schedule.At{Kind: schedule.AtPlace, Place: place.Name}
	default:
		s.At = schedule.At{Kind: schedule.AtRange, Low: place.Temperature - 2_000, High: place.Temperature + 2_000}
	}
}

func usesKind(s *schedule.Stage, kind schedule.UseKind) bool {
	for _, u := range s.Uses {
		if u.Kind == kind {
			return true
		}
	}
	return false
}

// hold draws a hold that has at least one length on the grid.
func (m *maker) hold(r *schedule.Recipe, last bool) *schedule.Hold {
	unit := pick(m, "unit", 60, 60, 24*60, 10)
	h := &schedule.Hold{Least: minutes(unit * m.n("hold least", 0, 20-6*m.plenty))}
	if unit == 24*60 {
		h.Least = minutes(unit * m.n("days least", 0, 5-2*m.plenty))
	}
	h.Most = h.Least + minutes(unit*m.n("hold width", 6*m.plenty, 6+8*m.plenty))
	if m.chance("odd hold", 15) {
		h.Least, h.Most = h.Least+minutes(m.n("odd least", 0, 20)), h.Most+minutes(m.n("odd most", 20, 60))
	}
	step := m.p.Kitchen.Step
	if resources.CeilLength(h.Least, step) > resources.FloorLength(h.Most, step) {
		h.Most = resources.CeilLength(h.Least, step)
	}
	if last && h.Least > r.Keeps {
		h.Least = 0
	}
	if m.chance("best?", 60) {
		h.HasBest = true
		h.Best = h.Least + minutes(m.n("best", 0, int(h.Most-h.Least)))
	}
	return h
}
