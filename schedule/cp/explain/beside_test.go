package explain

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
)

// besideHints is what fits beside a result when it is taken for the plan in force; ok is
// false where it cannot be put back.
func besideHints(m *problem.Model, demand, units int) (s, with *search.Plan, ok bool) {
	n := *m
	n.Demands = slices.Clone(m.Demands)
	n.Demands[demand].Units = units
	s = search.Begin(&n)
	if !asHinted(s, false) {
		return nil, nil, false
	}
	return s, besideFor(s, demand), true
}

// Nothing is placed beside a plan of which it is not known where every box stands, nor
// beside any other, what is placed holds, and makes nothing later.
func TestNothingIsPlacedBesideWhatIsNotKnown(t *testing.T) {
	placed, unknown, late := 0, 0, 0
	tiny.CheckMany(t, 4, func(t *rapid.T) {
		k := tiny.Small(t)
		k.Demands, k.Length, k.Begun, k.Floors = tiny.DrawInt(t, 2, 4, "demands"), 30, tiny.DrawInt(t, 0, 2, "begun"), tiny.DrawInt(t, 0, 1, "floors") > 0
		m, with, r := drawAsked(t, k, 300_000)
		d := len(m.Demands) - 1
		units := with.Demands[d].Units
		s, beside, ok := besideHints(with, d, units)
		if !ok || tiny.LeavesSome(s.Jobs) || tiny.FaultOf(m, r) != "" { // what has begun may break rules
			return
		}
		if beside != nil && beside.Unmet[d] < units {
			placed++
			if s.Cost().Late > 0 {
				late++
			}
			if was, is := s.Cost().Late, beside.Cost().Late; is > was {
				t.Fatalf("%d late beside it, %d before\n%s", is, was, tiny.Text(m))
			}
			n := *with
			n.Demands = slices.Clone(with.Demands)
			n.Demands[d].Units = units
			if f := tiny.FaultOf(&n, beside.Result(problem.Cost{Early: -problem.Infinite})); f != "" {
				t.Fatalf("%s\n%s", f, tiny.Text(m))
			}
		}
		boxed := false
		for i := range with.Hints {
			for x := range with.Hints[i].Stood {
				boxed = boxed || len(with.Hints[i].Stood[x]) > 0
			}
			with.Hints[i].Stood = nil
		}
		if s, beside, ok := besideHints(with, d, units); ok && boxed && !s.KnowsBoxes() {
			if unknown++; beside != nil {
				t.Fatalf("placed beside boxes of which nobody knows where they stand\n%s", tiny.Text(m))
			}
		} else if ok && boxed && len(with.Begun) == 0 {
			t.Fatalf("it is said to be known where boxes stand\n%s", tiny.Text(m))
		}
	})
	t.Logf("%d placed, %d beside unknown boxes, %d beside what is late", placed, unknown, late)
	if placed < tiny.Few(20) || unknown < tiny.Few(5) || late < tiny.Few(1) {
		t.Errorf("got %d, %d, %d: too few to mean much", placed, unknown, late)
	}
}
