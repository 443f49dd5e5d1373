package cp

import (
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// slot is a job that may be: a [prospect] with its variables. Its variables are in steps of the grid.
type slot struct {
	prospect

	here   kernel.Var // 0 or 1
	size   kernel.Var // which of modes
	start  []kernel.Var
	done   []global.Moment // ends of the work of each activity
	who    [][]kernel.Lit  // of each activity, one for each of its workers
	pools  [][]choice      // of each run
	spaces [][]kernel.Lit  // of each stay, one for each of its spaces
	draws  []draw
	give   []kernel.Var // units to each of reach
	reach  []int        // demands
	units  kernel.Var   // the most it can give

	clear map[int]global.Moment // last delivery of one under way and so many ticks of cleaning

	amount, bother, early kernel.Var // 0 while it is not here
	chains                *chainCosts
}

// choice is one pool that a run may use.
type choice struct {
	pool, clean int
	lit         kernel.Lit
}

// draw is one intake that a job may draw on.
type draw struct {
	intake int
	lit    kernel.Lit
}

// present is the literal that the job is made.
func (sl *slot) present() kernel.Lit { return sl.here.Ge(1) }

// table lists a number of every mode.
func (sl *slot) table(of func(*Mode) int32) global.Amount {
	out := global.Amount{By: sl.size}
	same := true
	for _, m := range sl.modes {
		out.Table = append(out.Table, of(m))
		same = same && out.Table[0] == of(m)
	}
	if same {
		out.Table = out.Table[:1]
	}
	return out
}

// alike reports whether the modes of a family differ only in ways that grow with
// the size: the statement counts on it.
func alike(modes []*Mode) bool {
	for k := 1; k < len(modes); k++ {
		a, b := modes[k-1], modes[k]
		if a.Amount > b.Amount || a.Units > b.Units || len(a.Acts) != len(b.Acts) || len(a.Runs) != len(b.Runs) || len(a.Stays) != len(b.Stays) {
			return false
		}
		for i := range a.Acts {
			x, y := &a.Acts[i], &b.Acts[i]
			if x.Work > y.Work || (x.Work == 0) != (y.Work == 0) || x.Lag.Least != y.Lag.Least || x.Lag.Most != y.Lag.Most || !slices.Equal(x.Workers, y.Workers) {
				return false
			}
			for l := range x.Lag.Cost {
				if x.Lag.Cost[l] != y.Lag.Cost[l] {
					return false
				}
				if &x.Lag.Cost[0] == &y.Lag.Cost[0] {
					break
				}
			}
		}
		for r := range a.Runs {
			x, y := &a.Runs[r], &b.Runs[r]
			if x.First != y.First || x.Last != y.Last || x.Amount > y.Amount || !allOf(y.Choices, x.Choices) {
				return false
			}
		}
		for r := range a.Stays {
			x, y := &a.Stays[r], &b.Stays[r]
			if x.First != y.First || x.Last != y.Last || x.Kind != y.Kind || x.Boxes > y.Boxes || !slices.Equal(x.Spaces, y.Spaces) {
				return false
			}
		}
	}
	return true
}

// allOf reports whether every choice of part is one of whole.
func allOf(part, whole []PoolChoice) bool {
	return !slices.ContainsFunc(part, func(c PoolChoice) bool { return !slices.Contains(whole, c) })
}
