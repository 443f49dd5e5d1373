package cp

import (
	"context"
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"ripeby/schedule/cp/search"
	"ripeby/schedule/cp/tiny"
	"ripeby/schedule/testrun"
)

// Two models drawn alike, so that nothing is shared between the two runs.
func TestSolveGivesTheSameAgain(t *testing.T) {
	testrun.Checks(t, 25)
	rapid.Check(t, func(t *rapid.T) {
		seed := uint64(tiny.DrawInt(t, 1, 1<<20, "seed"))
		budget := int64(tiny.DrawInt(t, 1, 300_000, "budget"))
		a := Solve(context.Background(), tiny.Season(seed, 6), search.Options{Budget: budget})
		b := Solve(context.Background(), tiny.Season(seed, 6), search.Options{Budget: budget})
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("twice the same model and budget %d: %+v and %+v", budget, a.Cost, b.Cost)
		}
	})
}

func TestSolveWithMoreBudgetIsNeverWorse(t *testing.T) {
	testrun.Checks(t, 25)
	rapid.Check(t, func(t *rapid.T) {
		seed := uint64(tiny.DrawInt(t, 1, 1<<20, "seed"))
		less := int64(tiny.DrawInt(t, 1, 400_000, "less"))
		more := less + int64(tiny.DrawInt(t, 1, 400_000, "more"))
		a := Solve(context.Background(), tiny.Season(seed, 5), search.Options{Budget: less})
		b := Solve(context.Background(), tiny.Season(seed, 5), search.Options{Budget: more})
		if a.Cost.Less(b.Cost) {
			t.Fatalf("seed %d: budget %d gives %+v, %d gives %+v", seed, less, a.Cost, more, b.Cost)
		}
	})
}

// The model is the caller's: solving leaves it as it was.
func TestSolveLeavesTheModelAlone(t *testing.T) {
	for seed := uint64(1); seed < 6; seed++ {
		m, same := tiny.Season(seed, 8), tiny.Season(seed, 8)
		r := Solve(context.Background(), m, search.Options{Budget: 100_000})
		if got, want := fmt.Sprintf("%+v", m.Families), fmt.Sprintf("%+v", same.Families); got != want {
			t.Errorf("seed %d: families changed", seed)
		}
		if !reflect.DeepEqual(m.Workers, same.Workers) || !reflect.DeepEqual(m.Pools, same.Pools) {
			t.Errorf("seed %d: workers or pools changed", seed)
		}
		if f := tiny.FaultOf(m, r); f != "" {
			t.Errorf("seed %d: %s", seed, f)
		}
	}
}
