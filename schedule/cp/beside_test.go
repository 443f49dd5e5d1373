package cp

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// besideHints is what fits beside a result when it is taken for the plan in force; ok is
// false where it cannot be put back.
func besideHints(m *Model, demand, units int) (s, with *plan, ok bool) {
	n := *m
	n.Demands = slices.Clone(m.Demands)
	n.Demands[demand].Units = units
	s = newPlan(&n)
	s.settleHomes()
	if !asHinted(s, false) {
		return nil, nil, false
	}
	return s, besideFor(s, demand), true
}

// Nothing is placed beside a plan of which it is not known where every box stands, nor
// beside one in which something is late or stuck; beside any other, what is placed holds.
func TestNothingIsPlacedBesideWhatIsNotKnown(t *testing.T) {
	placed, unknown, late := 0, 0, 0
	checkMany(t, 4, func(t *rapid.T) {
		k := small(t)
		k.demands, k.length, k.begun, k.floors = drawInt(t, 2, 4, "demands"), 30, drawInt(t, 0, 2, "begun"), drawInt(t, 0, 1, "floors") > 0
		m, with, r := drawAsked(t, k, 300_000)
		d := len(m.Demands) - 1
		units := with.Demands[d].Units
		s, beside, ok := besideHints(with, d, units)
		if !ok || s.outOfCourse() || faultOf(m, r) != "" { // what has begun may break rules
			return
		}
		if i := slices.IndexFunc(s.jobs, func(j *Job) bool { return j.Begun >= 0 }); i >= 0 {
			s.jobs[i].Late = 1
			if late++; besideFor(s, d) != nil {
				t.Fatalf("placed beside what is late\n%s", modelText(m))
			}
		}
		if beside != nil && beside.unmet[d] < units {
			placed++
			n := *with
			n.Demands = slices.Clone(with.Demands)
			n.Demands[d].Units = units
			if f := faultOf(&n, beside.result(Cost{Early: -Infinite})); f != "" {
				t.Fatalf("%s\n%s", f, modelText(m))
			}
		}
		boxed := false
		for i := range with.Hints {
			for x := range with.Hints[i].Stood {
				boxed = boxed || len(with.Hints[i].Stood[x]) > 0
			}
			with.Hints[i].Stood = nil
		}
		if s, beside, ok := besideHints(with, d, units); ok && boxed && !s.knowsBoxes() {
			if unknown++; beside != nil {
				t.Fatalf("placed beside boxes of which nobody knows where they stand\n%s", modelText(m))
			}
		} else if ok && boxed && len(with.Begun) == 0 {
			t.Fatalf("it is said to be known where boxes stand\n%s", modelText(m))
		}
	})
	t.Logf("%d placed, %d beside unknown boxes, %d beside what is late", placed, unknown, late)
	if placed < few(20) || unknown < few(5) || late < few(5) {
		t.Errorf("got %d, %d, %d: too few to mean much", placed, unknown, late)
	}
}
