package cp

import (
	"context"
	"slices"

	"ripeby/schedule/cp/kernel"
)

// Inquiry is questions about a plan in force: what more it could give, with what moved,
// and why not more. Nothing of it changes the plan.
type Inquiry struct {
	r      *reasons
	left   *reasons // of a long plan: what is proved with the rest left out; nil where r is all
	demand int
	also   int          // a demand that must be met too, -1 for none
	inLeft []bool       // of left, as in
	in     []bool       // every fact but the asked demand itself
	jobs   []*Job       // of the plan
	k      *asked       // statement that same belongs to
	same   []kernel.Lit // of each job: it stays as it is
}

// Inquire takes the model's hints for the plan in force and prepares to ask about one of
// its demands, of which the plan gives nothing yet; nil where the plan cannot be put back as
// it was, or is too long to be stated. It counts up to budget work over all its questions.
// With also, a demand that the plan knew nothing of must be met in full beside it, and
// what is not wanted any more is left out; -1 for none.
func Inquire(ctx context.Context, m *Model, demand, also int, budget int64) *Inquiry {
	return inquire(ctx, m, demand, also, budget, defaultWhole)
}

// inquire is [Inquire] of a plan that is a long one with more than whole jobs.
func inquire(ctx context.Context, m *Model, demand, also int, budget int64, whole int) *Inquiry {
	s := newState(m, prepare(m))
	s.prep.whole = whole
	s.settleHomes()
	if !s.asHinted(also >= 0) {
		return nil
	}
	r := s.newReasons(ctx, demand, true)
	if r == nil {
		return nil
	}
	q := &Inquiry{r: r, demand: demand, also: also, in: r.allBut(demand), jobs: slices.Clone(r.s.jobs)}
	sortJobs(q.jobs)
	if !r.whole() {
		if q.left = s.newReasons(ctx, demand, false); q.left == nil {
			return nil
		}
		q.left.until, q.inLeft = s.spent+budget, q.left.allBut(demand)
	}
	r.until = s.spent + budget
	return q
}

// surely asks once more, where the plan is a long one, whether what nothing was found for
// cannot be: beside what is frozen it was not found, which is no proof.
func (q *Inquiry) surely(units int) answered {
	if q.left == nil {
		return cannot
	}
	q.left.askFor(q.demand, units)
	is, _ := q.left.possible(q.inLeft)
	if is == cannot {
		return cannot
	}
	return unknown
}

// hold makes the literals by which jobs stay as they are.
func (q *Inquiry) hold() {
	k := q.r.k
	q.k, q.same = k, nil
	taken := map[*slot]bool{}
	for _, j := range q.jobs {
		sl := k.slotFor(j, taken)
		in := k.k.NewVar(0, 1).Ge(1)
		q.same = append(q.same, in)
		if sl == nil { // there is no such job any more, not even alone
			k.k.AddClause(in.Not())
			continue
		}
		taken[sl] = true
		stay := func(l kernel.Lit) { k.k.AddClause(in.Not(), l) }
		stay(sl.present())
		if j.Begun < 0 {
			stay(sl.size.Ge(int32(j.Mode)))
			stay(sl.size.Le(int32(j.Mode)))
		}
		for i := sl.fixed; i < sl.acts(); i++ {
			stay(sl.start[i].Ge(k.g.down(j.Starts[i])))
			stay(sl.start[i].Le(k.g.down(j.Starts[i])))
		}
		k.picks(sl, j, func(l kernel.Lit, taken bool) {
			if taken {
				stay(l)
			}
		})
	}
}

// ask asks for a plan that gives the demand so many units, with the jobs kept that are
// marked; where there is none it gives the jobs that forbid it, beside facts.
func (q *Inquiry) ask(units int, kept []bool, also ...func(*asked) kernel.Lit) (answered, []bool) {
	q.r.askFor(q.demand, units)
	q.r.also = func() []kernel.Lit {
		if q.k != q.r.k {
			q.hold()
		}
		var out []kernel.Lit
		for i := range kept {
			if kept[i] {
				out = append(out, q.same[i])
			}
		}
		for _, f := range also {
			out = append(out, f(q.k))
		}
		if q.also >= 0 {
			out = append(out, q.k.short[q.also].Le(0))
		}
		return out
	}
	is, _ := q.r.possible(q.in)
	if is != cannot {
		return is, nil
	}
	core := make([]bool, len(kept))
	for i := range kept {
		core[i] = kept[i] && slices.Contains(q.r.core, q.same[i])
	}
	return is, core
}

