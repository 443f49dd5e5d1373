package cp

import (
	"cmp"
	"context"
	"sort"
)

// DefaultBudget is the counted work of one [Solve] where the caller sets none.
const DefaultBudget = 120_000_000

// searchShare: one part in so many of the work left after the first plan goes to
// finding a better one before it is proved; of a plan that is improved by stretches all
// but one part in longShare, since the kernel finds little where there is much to state.
const (
	searchShare = 16
	longShare   = 2
)

// defaultWhole is the number of jobs up to which the whole model is stated to the
// kernel; a longer plan is stated a stretch at a time, and keeps the bound of the covers.
const defaultWhole = 64

// Options steer a [Solve].
type Options struct {
	Budget int64 // counted work; 0 for DefaultBudget
	// Progress is called now and then with the best cost so far, its bound and
	// the work spent; nil for never.
	Progress func(best, bound Cost, spent int64)
	// Whole is the number of jobs up to which the whole model is stated to the kernel,
	// and Stretch that of a stretch of a longer plan; 0 for the defaults.
	Whole, Stretch int

	parts  int   // so many parts of the cost are proved, 0 for all
	kernel int64 // counted work of the kernel, 0 for no limit of its own
}

// filled has the defaults where nothing is set.
func (o Options) filled() Options {
	if o.Budget <= 0 {
		o.Budget = DefaultBudget
	}
	o.Whole, o.Stretch = cmp.Or(o.Whole, defaultWhole), cmp.Or(o.Stretch, defaultStretch)
	o.parts = cmp.Or(o.parts, costParts)
	return o
}

// find finds a good plan and a bound for it, and gives the work that is kept for the reasons
// of what is short. The same model and budget give the same result, unless ctx ends it
// early; then it gives the best found so far.
func find(ctx context.Context, m *Model, opt Options) (r *Result, found *plan, forReasons int64) {
	opt = opt.filled()
	s := newPlan(m)
	s.whole = opt.Whole
	s.settleHomes()
	covered, bound := s.chooseOpening()
	stopped := func() bool { return ctx.Err() != nil }
	im := s.firstPlan(covered)
	for _, o := range s.otherHomes() {
		if s.spent >= opt.Budget || stopped() || im.cost == s.bounded(bound, im.cost) {
			break
		}
		o.spent = s.spent
		other := o.build(covered, 0)
		if other.cost.Less(im.cost) {
			im = other
		}
		s.spent = other.s.spent
	}
	im.s.spent = max(im.s.spent, s.spent)
	s = im.s
	report := func() {
		b := s.bounded(bound, im.best) // it is work, whoever listens
		if opt.Progress != nil {
			opt.Progress(im.best, b, s.spent)
		}
	}
	im.start()
	report()
	search := s.spent + (opt.Budget-s.spent)/searchShare
	switch n := len(s.jobs); {
	case n > opt.Whole:
		search = s.spent + (opt.Budget-s.spent)/horizonShare
	case n > wholeJobs:
		search = opt.Budget - opt.Budget/longShare
	}
	if opt.kernel > 0 {
		search = min(search, s.spent+opt.kernel)
	}
	more := func() bool { return s.spent < search && !stopped() && im.best != s.bounded(bound, im.best) }
	im.settleEach(more)
	im.start()
	report()
	im.improve(more, report)
	im.finish()
	im.settleEach(func() bool { return s.spent < search+search/8 && !stopped() })
	keep := im.keptForReasons(opt)
	b := s.bounded(bound, im.cost)
	proof := opt
	proof.Budget -= keep
	switch {
	case len(s.jobs) > opt.Whole:
		until := proof.Budget
		if keep > 0 {
			until -= (proof.Budget - s.spent) / groupShare
		}
		h := &horizon{im: im, ctx: ctx, size: opt.Stretch, until: until, report: report,
			settled: func(c Cost) bool { return c.servesAs(s.bounded(bound, c)) }}
		h.press()
		g := &divided{s: s, ctx: ctx, size: opt.Stretch, until: proof.Budget, kernel: (proof.Budget - s.spent) / kernelShare * groupShare}
		b = g.bound(s.bounded(bound, im.cost))
	case im.cost != b:
		p := s.prove(ctx, bound, proof, func(p *prover) {
			if opt.Progress != nil {
				opt.Progress(p.cost, p.bound, p.s.spent)
			}
		})
		p.settle()
		s, b = p.s, p.bound
		if s.outOfCourse() {
			b = im.goOn(s, bound, s.spent+(proof.Budget-s.spent)/2, stopped) // the reasons have the other half
		}
	}
	r = s.result(b)
	r.Spent, r.Stopped = s.spent, stopped()
	return r, s, max(keep, (opt.Budget-s.spent)/2)
}

