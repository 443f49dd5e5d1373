package search

import (
	"cmp"
	"context"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// reasonShare: one part in so many of a budget is kept for the reasons of what is
// short, beside what the proof leaves.
const reasonShare = 8

// DefaultBudget is the counted work of one [cp.Solve] where the caller sets none.
const DefaultBudget = 120_000_000

// searchShare: one part in so many of the work left after the first plan goes to
// finding a better one before it is proved; of a plan that is improved by segments all
// but one part in longShare, since the kernel finds little where there is much to state.
const (
	searchShare = 16
	longShare   = 2
)

// DefaultWhole is the number of jobs up to which the whole model is stated to the
// kernel; a longer plan is stated a segment at a time, and keeps the bound of the covers.
const DefaultWhole = 64

// Options steer a [cp.Solve].
type Options struct {
	Budget int64 // counted work; 0 for DefaultBudget
	// Progress is called now and then with the best cost so far, its bound and
	// the work spent; nil for never.
	Progress func(best, bound problem.Cost, spent int64)
	// Whole is the number of jobs up to which the whole model is stated to the kernel,
	// and Segment that of a segment of a longer plan; 0 for the defaults.
	Whole, Segment int

	parts  int   // so many parts of the cost are proved, 0 for all
	kernel int64 // counted work of the kernel, 0 for no limit of its own
}

// filled has the defaults where nothing is set.
func (o Options) filled() Options {
	if o.Budget <= 0 {
		o.Budget = DefaultBudget
	}
	o.Whole, o.Segment = cmp.Or(o.Whole, DefaultWhole), cmp.Or(o.Segment, defaultSegment)
	o.parts = cmp.Or(o.parts, problem.CostParts)
	return o
}

// Find finds a good plan and a bound for it, and gives the work that is kept for the reasons
// of what is short. The same model and budget give the same result, unless ctx ends it
// early; then it gives the best found so far.
func Find(ctx context.Context, m *problem.Model, opt Options) (r *problem.Result, found *Plan, forReasons int64) {
	opt = opt.filled()
	s := NewPlan(m)
	s.Whole = opt.Whole
	s.Limit = chain.Limit{Ctx: ctx, Until: opt.Budget}
	s.SettleHomes()
	covered, bound := s.chooseOpening()
	stopped := func() bool { return ctx.Err() != nil }
	im := s.firstPlan(covered)
	for _, o := range s.otherHomes() {
		if s.Spent >= opt.Budget || stopped() || im.cost == s.bounded(bound, im.cost) {
			break
		}
		o.Spent = s.Spent
		other := o.build(covered, 0)
		if other.cost.Less(im.cost) {
			im = other
		}
		s.Spent = other.s.Spent
	}
	im.s.Spent = max(im.s.Spent, s.Spent)
	s = im.s
	report := func() {
		b := s.bounded(bound, im.best) // it is work, whoever listens
		if opt.Progress != nil {
			opt.Progress(im.best, b, s.Spent)
		}
	}
	im.start()
	report()
	search := s.Spent + (opt.Budget-s.Spent)/searchShare
	switch n := len(s.Jobs); {
	case n > opt.Whole:
		search = s.Spent + (opt.Budget-s.Spent)/horizonShare
	case n > wholeJobs:
		search = opt.Budget - opt.Budget/longShare
	}
	if opt.kernel > 0 {
		search = min(search, s.Spent+opt.kernel)
	}
	more := func() bool { return s.Spent < search && !stopped() && im.best != s.bounded(bound, im.best) }
	im.settleEach(more)
	im.start()
	report()
	im.improve(more, report)
	im.finish()
	im.settleEach(func() bool { return s.Spent < search+search/8 && !stopped() })
	keep := im.keptForReasons(opt)
	b := s.bounded(bound, im.cost)
	proof := opt
	proof.Budget -= keep
	switch {
	case len(s.Jobs) > opt.Whole:
		until := proof.Budget
		if keep > 0 {
			until -= (proof.Budget - s.Spent) / groupShare
		}
		h := &horizon{im: im, ctx: ctx, size: opt.Segment, until: until, report: report,
			settled: func(c problem.Cost) bool { return c.ServesAs(s.bounded(bound, c)) }}
		h.press()
		g := &divided{s: s, ctx: ctx, size: opt.Segment, until: proof.Budget, kernel: (proof.Budget - s.Spent) / kernelShare * groupShare}
		b = g.bound(s.bounded(bound, im.cost))
	case im.cost != b:
		p := s.prove(ctx, bound, proof, func(p *prover) {
			if opt.Progress != nil {
				opt.Progress(p.cost, p.bound, p.s.Spent)
			}
		})
		p.settle()
		s, b = p.s, p.bound
		if s.OutOfCourse() {
			b = im.goOn(s, bound, s.Spent+(proof.Budget-s.Spent)/2, stopped) // the reasons have the other half
		}
	}
	r = s.Result(b)
	r.Spent, r.Stopped = s.Spent, stopped()
	return r, s, max(keep, (opt.Budget-s.Spent)/2)
}

// keptForReasons is the work that is kept for the reasons of what is short.
func (im *improver) keptForReasons(opt Options) int64 {
	switch {
	case im.cost.PromisedShort+im.cost.Short == 0:
		return 0
	case len(im.s.Jobs) > opt.Whole:
		return opt.Budget / (2 * reasonShare) // its segments need the work more
	}
	return opt.Budget / reasonShare
}
