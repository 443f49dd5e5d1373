package search

import (
	"context"
	"math/rand/v2"
	"testing"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/statement"
	"ripeby/schedule/cp/tiny"
)

// leftOut states a model, checks that every plan of it is let in, and gives how many
// clauses of boxes it takes until what is assumed is refused or stands; none of them
// may leave out a plan.
func leftOut(t *testing.T, m *problem.Model, assume func(k *statement.Statement) []kernel.Lit) int {
	t.Helper()
	plans, ok := tiny.PlansOf(m, auditedPlans)
	if !ok || len(plans) == 0 {
		t.Fatalf("got %d plans (%v)", len(plans), ok)
	}
	s := NewPlan(m)
	s.SettleHomes()
	s.chooseOpening()
	p := &prover{s: s, count: statement.NewCounts()}
	for f := range m.Families {
		for _, due := range problem.DuesOf(m, f) {
			p.count.Open[problem.Delivery{Family: f, Due: due}] = 2
		}
	}
	if p.k, ok = statement.Of(&s.Schedule, s.Frozen, p.count); !ok {
		t.Fatal("not stated")
	}
	var seen proofTally
	l := newPaper(p, plans, rand.New(rand.NewPCG(1, 1)), &seen)
	p.k.Kernel.SetAudit(l.audit())
	p.k.Kernel.Branch(p.k.NewBrancher().Next)
	clauses := 0
	for p.k.Kernel.Search(context.Background(), 1<<40, assume(p.k)...) == kernel.Solved && clauses < 100 {
		put, ok := p.k.PutBoxes(p.k.Answer())
		if ok {
			break
		}
		clauses++
		p.doubt = !put.Sure
		p.k.Kernel.AddClause(put.Clause...)
	}
	if seen.fault != "" {
		t.Errorf("%s\n%s", seen.fault, tiny.Text(m))
	}
	return clauses
}

// Boxes under way wait for a delivery at 13 or one at 14; in between the place closes.
//
//	steps   10      12      14
//	boxes   |-----------|       or   |---------------|
//	closed                  ###   13 to 14
func TestBoxesThatLeaveOffTheGridMayLeaveInTime(t *testing.T) {
	mode := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 0, Lag: problem.Lag{Most: 2, Cost: make([]int32, 3)}}, {Work: 0, Lag: problem.Lag{Most: 30}}},
		Stays: []problem.Stay{{First: 1, Last: 1, Boxes: 1, Spaces: []int{0}}}}
	m := &problem.Model{Step: 2, Horizon: 20, Kinds: []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 1}}, Spaces: []problem.Space{{Capacity: 1, Closed: []problem.Span{{From: 13, Until: 14}}}},
		Families: []problem.Family{{Keeps: 20, Supply: -1}},
		Demands:  []problem.Demand{{Due: 13, Units: 1, Value: 1}, {Due: 14, Units: 1, Value: 1}},
		Begun:    []problem.Begun{{Mode: mode, Starts: []int{-2}, Workers: []int{-1}, Homes: []int{-1}}}}
	late := func(k *statement.Statement) []kernel.Lit { return []kernel.Lit{k.Slots[0].Give[1].Ge(1)} }
	if n := leftOut(t, m, late); n == 0 {
		t.Error("boxes in a place that is closed were let in")
	}
}

// The work under way ends at 2; until then its boxes are not in the place that another
// job's boxes are in.
//
//	new        |---|        to its delivery at 2
//	under way  ====|------  work, then boxes
func TestBoxesInHandAtTheStartAreNotInTheirPlaceYet(t *testing.T) {
	stay := []problem.Stay{{First: 0, Last: 0, Boxes: 1, Spaces: []int{0}}}
	soon := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 0, Lag: problem.Lag{Most: 2}}}, Stays: stay}
	begun := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 3, Workers: []int{0}, Lag: problem.Lag{Least: 2, Most: 30}}}, Stays: stay}
	m := &problem.Model{Step: 1, Horizon: 10, Workers: []problem.Worker{{Windows: []problem.Span{{From: 0, Until: 10}}}}, Kinds: []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 1}}, Spaces: []problem.Space{{Capacity: 1}},
		Families: []problem.Family{{Keeps: 20, Supply: -1, Modes: []problem.Mode{soon}}, {Keeps: 20, Supply: -1}},
		Demands:  []problem.Demand{{Due: 2, Units: 1, Value: 1}},
		Begun:    []problem.Begun{{Family: 1, Mode: begun, Starts: []int{-1}, Workers: []int{0}, Homes: []int{0}}}}
	soonest := func(k *statement.Statement) []kernel.Lit {
		return []kernel.Lit{k.Cost[problem.PartShort].Le(0), k.Slots[1].Start[0].Le(0)}
	}
	if n := leftOut(t, m, soonest); n != 0 {
		t.Errorf("got %d clauses of boxes that stand one after another", n)
	}
	r := searched(context.Background(), m, Options{Budget: 100_000})
	if f := tiny.FaultOf(m, r); f != "" || r.Cost.Short != 0 || r.Cost != r.Bound {
		t.Errorf("got %+v, bound %+v, fault %q; want nothing short, and proved", r.Cost, r.Bound, f)
	}
}

