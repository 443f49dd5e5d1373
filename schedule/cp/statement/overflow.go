package statement

import (
	"context"
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// Overflow is any number of further jobs of a family with a last delivery. They
// give no more than so many jobs can, and take the least amount that this needs.
type Overflow struct {
	Family, Due int
	Jobs        kernel.Var
	Give        []kernel.Var
	Reach       []int
	Amount      kernel.Var
	chains      *chain.Costs // of any one of them alone in the kitchen
}

// least is the least penalty of one of them, and its first start the latest that any has.
func (o *Overflow) least() (penalty, latest int32) {
	row := o.chains.Least[0][0]
	return row.Within(0, int32(len(row.Cost))-1, 0), o.chains.Hi[0]
}

// None is the literal that there are no further jobs.
func (o *Overflow) None() kernel.Lit { return o.Jobs.Le(0) }

// addOverflow adds what stands for up to so many jobs more.
func (k *Statement) addOverflow(family, due, most int, chains *chain.Costs) *Overflow {
	f := &k.Model.Families[family]
	large := int64(f.Modes[len(f.Modes)-1].Units)
	o := &Overflow{Family: family, Due: due, chains: chains, Jobs: k.Kernel.NewVar(0, int32(most))}
	var sum []global.Term
	for _, d := range k.within(family, due) {
		x := k.Kernel.NewVar(0, int32(k.Model.Demands[d].Units))
		sum = append(sum, global.Term{View: x.Up(), Times: 1})
		o.Give, o.Reach = append(o.Give, x), append(o.Reach, d)
	}
	global.AddLinear(k.Kernel, append(sum, global.Term{View: o.Jobs.Down(), Times: large}), 0)
	o.Amount = k.Kernel.NewVar(0, 1<<30)
	best := problem.Rate{}
	for m := range f.Modes {
		if r := (problem.Rate{Value: int64(f.Modes[m].Units), Amount: f.Modes[m].Amount / k.unit[problem.PartAmount]}); r.Better(best) {
			best = r
		}
	}
	// amount x units of the best rate  >=  given x amount of the best rate
	if best.Amount > 0 {
		var need []global.Term
		for _, t := range sum {
			need = append(need, global.Term{View: t.View, Times: best.Amount})
		}
		global.AddLinear(k.Kernel, append(need, global.Term{View: o.Amount.Down(), Times: best.Value}), 0)
	}
	if least := f.Modes[0].Amount / k.unit[problem.PartAmount]; least > 0 {
		global.AddLinear(k.Kernel, []global.Term{{View: o.Jobs.Up(), Times: least}, {View: o.Amount.Down(), Times: 1}}, 0)
	}
	k.Over = append(k.Over, o)
	return o
}

// noneOver are the literals that there are no jobs beyond the open slots.
func (k *Statement) noneOver() []kernel.Lit {
	var out []kernel.Lit
	for i := range k.rooms {
		out = append(out, k.rooms[i].shut())
	}
	return out
}

// Ask searches within so much of our counted work, with no jobs beyond the open slots.
// Where there is no answer it gives the core, and the last deliveries of which more jobs
// might give one.
func (k *Statement) Ask(ctx context.Context, budget int64, assume []kernel.Lit) (st kernel.Status, over []*Room, core []kernel.Lit, spent int64) {
	before := k.Kernel.Work()
	st = k.Kernel.Search(ctx, budget*kernelWork, append(assume, k.noneOver()...)...)
	if st == kernel.Impossible {
		over, core = k.needed(ctx, k.Kernel.Core(), budget*kernelWork)
	}
	return st, over, core, (k.Kernel.Work()-before)/kernelWork + 1
}

// needed makes a core smaller by the rooms that it does without, and gives those that
// are left in it: with further jobs of their kind the question might have another answer.
func (k *Statement) needed(ctx context.Context, core []kernel.Lit, budget int64) ([]*Room, []kernel.Lit) {
	core, _ = kernel.Shrink(core, k.noneOver(), func(rest []kernel.Lit) (kernel.Status, []kernel.Lit) {
		if len(rest) == 0 {
			return kernel.Solved, nil
		}
		return k.Kernel.Search(ctx, budget/neededShare, rest...), k.Kernel.Core()
	})
	var over []*Room
	for i := range k.rooms {
		if slices.Contains(core, k.rooms[i].shut()) {
			over = append(over, &k.rooms[i])
		}
	}
	return over, core
}

// neededShare: one part in so many of a question's budget goes to each look at an overflow
// of its core.
const neededShare = 32

// kernelWork is how much of the kernel's counted work is one unit of ours.
const kernelWork = 4
