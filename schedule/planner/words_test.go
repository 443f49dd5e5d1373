package planner_test

import (
	"strings"
	"testing"

	"ripeby/schedule/testrun"
)

// Why a want is short is one or two sentences of 25 words at most.
func TestReasonsAreShort(t *testing.T) {
	said, kitchens := 0, testrun.Rounds(24, 48)
	for i := range kitchens {
		e, _ := tinyKitchen(*everySeed, i)
		plan := planFor(t, e.p, everyBudget)
		for _, w := range plan.Targets {
			if w.Because == "" {
				continue
			}
			said++
			sentences := strings.Split(strings.TrimSuffix(w.Because, "."), ". ")
			if len(sentences) > 2 {
				t.Errorf("kitchen %d: %d sentences: %s", i, len(sentences), w.Because)
			}
			for _, s := range sentences {
				if n := len(strings.Fields(s)); n > 25 {
					t.Errorf("kitchen %d: %d words: %s", i, n, s)
				}
			}
		}
	}
	if said < 20 {
		t.Errorf("got %d reasons: too few to mean much", said)
	}
}