// keptForReasons is the work that is kept for the reasons of what is short.
func (im *improver) keptForReasons(opt Options) int64 {
	switch {
	case im.cost.PromisedShort+im.cost.Short == 0:
		return 0
	case len(im.s.jobs) > opt.Whole:
		return opt.Budget / (2 * reasonShare) // its stretches need the work more
	}
	return opt.Budget / reasonShare
}

// plan is a schedule that is searched, with what bounds it.
type plan struct {
	schedule
	frozen *ledger // what stays as it is while this is stated, nil for nothing
	relax  *relaxation
	whole  int           // jobs up to which a plan is stated whole
	stated func(*prover) // told of every statement before it is searched, by a test; nil for nobody
}

// newPlan is a plan of a model with nothing in it.
func newPlan(m *Model) *plan {
	return &plan{schedule: *newSchedule(m), relax: newRelaxation(), whole: defaultWhole}
}

// emptied is a plan with nothing in it of the same kitchen, with what is known of it.
func (s *plan) emptied(m *Model) *plan {
	return &plan{schedule: emptySchedule(m, s.prep), relax: s.relax, whole: s.whole, stated: s.stated}
}

// bounded is what bounds a plan of such a cost.
func (s *plan) bounded(cover, cost Cost) Cost { return s.relax.boundFor(&s.schedule, cover, cost) }

// sources are the stock and jobs under way of one family, soonest first.
func (x *relaxation) sources(s *schedule, family int) []source {
	var out []source
	for i := range s.m.Stocks {
		st := &s.m.Stocks[i]
		if st.Family == family && st.Units > 0 {
			out = append(out, source{i, -1, st.Units, st.Ready, st.Ready})
		}
	}
	for b := range s.m.Begun {
		bg := &s.m.Begun[b]
		if bg.Family == family && bg.Mode.Units > 0 {
			lo, hi := x.begunReady(s, b)
			out = append(out, source{-1, b, bg.Mode.Units, lo, hi})
		}
	}
	sort.SliceStable(out, func(i, k int) bool { return out[i].readyMin < out[k].readyMin })
	return out
}

// begunReady is when a job under way can be ready, by its lags alone.
func (x *relaxation) begunReady(s *schedule, b int) (lo, hi int) {
	bg := &s.m.Begun[b]
	n := len(bg.Mode.Acts)
	if k := len(bg.Starts); k == n {
		t := bg.Starts[n-1] + bg.Mode.Acts[n-1].Work
		return t, t
	}
	q := s.begunQuery(b, nil)
	if s.ranges(q) {
		if _, ok := carryAlone(s, b); ok {
			return q.lo[n-1] + bg.Mode.Acts[n-1].Work, q.hi[n-1] + bg.Mode.Acts[n-1].Work
		}
	}
	x.lateAlone[b] = true
	if len(bg.Starts) == 0 {
		return s.m.From, s.m.Horizon
	}
	q.late = s.m.Horizon - bg.Starts[len(bg.Starts)-1]
	if s.ranges(q) {
		return q.lo[n-1] + bg.Mode.Acts[n-1].Work, s.m.Horizon
	}
	return s.m.From, s.m.Horizon
}

// carryAlone places a job under way, in time, with the kitchen to itself.
func carryAlone(s *schedule, b int) (*Job, bool) {
	alone := s.prep.empty(s.m)
	alone.homes = s.homes
	before := alone.spent
	j, ok := alone.place(alone.begunQuery(b, nil))
	s.spent += alone.spent - before
	alone.spent = before
	return j, ok
}

// begunBother is the least that the rest of a job under way can cost.
func (x *relaxation) begunBother(s *schedule, b int) int64 {
	if len(s.m.Begun[b].Starts) == len(s.m.Begun[b].Mode.Acts) {
		return 0
	}
	if known, ok := x.alone[b]; ok {
		return known
	}
	bother := int64(0)
	if j, ok := carryAlone(s, b); ok {
		bother = j.Bother
	}
	x.alone[b] = bother
	return bother
}

// result is what is placed now, begun jobs first in the model's order and new
// ones by start.
func (s *plan) result(bound Cost) *Result {
	r := &Result{Stocks: s.stocks, Short: s.unmet, Cost: s.cost(), Bound: bound}
	jobs := append([]*Job(nil), s.jobs...)
	sort.SliceStable(jobs, func(i, k int) bool {
		a, b := jobs[i], jobs[k]
		switch {
		case (a.Begun >= 0) != (b.Begun >= 0):
			return a.Begun >= 0
		case a.Begun >= 0:
			return a.Begun < b.Begun
		case a.Starts[0] != b.Starts[0]:
			return a.Starts[0] < b.Starts[0]
		case a.Family != b.Family:
			return a.Family < b.Family
		default:
			return a.Ready < b.Ready
		}
	})
	for _, j := range jobs {
		s.fillSlips(j, slipWork)
		r.Jobs = append(r.Jobs, *j)
	}
	return r
}
