package cp

import (
	"context"
	"math/rand/v2"
	"testing"

	"ripeby/schedule/cp/kernel"
)

// leftOut states a model, checks that every plan of it is let in, and gives how many
// clauses of boxes it takes until what is assumed is refused or stands; none of them
// may leave out a plan.
func leftOut(t *testing.T, m *Model, assume func(k *asked) []kernel.Lit) int {
	t.Helper()
	plans, ok := plansOf(m, auditedPlans)
	if !ok || len(plans) == 0 {
		t.Fatalf("got %d plans (%v)", len(plans), ok)
	}
	s := newPlan(m)
	s.settleHomes()
	s.chooseOpening()
	p := &prover{s: s, count: newSlotCounts()}
	for f := range m.Families {
		for _, due := range duesOf(m, f) {
			p.count.open[slotKey{f, due}] = 2
		}
	}
	if p.k, ok = ask(&s.schedule, s.frozen, p.count); !ok {
		t.Fatal("not stated")
	}
	var seen proofTally
	l := newPaper(p, plans, rand.New(rand.NewPCG(1, 1)), &seen)
	p.k.k.SetAudit(l.audit())
	p.k.k.Branch(p.k.newBrancher().next)
	clauses := 0
	for p.k.k.Search(context.Background(), 1<<40, assume(p.k)...) == kernel.Solved && clauses < 100 {
		put, ok := p.k.putBoxes(p.k.answer())
		if ok {
			break
		}
		clauses++
		p.doubt = !put.sure
		p.k.k.AddClause(put.clause...)
	}
	if seen.fault != "" {
		t.Errorf("%s\n%s", seen.fault, modelText(m))
	}
	return clauses
}

// Boxes under way wait for a delivery at 13 or one at 14; in between the place closes.
//
//	steps   10      12      14
//	boxes   |-----------|       or   |---------------|
//	closed                  ###   13 to 14
func TestBoxesThatLeaveOffTheGridMayLeaveInTime(t *testing.T) {
	mode := Mode{Amount: 1, Units: 1, Acts: []Activity{{Work: 0, Lag: Lag{Most: 2, Cost: make([]int32, 3)}}, {Work: 0, Lag: Lag{Most: 30}}},
		Stays: []Stay{{First: 1, Last: 1, Boxes: 1, Spaces: []int{0}}}}
	m := &Model{Step: 2, Horizon: 20, Kinds: []Kind{{Size: Rect{1, 1}, Height: 1}}, Spaces: []Space{{Capacity: 1, Closed: []Span{{13, 14}}}},
		Families: []Family{{Keeps: 20, Supply: -1}},
		Demands:  []Demand{{Due: 13, Units: 1, Value: 1}, {Due: 14, Units: 1, Value: 1}},
		Begun:    []Begun{{Mode: mode, Starts: []int{-2}, Workers: []int{-1}, Homes: []int{-1}}}}
	late := func(k *asked) []kernel.Lit { return []kernel.Lit{k.slots[0].give[1].Ge(1)} }
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
	stay := []Stay{{First: 0, Last: 0, Boxes: 1, Spaces: []int{0}}}
	soon := Mode{Amount: 1, Units: 1, Acts: []Activity{{Work: 0, Lag: Lag{Most: 2}}}, Stays: stay}
	begun := Mode{Amount: 1, Units: 1, Acts: []Activity{{Work: 3, Workers: []int{0}, Lag: Lag{Least: 2, Most: 30}}}, Stays: stay}
	m := &Model{Step: 1, Horizon: 10, Workers: []Worker{{Windows: []Span{{0, 10}}}}, Kinds: []Kind{{Size: Rect{1, 1}, Height: 1}}, Spaces: []Space{{Capacity: 1}},
		Families: []Family{{Keeps: 20, Supply: -1, Modes: []Mode{soon}}, {Keeps: 20, Supply: -1}},
		Demands:  []Demand{{Due: 2, Units: 1, Value: 1}},
		Begun:    []Begun{{Family: 1, Mode: begun, Starts: []int{-1}, Workers: []int{0}, Homes: []int{0}}}}
	soonest := func(k *asked) []kernel.Lit { return []kernel.Lit{k.cost[1].Le(0), k.slots[1].start[0].Le(0)} }
	if n := leftOut(t, m, soonest); n != 0 {
		t.Errorf("got %d clauses of boxes that stand one after another", n)
	}
	r := searched(context.Background(), m, Options{Budget: 100_000})
	if f := faultOf(m, r); f != "" || r.Cost.Short != 0 || r.Cost != r.Bound {
		t.Errorf("got %+v, bound %+v, fault %q; want nothing short, and proved", r.Cost, r.Bound, f)
	}
}

// A job that starts at 6 is delivered at once: it has no boxes in the place, whose floor is
// closed then, and that one from 5 on has is no reason against it.
func TestBoxesForNoTimeMeetNoClosing(t *testing.T) {
	mode := Mode{Amount: 1, Units: 1, Acts: []Activity{{Work: 0, Lag: Lag{Most: 30}}}, Stays: []Stay{{First: 0, Last: 0, Boxes: 1, Spaces: []int{0}}}}
	m := &Model{Step: 1, Horizon: 10, Packing: linePacking, Kinds: []Kind{{Size: Rect{1, 1}, Height: 2}},
		Spaces:   []Space{{Floors: []Floor{{Size: Rect{1, 1}, Height: 2, Closed: []Span{{2, 7}}}}, Closed: []Span{{2, 3}}}},
		Families: []Family{{Keeps: 4, Supply: -1, Modes: []Mode{mode}}},
		Demands:  []Demand{{Due: 6, Units: 1, Value: 1}}}
	early := func(k *asked) []kernel.Lit { return []kernel.Lit{k.slots[0].present(), k.slots[0].start[0].Le(5)} }
	if n := leftOut(t, m, early); n == 0 {
		t.Error("boxes on a floor that is closed were let in")
	}
}

// Boxes that come off the grid come, to the statement, at the next step: what is too much by
// then is found when they are put.
func TestBoxesThatComeOffTheGridAreCounted(t *testing.T) {
	list := []stander{{from: 0, until: 6, boxes: 1, fact: true}, {from: 5, until: 9, boxes: 1}, {from: 7, until: 8, boxes: 1}}
	for _, c := range []struct{ capacity, want int }{{1, 2}, {2, 0}} {
		if got := overfull(list, c.capacity); len(got) != c.want {
			t.Errorf("room for %d: got %v, want %d of them", c.capacity, got, c.want)
		}
	}
	facts := []stander{{from: 0, until: 6, boxes: 1, fact: true}, {from: 5, until: 9, boxes: 1, fact: true}, {from: 6, until: 8, boxes: 0}}
	if got := overfull(facts, 1); len(got) != 0 {
		t.Errorf("what has begun is no plan's fault: got %v", got)
	}
}
