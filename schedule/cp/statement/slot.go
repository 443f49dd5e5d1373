package statement

import (
	"ripeby/schedule/cp/calm"
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// Slot is a job that may be: a [chain.Prospect] with its variables. Its variables are in steps
// of the grid.
type Slot struct {
	chain.Prospect

	Here   kernel.Var // 0 or 1
	Size   kernel.Var // which of modes
	Start  []kernel.Var
	Done   []global.Moment // ends of the work of each activity
	Who    [][]kernel.Lit  // of each activity, one for each of its workers
	Pools  [][]Choice      // of each run
	Spaces [][]kernel.Lit  // of each stay, one for each of its spaces
	Draws  []Draw
	Give   []kernel.Var // units to each of reach
	Reach  []int        // demands
	units  kernel.Var   // the most it can give

	left  kernel.Var            // 1 while one under way that may be left where it is does not go on; 0 for one that goes on
	clear map[int]global.Moment // last delivery of one under way and so many ticks of cleaning

	Amount, Penalty, Early kernel.Var // 0 while it is not here
	Late                   kernel.Var // how late the lags of one under way are
	chains                 *chain.Costs
	told                   *calm.Slot // nil where nothing was told
}

// Choice is one pool that a run may use.
type Choice struct {
	Pool, Clean int
	Lit         kernel.Lit
}

// Draw is one intake that a job may draw on.
type Draw struct {
	Intake int
	Lit    kernel.Lit
}

// Present is the literal that the job is made.
func (sl *Slot) Present() kernel.Lit { return sl.Here.Ge(1) }

// table lists a number of every mode.
func (sl *Slot) table(of func(*problem.Mode) int32) global.Amount {
	out := global.Amount{By: sl.Size}
	same := true
	for _, m := range sl.Modes {
		out.Table = append(out.Table, of(m))
		same = same && out.Table[0] == of(m)
	}
	if same {
		out.Table = out.Table[:1]
	}
	return out
}

// addStarts keeps a start at moments at which one of its workers can do the work.
func (k *Statement) addStarts(sl *Slot, i int) {
	starts := sl.chains.Starts[i]
	ways := make([]global.Way, len(starts))
	for w := range ways {
		ways[w] = global.Way{If: k.Yes, Sets: starts[w]}
		if len(sl.Who[i]) > 0 {
			ways[w].If = sl.Who[i][w]
		}
	}
	global.AddAllowed(k.Kernel, sl.Start[i], sl.Size, ways, sl.Present())
}