// A job that starts at 6 is delivered at once: it has no boxes in the place, whose floor is
// closed then, and that one from 5 on has is no reason against it.
func TestBoxesForNoTimeMeetNoClosing(t *testing.T) {
	mode := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 0, Lag: problem.Lag{Most: 30}}}, Stays: []problem.Stay{{First: 0, Last: 0, Boxes: 1, Spaces: []int{0}}}}
	m := &problem.Model{Step: 1, Horizon: 10, FitFloor: tiny.LinePacking, Kinds: []problem.Kind{{Size: problem.Rect{W: 1, D: 1}, Height: 2}},
		Spaces:   []problem.Space{{Floors: []problem.Floor{{Size: problem.Rect{W: 1, D: 1}, Height: 2, Closed: []problem.Span{{From: 2, Until: 7}}}}, Closed: []problem.Span{{From: 2, Until: 3}}}},
		Families: []problem.Family{{Keeps: 4, Supply: -1, Modes: []problem.Mode{mode}}},
		Demands:  []problem.Demand{{Due: 6, Units: 1, Value: 1}}}
	early := func(k *statement.Statement) []kernel.Lit {
		return []kernel.Lit{k.Slots[0].Present(), k.Slots[0].Start[0].Le(5)}
	}
	if n := leftOut(t, m, early); n == 0 {
		t.Error("boxes on a floor that is closed were let in")
	}
}

// Boxes as wide as 4, 5 and 3 never stand on two floors of 6, though their area does: one clause
// says so of the last moment before the first leaves, at which all of them stand however early
// they come. Of the whole stretch for which an answer has them it would take one for each answer.
func TestBoxesAreForbiddenAtOneMoment(t *testing.T) {
	m := &problem.Model{Step: 1, Horizon: 20, FitFloor: tiny.LinePacking,
		Spaces: []problem.Space{{Floors: []problem.Floor{{Size: problem.Rect{W: 6, D: 1}, Height: 1}, {Size: problem.Rect{W: 6, D: 1}, Height: 1}}}}}
	for f, wide := range []int64{4, 5, 3} {
		m.Kinds = append(m.Kinds, problem.Kind{Size: problem.Rect{W: wide, D: 1}, Height: 1, Stack: problem.OnStay})
		mode := problem.Mode{Amount: 1, Units: 1, Acts: []problem.Activity{{Work: 0, Lag: problem.Lag{Least: 2, Most: 6}}},
			Stays: []problem.Stay{{First: 0, Last: 0, Kind: f, Boxes: 1, Spaces: []int{0}}}}
		m.Families = append(m.Families, problem.Family{Keeps: 6, Supply: -1, Modes: []problem.Mode{mode}})
		m.Demands = append(m.Demands, problem.Demand{Family: f, Due: 10 + f%2, Units: 1, Value: 1})
	}
	all := func(k *statement.Statement) []kernel.Lit { return []kernel.Lit{k.Cost[problem.PartShort].Le(0)} }
	if n := leftOut(t, m, all); n != 1 {
		t.Errorf("got %d clauses of boxes, want one", n)
	}
	for k := range m.Kinds {
		m.Kinds[k].Stack = problem.OnKind
	}
	if n := leftOut(t, m, all); n != 0 {
		t.Errorf("got %d clauses of boxes of kinds that share spots, want none: what stands at one moment is stated", n)
	}
}