// all marks every job.
func (q *Inquiry) all() []bool {
	out := make([]bool, len(q.jobs))
	for i := range out {
		out[i] = true
	}
	return out
}

// Stands asks whether the plan in force keeps all rules as it is.
func (q *Inquiry) Stands() bool {
	if q.also >= 0 {
		return true // it is another plan that is looked for
	}
	is, _ := q.ask(0, q.all())
	return is == can
}

// Most is the most units up to a number that the demand can get while the others get no
// less than they do; known is false where the work allowed did not tell, and then it is
// as many as a plan was found for.
func (q *Inquiry) Most(units int) (most int, known bool) {
	lo, hi, known := 0, units, true
	for lo < hi {
		n := (lo + hi + 1) / 2
		switch {
		case lo == 0 && hi == units && units > 1:
			n = 1 // any at all, first
		case hi == units:
			n = hi // then all of them
		}
		is, told := q.Can(n)
		if is {
			lo = n
			continue
		}
		hi, known = n-1, known && told
	}
	return lo, known
}

// Can reports whether the demand can get so many units while the others get no less than
// they do; known is false where the work allowed did not tell.
func (q *Inquiry) Can(units int) (is, known bool) {
	switch is, _ := q.ask(units, make([]bool, len(q.jobs))); is {
	case can:
		return true, true
	case cannot:
		return false, q.surely(units) == cannot
	}
	return false, false
}

// Fit is a plan that gives the demand its units.
type Fit struct {
	Result *Result
	Moved  int // jobs of the plan in force that are otherwise than they were
}

// Fits looks for a plan that gives the demand so many units and leaves as many jobs as they
// are as it can; nil when there is none, or none was found: then known tells which.
func (q *Inquiry) Fits(units int) (fit *Fit, known bool) {
	kept := q.all()
	is, core := q.ask(units, kept)
	for is == cannot {
		moved := false
		for i := range core {
			if core[i] {
				kept[i], moved = false, true
			}
		}
		if !moved {
			return nil, q.surely(units) == cannot
		}
		is, core = q.ask(units, kept)
	}
	if is != can { // with less kept it may be easier to tell
		clear(kept)
		switch is, _ = q.ask(units, kept); is {
		case cannot:
			return nil, q.surely(units) == cannot
		case unknown:
			return nil, false
		}
	}
	best := q.r.found()
	for i := range kept {
		if kept[i] {
			continue
		}
		kept[i] = true
		if is, _ := q.ask(units, kept); is == can {
			best = q.r.found()
		} else {
			kept[i] = false
		}
	}
	best = q.fewest(units, kept, best)
	n := 0
	for i := range kept {
		if !kept[i] {
			n++
		}
	}
	return &Fit{Result: q.settled(best, kept), Moved: n}, true
}

// Any is a plan that gives the demand so many units, whatever moves; nil for none found.
func (q *Inquiry) Any(units int) *Result {
	none := make([]bool, len(q.jobs))
	if is, _ := q.ask(units, none); is != can {
		return nil
	}
	return q.settled(q.r.found(), none)
}

// fewest asks for the same with fewer jobs, and then for less of an amount.
func (q *Inquiry) fewest(units int, kept []bool, best *state) *state {
	for _, part := range []int{2, 3} {
		for {
			cost := best.cost()
			less := func(k *asked) kernel.Lit { return k.cost[part].Le(k.value(cost, part) - 1) }
			keep := func(k *asked) kernel.Lit { return k.cost[2].Le(k.value(cost, 2)) }
			if is, _ := q.ask(units, kept, less, keep); is != can {
				break
			}
			best = q.r.found()
		}
	}
	return best
}

