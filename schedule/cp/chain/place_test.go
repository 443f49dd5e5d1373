package chain

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// The cheap part of a dear chain must not hide a chain cheaper in all.
func TestPlaceLooksBeyondADearFirstLag(t *testing.T) {
	m := &problem.Model{Step: 1, Horizon: 40}
	acts := []problem.Activity{
		{Lag: problem.Lag{Least: 1, Most: 2, Cost: []int32{200, 0}}},
		{Lag: problem.Lag{Least: 5, Most: 6, Cost: []int32{40, 10}}},
		{Work: 1, Workers: []int{0}, Lag: problem.Lag{Most: 40}},
	}
	m.Workers = []problem.Worker{{Windows: []problem.Span{{From: 7, Until: 8}}}}
	m.Families = []problem.Family{{Keeps: 30, Supply: -1, Modes: []problem.Mode{{Amount: 1, Units: 1, Acts: acts}}}}
	s := NewSchedule(m)
	q := &query{Mode: &m.Families[0].Modes[0], From: 1, began: 1, begun: true, starts: []int{0}, workers: []int{-1}, supply: -1, readyMax: 20, end: 20}
	j, ok := s.Place(q)
	if !ok || j.Penalty != 40 {
		t.Errorf("got %+v, want the chain that costs 0 and 40, not 200 and 10", j)
	}
}

// naiveBest tries every way of placing one job beside what is on the board.
func naiveBest(m *problem.Model, b *tiny.Board, q *query, supply int, drawn []int64) (found bool, cost int64, first int) {
	mode := q.Mode
	k := q.From
	var sizes []int
	n := len(mode.Acts)
	for i := k; i < n; i++ {
		sizes = append(sizes, max(1, len(mode.Acts[i].Workers)))
	}
	for r := range mode.Runs {
		if mode.Runs[r].First < k {
			sizes = append(sizes, 1)
		} else {
			sizes = append(sizes, len(mode.Runs[r].Choices))
		}
	}
	for r := range mode.Stays {
		if mode.Stays[r].First < k {
			sizes = append(sizes, 1)
		} else {
			sizes = append(sizes, len(mode.Stays[r].Spaces))
		}
	}
	tiny.NaiveStarts(m, mode, q.starts[:k], q.readyMin, q.readyMax, func(starts []int) {
		if supply >= 0 && !naiveDraw(m, supply, starts[0], mode.Amount, drawn) {
			return
		}
		tiny.Mixed(sizes, func(pick []int) {
			workers := append([]int(nil), q.workers[:k]...)
			for i := k; i < n; i++ {
				w := -1
				if mode.Acts[i].Work > 0 {
					w = mode.Acts[i].Workers[pick[i-k]]
				}
				workers = append(workers, w)
			}
			choices := append([]int(nil), pick[n-k:n-k+len(mode.Runs)]...)
			spaces := make([]int, len(mode.Stays))
			for r := range choices {
				if mode.Runs[r].First < k {
					choices[r] = q.choices[r]
				}
			}
			for r := range spaces {
				if mode.Stays[r].First < k {
					spaces[r] = q.homes[r].Space
				} else {
					spaces[r] = mode.Stays[r].Spaces[pick[n-k+len(mode.Runs)+r]]
				}
			}
			end := q.end
			if end == problem.Nowhere {
				end = starts[n-1] + mode.Acts[n-1].Work + q.endLeast
			}
			p := tiny.PartOf(mode, q.began, starts, workers, choices, spaces, end)
			c := naiveSum(mode, q, starts) + tiny.NaiveBother(m, mode, k, starts, workers)
			if found && (c > cost || (c == cost && starts[0] <= first)) && k == 0 || found && k > 0 && c >= cost {
				return
			}
			b.Put(p, 1)
			ok := b.Fault(p) == "" && naiveStands(m, b, p, mode)
			b.Put(p, -1)
			if ok {
				found, cost, first = true, c, starts[0]
			}
		})
	})
	return found, cost, first
}

func naiveDraw(m *problem.Model, supply, t int, amount int64, drawn []int64) bool {
	for i, in := range m.Intakes {
		if in.Supply == supply && in.Ready <= t && t <= in.Until && in.Amount-drawn[i] >= amount {
			return true
		}
	}
	return false
}

// naiveStands reports whether the planned boxes of p find places on floors.
func naiveStands(m *problem.Model, b *tiny.Board, p tiny.Part, mode *problem.Mode) bool {
	for r, x := range p.Stays {
		sp := &m.Spaces[x.Thing]
		if len(sp.Floors) == 0 || x.Until <= x.From || x.Begun {
			continue
		}
		room := 0
		for f := range sp.Floors {
			shut := false
			for _, c := range sp.Floors[f].Closed {
				shut = shut || max(c.From, x.From) < min(c.Until, x.Until)
			}
			if shut {
				continue
			}
			room += b.RoomOn(x.Thing, f, mode.Stays[r].Kind, x.From, x.Until)
		}
		if room < x.Amount {
			return false
		}
	}
	return true
}

