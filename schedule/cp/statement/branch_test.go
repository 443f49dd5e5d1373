package statement

import (
	"context"
	"testing"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/tiny"
)

// TestDecisionsGoOnFromWhereTheyWere: what is decided next is the first that is open, whatever was
// decided and taken back before.
func TestDecisionsGoOnFromWhereTheyWere(t *testing.T) {
	decisions, conflicts := 0, int64(0)
	for seed := range uint64(12) {
		s := chain.NewSchedule(tiny.Season(seed, 8))
		count := NewCounts()
		count.MakeRoom(&s.Ledger)
		k, ok := Of(s, nil, count)
		if !ok {
			t.Fatalf("season %d is not stated", seed)
		}
		b := k.NewBrancher()
		k.Kernel.Branch(func(s *kernel.Solver) (kernel.Lit, bool) {
			got, more := b.Next(s)
			if want, some := k.NewBrancher().Next(s); got != want || more != some {
				t.Fatalf("season %d: decision %d is %v, want %v", seed, decisions, got, want)
			}
			decisions++
			return got, more
		})
		served := append(k.noneOver(), k.Cost[problem.PartShort].Le(0))
		for least, most := k.Kernel.Min(k.Cost[problem.PartEarly]), k.Kernel.Max(k.Cost[problem.PartEarly]); least < most; {
			goal := least + (most-least)/2
			if k.Kernel.Search(context.Background(), 300_000, append(served, k.Cost[problem.PartEarly].Le(goal))...) == kernel.Solved {
				most = goal
			} else {
				least = goal + 1
			}
		}
		conflicts += k.Kernel.Counted.Conflicts
	}
	if decisions < 1000 || conflicts < 50 {
		t.Errorf("%d decisions, %d dead ends: too few to mean much", decisions, conflicts)
	}
	t.Logf("%d decisions, %d dead ends", decisions, conflicts)
}

// TestPartsAreSummedUpWhenAsked: of a part that is not summed up nothing is known; once it is, the same as
// where all are stated at once.
func TestPartsAreSummedUpWhenAsked(t *testing.T) {
	s := chain.NewSchedule(tiny.Season(1, 4))
	count := NewCounts()
	count.MakeRoom(&s.Ledger)
	k, ok := Sparing(s, nil, count)
	if !ok {
		t.Fatal("not stated")
	}
	// All is served, so there are jobs, which begin at some time.
	assume := append(k.noneOver(), k.Cost[problem.PartShort].Le(0), k.Cost[problem.PartEarly].Le(0))
	k.SumUp(problem.PartShort)
	k.Kernel.Branch(k.NewBrancher().Next)
	if st := k.Kernel.Search(context.Background(), budgetOfTests, assume...); st != kernel.Solved {
		t.Errorf("early starts not summed up: %v, want solved", st)
	}
	k.SumUp(problem.PartEarly)
	if st := k.Kernel.Search(context.Background(), budgetOfTests, assume...); st != kernel.Impossible {
		t.Errorf("early starts summed up: %v, want impossible", st)
	}
}

const budgetOfTests = 50_000_000
