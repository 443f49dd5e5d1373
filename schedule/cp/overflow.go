package cp

import (
	"context"
	"slices"

	"ripeby/schedule/cp/global"
	"ripeby/schedule/cp/kernel"
)

// overflow is any number of further jobs of a family with a last delivery. They
// give no more than so many jobs can, and take the least amount that this needs.
type overflow struct {
	family, due int
	jobs        kernel.Var
	give        []kernel.Var
	reach       []int
	amount      kernel.Var
}

// none is the literal that there are no further jobs.
func (o *overflow) none() kernel.Lit { return o.jobs.Le(0) }

// addOverflow adds what stands for up to so many jobs more.
func (k *asked) addOverflow(family, due, most int) *overflow {
	f := &k.m.Families[family]
	large := int64(f.Modes[len(f.Modes)-1].Units)
	o := &overflow{family: family, due: due, jobs: k.k.NewVar(0, int32(most))}
	var sum []global.Term
	for _, d := range k.within(family, due) {
		x := k.k.NewVar(0, int32(k.m.Demands[d].Units))
		sum = append(sum, global.Term{View: x.Up(), Times: 1})
		o.give, o.reach = append(o.give, x), append(o.reach, d)
	}
	global.AddLinear(k.k, append(sum, global.Term{View: o.jobs.Down(), Times: large}), 0)
	o.amount = k.k.NewVar(0, 1<<30)
	best := rate{}
	for m := range f.Modes {
		if r := (rate{int64(f.Modes[m].Units), f.Modes[m].Amount / k.unit[3]}); r.better(best) {
			best = r
		}
	}
	// amount x units of the best rate  >=  given x amount of the best rate
	if best.amount > 0 {
		var need []global.Term
		for _, t := range sum {
			need = append(need, global.Term{View: t.View, Times: best.amount})
		}
		global.AddLinear(k.k, append(need, global.Term{View: o.amount.Down(), Times: best.value}), 0)
	}
	if least := f.Modes[0].Amount / k.unit[3]; least > 0 {
		global.AddLinear(k.k, []global.Term{{View: o.jobs.Up(), Times: least}, {View: o.amount.Down(), Times: 1}}, 0)
	}
	k.over = append(k.over, o)
	return o
}

// room is how many jobs of a last delivery a question may use: the slots that are open,
// while closed[open] is assumed. The last of closed is the overflow's own.
type room struct {
	key    slotKey
	closed []kernel.Lit
	open   int
}

// noneOver are the literals that there are no jobs beyond the open slots.
func (k *asked) noneOver() []kernel.Lit {
	var out []kernel.Lit
	for i := range k.rooms {
		out = append(out, k.rooms[i].shut())
	}
	return out
}

// shut is the literal that there is none beyond the open slots.
func (r *room) shut() kernel.Lit { return r.closed[r.open] }

// question searches within so much of our counted work, with no jobs beyond the open slots.
// Where there is no answer it gives the core, and the last deliveries of which more jobs
// might give one.
func (k *asked) question(ctx context.Context, budget int64, assume []kernel.Lit) (st kernel.Status, over []*room, core []kernel.Lit, spent int64) {
	before := k.k.Work()
	st = k.k.Search(ctx, budget*kernelWork, append(assume, k.noneOver()...)...)
	if st == kernel.Impossible {
		over, core = k.needed(ctx, k.k.Core(), budget*kernelWork)
	}
	return st, over, core, (k.k.Work()-before)/kernelWork + 1
}

// needed makes a core smaller by the rooms that it does without, and gives those that
// are left in it: with further jobs of their kind the question might have another answer.
func (k *asked) needed(ctx context.Context, core []kernel.Lit, budget int64) ([]*room, []kernel.Lit) {
	core = slices.Clone(core)
	for i := range k.rooms {
		n := slices.Index(core, k.rooms[i].shut())
		if n < 0 || len(core) == 1 {
			continue
		}
		without := slices.Delete(slices.Clone(core), n, n+1)
		if k.k.Search(ctx, budget/neededShare, without...) == kernel.Impossible {
			core = slices.Clone(k.k.Core())
		}
	}
	var over []*room
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