// placeAgainst asks place and the naive search the same and compares.
func placeAgainst(t *rapid.T, m *problem.Model, exact bool, tally *counts) {
	s := NewSchedule(m)
	b := tiny.NewBoard(m)
	for x := 0; x < tiny.DrawInt(t, 0, 3, "others"); x++ {
		f := tiny.DrawInt(t, 0, len(m.Families)-1, "other family")
		q := s.Query(f, 0, drawWindow(t, m, f))
		j, ok := s.Place(q)
		if !ok {
			continue
		}
		j.Family, j.Mode = f, 0
		s.Add(j)
		p := jobPart(m, j)
		b.Put(p, 1)
		for _, st := range p.Stays {
			if st.Until > st.From {
				b.Measured = append(b.Measured, st)
			}
		}
		if f := b.Fault(p); f != "" {
			t.Fatalf("the engine placed a job wrongly: %s\n%s", f, told(m, j))
		}
	}
	if f := b.StandingFault(); f != "" {
		t.Fatal(f)
	}
	f := tiny.DrawInt(t, 0, len(m.Families)-1, "family")
	mode := tiny.DrawInt(t, 0, len(m.Families[f].Modes)-1, "mode")
	q := s.Query(f, mode, drawWindow(t, m, f))
	if n := len(q.Mode.Acts); n > 1 && tiny.OneIn(t, 3, "carries on") {
		fixPrefix(t, m, q, b, s)
		if tiny.OneIn(t, 2, "may be late") {
			runsLate(t, q, s)
		}
	}
	found, cost, first := naiveBest(m, b, q, q.supply, s.Drawn)
	j, ok := s.Place(q)
	tally.all++
	if ok {
		j.Family, j.Mode = f, mode
		p := tiny.PartOf(q.Mode, q.began, j.Starts, j.Workers, j.Choices, spacesOf(j), j.End)
		b.Put(p, 1)
		if fault := b.Fault(p); fault != "" || !naiveStands(m, b, p, q.Mode) {
			t.Fatalf("placed wrongly: %q\n%s", fault, told(m, j))
		}
		if c := tiny.NaiveBother(m, q.Mode, q.From, j.Starts, j.Workers); c != j.Penalty || j.Late*lateWeighs != naiveSum(q.Mode, q, j.Starts) {
			t.Fatalf("bother %d, late %d; counted by hand %d, %d\n%s", j.Penalty, j.Late, c, naiveSum(q.Mode, q, j.Starts)/lateWeighs, told(m, j))
		}
		if !found || j.Late*lateWeighs+j.Penalty < cost {
			t.Fatalf("better than the best: %d late, %d, want %v %d\n%s", j.Late, j.Penalty, found, cost, told(m, j))
		}
		if j.Late > 0 {
			tally.late++
		}
	}
	same := ok == found && (!ok || j.Late*lateWeighs+j.Penalty == cost && (q.From > 0 || j.Starts[0] == first))
	if same {
		tally.same++
	}
	if found {
		tally.found++
	}
	if exact && !same {
		t.Fatalf("place: %v %+v; by hand %v cost %d first %d\nquery %+v\nmode %+v\nmodel %+v", ok, j, found, cost, first, *q, *q.Mode, *m)
	}
}

type counts struct{ all, found, same, late int }

// lateWeighs is more than any of these chains' waiting costs.
const lateWeighs = 1 << 30

// naiveSum is how late a chain's lags are, so that it outweighs all else.
func naiveSum(mode *problem.Mode, q *query, starts []int) int64 {
	sum := int64(0)
	for i := max(q.From-1, 0); q.begun && i+1 < len(starts); i++ {
		if lag := tiny.LagAt(mode.Acts[i].Lag, starts[i]+mode.Acts[i].Work); lag.Late != nil {
			sum += int64(lag.Late[starts[i+1]-starts[i]-mode.Acts[i].Work-lag.Least]) * lateWeighs
		}
	}
	return sum
}

// runsLate lets the lags of a query's chain be late, where they are so long, and sometimes go on.
func runsLate(t *rapid.T, q *query, s *Schedule) {
	mode := *q.Mode
	mode.Acts = slices.Clone(mode.Acts)
	for i := 0; i < len(mode.Acts)-1; i++ {
		mode.Acts[i].Lag = mode.Acts[i].Lag.Each(func(lag problem.Lag) problem.Lag {
			lag.Cost = slices.Clone(lag.Cost)
			for more := tiny.DrawInt(t, 0, 6, "goes on"); more > 0; more-- {
				lag.Cost, lag.Most = append(lag.Cost, int32(tiny.DrawInt(t, 0, 9, "costs"))), lag.Most+1
			}
			lag.InTime = tiny.DrawInt(t, lag.Least, lag.Most, "in time")
			lag.Late = make([]int32, lag.Most-lag.Least+1)
			unit := tiny.DrawInt(t, 1, 3, "late by")
			for x := range lag.Late {
				lag.Late[x] = int32(max(0, lag.Least+x-lag.InTime) / unit)
			}
			return lag
		})
	}
	q.Mode = &mode
	s.Prep.addLags(q.Mode, 0, map[lagShape]lagTables{})
}

