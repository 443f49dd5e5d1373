package oracle

import (
	"ripeby/schedule/cp/kernel"
)

// T is what a check needs of a test. Fatalf does not come back.
type T interface {
	Fatalf(format string, args ...any)
	Errorf(format string, args ...any)
	Logf(format string, args ...any)
}

// Tally counts what checks met.
type Tally struct{ Narrowed, Refused, Conflicts, Solved, Wrong, Implied int }

// Enough demands that at least so many of each kind were met.
func (seen *Tally) Enough(t T, least int) {
	t.Logf("met %+v", *seen)
	for what, n := range map[string]int{
		"bounds narrowed": seen.Narrowed, "refusals": seen.Refused, "conflicts": seen.Conflicts,
		"solutions": seen.Solved, "wrong assignments": seen.Wrong, "reasons": seen.Implied,
	} {
		if n < least {
			t.Errorf("got %d %s: too few to mean much, want %d", n, what, least)
		}
	}
}

// Audit has every step of s checked against the solutions in all: those that the
// search is still asked for, so that whoever asks for others takes the rest out of it.
func (m *Model) Audit(t T, seed uint64, s *kernel.Solver, all *[][]int32, seen *Tally) {
	within := func(premises []kernel.Lit) {
		for _, p := range premises {
			if !s.True(p) {
				t.Fatalf("seed %d: premise %v of %v is not true when used\n%v", seed, p, premises, m)
			}
		}
	}
	s.SetAudit(&kernel.Audit{
		Implied: func(l kernel.Lit, premises []kernel.Lit) {
			within(premises)
			seen.Implied++
			for _, v := range *all {
				if AllTrue(premises, v) && !True(l, v) {
					t.Fatalf("seed %d: %v was said to follow from %v, but not in %v\n%v", seed, l, premises, v, m)
				}
			}
		},
		Conflict: func(premises []kernel.Lit) {
			within(premises)
			for _, v := range *all {
				if AllTrue(premises, v) {
					t.Fatalf("seed %d: %v were said to be impossible together, but hold in %v\n%v", seed, premises, v, m)
				}
			}
		},
		Learned: func(clause []kernel.Lit) {
			for _, v := range *all {
				if !AnyTrue(clause, v) {
					t.Fatalf("seed %d: learned %v, which %v breaks\n%v", seed, clause, v, m)
				}
			}
		},
	})
}