// settled places every job that is new or may move once more, at its best beside all others.
func (q *Inquiry) settled(s *state, kept []bool) *Result {
	for _, j := range slices.Clone(s.jobs) {
		if j.Begun >= 0 || q.isKept(j, kept) {
			continue
		}
		s.remove(j)
		again, ok := s.placeOrder(j.Family, j.Shares)
		if !ok || again.Bother > j.Bother || again.Mode != j.Mode {
			again = j
		}
		s.add(again)
	}
	q.r.plan.spent += s.spent
	return s.result(Cost{Early: -Infinite})
}

// isKept reports whether a job is one that stays as it is.
func (q *Inquiry) isKept(j *Job, kept []bool) bool {
	if b := q.r.s.beside; b != nil && slices.Contains(b.jobs, j) {
		return true
	}
	for i, o := range q.jobs {
		if kept[i] && o.Family == j.Family && o.Begun == j.Begun && slices.Equal(o.Starts, j.Starts) && slices.Equal(o.Workers, j.Workers) {
			return true
		}
	}
	return false
}

// Helps reports whether one unit more could be had with one fact lifted for good: where it
// could not, less of a change of that fact cannot help either. It is true where the work
// allowed did not tell.
func (q *Inquiry) Helps(f Fact) bool {
	lift := func(r *reasons, in []bool) (back func()) {
		i := -1
		if r != nil {
			i = slices.Index(r.facts, f)
		}
		if i < 0 {
			return func() {}
		}
		kept := in[i]
		in[i] = false
		return func() { in[i] = kept }
	}
	defer lift(q.r, q.in)()
	defer lift(q.left, q.inLeft)()
	is, _ := q.ask(1, make([]bool, len(q.jobs)))
	if is == cannot {
		is = q.surely(1)
	}
	return is != cannot
}

// Why is the reason why the demand cannot get so many units.
func (q *Inquiry) Why(units int) Reason {
	if plain := q.r.plan.plainReason(q.demand); plain.Kind != ReasonOpen {
		return plain
	}
	if q.left != nil {
		return q.left.reason(q.demand, units)
	}
	q.r.also = nil
	return q.r.reason(q.demand, units)
}

// Short is how many units of each demand the plan in force is short of.
func (q *Inquiry) Short() []int { return q.r.plan.unmet }

// Soonest is the least tick by which the demand can have so many units ready, no sooner
// than from; ok is false where there is no plan at all for them, or none was found.
// Known is false where the work allowed did not tell whether it could be sooner.
func (q *Inquiry) Soonest(units, from int) (ready int, known, ok bool) {
	none := make([]bool, len(q.jobs))
	step, due := q.r.plan.m.Step, q.r.plan.m.Demands[q.demand].Due
	lo, hi, known := 0, max((due-from)/step, 0)+1, true // in steps after from, hi ticks are too many
	is, _ := q.ask(units, none)
	if is != can {
		return 0, is == cannot && q.left == nil, false
	}
	hi = min(hi, max((q.readyIn(q.r.found())-from+step-1)/step, 0))
	for lo < hi {
		mid := (lo + hi) / 2
		is, _ := q.ask(units, none, func(k *asked) kernel.Lit { return k.readyBy(q.demand, from+mid*step) })
		switch is {
		case can:
			hi = min(mid, max((q.readyIn(q.r.found())-from+step-1)/step, 0))
		case cannot:
			lo, known = mid+1, known && q.left == nil
		default:
			lo, known = mid+1, false
		}
	}
	return from + hi*step, known, true
}

// readyIn is when the last unit that the demand gets in a plan is ready.
func (q *Inquiry) readyIn(s *state) int {
	last := -Infinite
	for _, j := range s.jobs {
		if unitsFor(j.Shares, q.demand) > 0 {
			last = max(last, j.Ready)
		}
	}
	for i := range s.stocks {
		if unitsFor(s.stocks[i].Shares, q.demand) > 0 {
			last = max(last, s.m.Stocks[i].Ready)
		}
	}
	return last
}

// readyBy is a literal under which all that a demand gets is ready by a tick.
func (k *asked) readyBy(demand, tick int) kernel.Lit {
	in := k.k.NewVar(0, 1).Ge(1)
	for _, sl := range k.slots {
		for x, d := range sl.reach {
			if d == demand {
				k.k.AddClause(in.Not(), sl.give[x].Le(0), atMost(sl.done[sl.acts()-1], k.g.down(tick)))
			}
		}
	}
	return in
}