func drawWindow(t *rapid.T, m *problem.Model, f int) problem.Window {
	end := tiny.DrawInt(t, m.From+8, m.Horizon, "end")
	w := problem.Window{ReadyMin: end - tiny.DrawInt(t, 5, 20, "keeps"), ReadyMax: end - tiny.DrawInt(t, 1, 3, "ahead"), End: end}
	return w
}

// fixPrefix makes the query one of a job whose first activity began before the start.
func fixPrefix(t *rapid.T, m *problem.Model, q *query, b *tiny.Board, s *Schedule) {
	act := &q.Mode.Acts[0]
	q.From, q.began, q.begun, q.supply = 1, 1, true, -1
	if tiny.OneIn(t, 3, "serves nothing") {
		q.end, q.endLeast = problem.Nowhere, tiny.DrawInt(t, 0, 2, "rests")
		q.readyMin, q.readyMax = -problem.Infinite, m.Horizon
	}
	q.starts = []int{m.From - act.Work - tiny.DrawInt(t, 0, 3, "ago")}
	q.workers = []int{-1}
	q.choices = make([]int, len(q.Mode.Runs))
	q.homes = make([]problem.StayPlace, len(q.Mode.Stays))
	for r, run := range q.Mode.Runs {
		q.choices[r] = tiny.DrawInt(t, 0, len(run.Choices)-1, "began in")
	}
	for r, stay := range q.Mode.Stays {
		q.homes[r].Space = -1
		if stay.First > 0 {
			continue
		}
		q.homes[r] = problem.StayPlace{Space: stay.Spaces[0]}
		if len(m.Spaces[stay.Spaces[0]].Floors) > 0 {
			q.homes[r].Homeless = true
		}
	}
}

func spacesOf(j *problem.Job) []int {
	out := make([]int, len(j.Stays))
	for r := range out {
		out[r] = j.Stays[r].Space
	}
	return out
}

func jobPart(m *problem.Model, j *problem.Job) tiny.Part {
	mode := &m.Families[j.Family].Modes[j.Mode]
	p := tiny.PartOf(mode, 0, j.Starts, j.Workers, j.Choices, spacesOf(j), j.End)
	for r := range p.Stays {
		p.Stays[r].Stacks = j.Stays[r].Stacks
	}
	return p
}

func told(m *problem.Model, j *problem.Job) string { return fmt.Sprintf("job %+v\nmodel %+v", *j, *m) }

func TestPlaceIsBest(t *testing.T) {
	var tally counts
	tiny.CheckMany(t, 40, func(t *rapid.T) {
		m := tiny.Draw(t, tiny.Shape{Families: 2, Acts: 3, Length: 24, Days: true, Avoid: true, Floors: true, Closed: true, Intakes: tiny.OneIn(t, 2, "milk")})
		placeAgainst(t, m, true, &tally)
	})
	t.Logf("%d questions, %d with an answer, %d answered exactly, %d late", tally.all, tally.found, tally.same, tally.late)
	if tally.late < tiny.Few(20) {
		t.Errorf("got %d late: too few to mean much", tally.late)
	}
}

// Runs of one job that meet in one pool, with a choice of pools or cleaning, are
// checked after the chain is found: place may then miss a way, but never errs.
func TestPlaceNeverErrsWhereRunsMeet(t *testing.T) {
	var tally counts
	tiny.CheckMany(t, 40, func(t *rapid.T) {
		m := tiny.Draw(t, tiny.Shape{Families: 2, Acts: 3, Length: 24, Clash: true, Closed: true})
		placeAgainst(t, m, false, &tally)
	})
	t.Logf("%d questions, %d with an answer, %d answered exactly", tally.all, tally.found, tally.same)
}

// Starts that an earlier plan had on another grid are not put back: planned work starts on the
// grid of today.
func TestWhatWasOnAnotherGridIsNotPutBack(t *testing.T) {
	mode := problem.Mode{Units: 1, Acts: []problem.Activity{{Lag: problem.Lag{Most: 9, Cost: make([]int32, 10)}}, {Lag: problem.Lag{Most: 30}}}}
	m := &problem.Model{Step: 3, Horizon: 30, Families: []problem.Family{{Keeps: 20, Supply: -1, Modes: []problem.Mode{mode}}},
		Demands: []problem.Demand{{Due: 20, Units: 1, Value: 1}}}
	for _, c := range []struct {
		starts []int
		want   bool
	}{{[]int{6, 9}, true}, {[]int{6, 10}, false}, {[]int{5, 9}, false}} {
		s := NewSchedule(m)
		q := s.Query(0, 0, m.WindowOf(0, []problem.Share{{Demand: 0, Units: 1}}))
		q.Exact = c.starts
		if j, ok := s.Place(q); ok != c.want {
			t.Errorf("starts at %v: got %+v (%v), want %v", c.starts, j, ok, c.want)
		}
	}
}
