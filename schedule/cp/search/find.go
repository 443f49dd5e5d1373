package search

import (
	"cmp"
	"context"

	"ripeby/schedule/cp/calm"
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// The reasons of what is short are looked for in a small part of what the plan took: one part
// in reasonShare, which is kept of a budget, and reasonFloor at the least where the budget has
// as much left.
const (
	reasonShare = 32
	reasonFloor = 250_000
)

// DefaultBudget is the counted work of one [cp.Solve] where the caller sets none.
const DefaultBudget = 120_000_000

// searchShare: one part in so many of the work left after the first plan goes to
// finding a better one before it is proved, and one in promisedShare where something promised is
// short, which would have to be proved of a model of its own; of a plan that is improved by segments all
// but one part in longShare, since the kernel finds little where there is much to state.
const (
	searchShare   = 512
	promisedShare = 128
	longShare     = 2
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
	// Plain leaves out the reasons: of what is short, and of what is otherwise than told.
	Plain bool

	parts  int   // so many parts of the cost are proved, 0 for all
	kernel int64 // counted work of the kernel, 0 for no limit of its own
	first  int64 // counted work of the first question about a part, 0 for firstTry
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
	f := &finding{ctx: ctx, opt: opt}
	f.open(m)
	f.search()
	keep := f.im.keptForReasons(opt)
	b := f.bounded(f.im.cost)
	if f.im.cost != b || !f.course.timely(f.s) {
		b = f.prove(keep)
	}
	f.s.carrier().Sooner()
	r = f.s.Result(f.course.honest(f.s, b, f.sure))
	r.Spent, r.Stopped = f.s.Spent, f.stopped()
	return r, f.s, workOfReasons(f.s.Spent, opt.Budget)
}

// finding is one [Find].
type finding struct {
	ctx     context.Context
	opt     Options
	course  *course
	s       *Plan
	im      *improver
	cover   problem.Cost // the covers' bound
	covered opening
	sure    problem.Cost // of every plan, however late: what is stuck, and what of the promised is short
}

func (f *finding) stopped() bool { return f.ctx.Err() != nil }

// bounded is what the covers know of a plan of such a cost.
func (f *finding) bounded(c problem.Cost) problem.Cost { return f.s.bounded(f.cover, c) }

// report tells how far it is.
func (f *finding) report() {
	b := f.bounded(f.im.best) // it is work, whoever listens
	if f.opt.Progress != nil {
		f.opt.Progress(f.im.best, b, f.s.Spent)
	}
}

// open builds a first plan. What is under way and finds no place beside the rest may run later.
func (f *finding) open(m *problem.Model) {
	f.course, f.s = newCourse(m, f.opt.Whole, chain.Limit{Ctx: f.ctx, Until: f.opt.Budget})
	f.build()
	for last := false; !last; {
		raise := f.course.raiseStuck
		if last = f.s.OutOfWork(); last {
			raise = f.course.raiseAll // once more with room for anything
		}
		if !raise(f.s) {
			break
		}
		spent := f.s.Spent
		f.s = f.course.plan(f.opt.Whole)
		f.s.Spent += spent
		f.build()
	}
}

// build builds the best of several first plans.
func (f *finding) build() {
	s := f.s
	f.covered, f.cover = s.chooseOpening()
	im := s.firstPlan(f.covered)
	for _, o := range s.otherHomes() {
		if s.Spent >= f.opt.Budget || f.stopped() || im.cost == s.bounded(f.cover, im.cost) {
			break
		}
		o.Spent = s.Spent
		other := o.build(f.covered, 0)
		if other.cost.Less(im.cost) {
			im = other
		}
		s.Spent = other.s.Spent
	}
	im.s.Spent = max(im.s.Spent, s.Spent)
	f.s, f.im = im.s, im
}

// search betters the plan by local search.
func (f *finding) search() {
	s, im, opt := f.s, f.im, f.opt
	im.start()
	f.report()
	search := s.Spent + (opt.Budget-s.Spent)/searchShare
	switch n := len(s.Jobs); {
	case n <= wholeJobs && im.cost.PromisedShort > 0:
		search = s.Spent + (opt.Budget-s.Spent)/promisedShare
	case n > opt.Whole:
		search = s.Spent + (opt.Budget-s.Spent)/horizonShare
	case n > wholeJobs:
		search = opt.Budget - opt.Budget/longShare
	}
	if opt.kernel > 0 {
		search = min(search, s.Spent+opt.kernel)
	}
	more := func() bool { return s.Spent < search && !f.stopped() && im.best != f.bounded(im.best) }
	im.settleEach(more)
	im.start()
	f.report()
	im.improve(more, f.report, len(s.Jobs) > opt.Whole)
	im.finish()
	im.settleEach(func() bool { return s.Spent < search+search/8 && !f.stopped() })
	if calm.Assign(&s.Ledger, nil) {
		im.start()
	}
}

// prove betters the plan and its bound, and gives the bound.
func (f *finding) prove(keep int64) problem.Cost {
	proof := f.opt
	proof.Budget -= keep
	found := func(p *prover) {
		if f.opt.Progress != nil {
			f.opt.Progress(p.cost, p.bound, p.s.Spent)
		}
	}
	if !f.course.affords(f.s) {
		return f.unknown()
	}
	if !f.course.timely(f.s) {
		f.promise(proof, found)
	}
	f.take(f.course.roomFor(f.s))
	f.s.Relax.Sure = f.sure
	s := f.s
	if len(s.Jobs) > f.opt.Whole {
		until := proof.Budget
		if keep > 0 {
			until -= (proof.Budget - s.Spent) / groupShare
		}
		h := &horizon{im: f.im, ctx: f.ctx, size: f.opt.Segment, whole: f.opt.Whole, until: until, report: f.report,
			settled: func(c problem.Cost) bool { return c.ServesAs(f.bounded(c)) }}
		h.press()
		g := &divided{s: s, ctx: f.ctx, size: f.opt.Segment, until: proof.Budget, kernel: (proof.Budget - s.Spent) / kernelShare * groupShare}
		return g.bound(f.bounded(f.im.cost))
	}
	p := s.prove(f.ctx, f.cover, proof, found)
	p.settle()
	f.s = p.s
	return p.bound
}

// unknown is a bound that says nothing.
func (f *finding) unknown() problem.Cost {
	m := f.s.Model
	return problem.Cost{Early: -f.im.cost.Jobs * int64(m.Horizon-m.From)}
}

// take goes on from the same plan in another model.
func (f *finding) take(s *Plan) {
	if s == f.s {
		return
	}
	f.s = s
	f.covered, f.cover = s.chooseOpening()
	f.im.s = s
	f.im.start()
}

// promise finds out how much is stuck in every plan, and what of the promised is short, however
// late what is under way may be for it: they come first.
func (f *finding) promise(opt Options, found func(*prover)) {
	f.take(f.course.anyRoom(f.s))
	f.sure = f.bounded(f.im.cost)
	if f.sure.Stuck == f.im.cost.Stuck && f.sure.PromisedShort == f.im.cost.PromisedShort || len(f.s.Jobs) > f.opt.Whole {
		return
	}
	opt.parts = problem.PartPromised + 1
	p := f.s.prove(f.ctx, f.cover, opt, found)
	p.settle()
	f.s, f.im.s = p.s, p.s
	f.im.start()
	f.sure = p.bound
	f.s.Flat = false
}

// timely reports whether nothing that comes before being late could be better for it: nothing is
// stuck that has a way, and nothing short of what was promised.
func (c *course) timely(s *Plan) bool {
	cost, sure := s.Cost(), int64(0)
	for b := range c.inTime.Begun {
		if c.inTime.Begun[b].NoWay {
			sure++
		}
	}
	return !c.inTime.CanRunLate() || cost.Stuck == sure && cost.PromisedShort == 0
}

// honest is a bound of the model that was searched as one of the whole model: of what comes before
// being late it knows no more than is sure however late things may be.
func (c *course) honest(s *Plan, b, sure problem.Cost) problem.Cost {
	if !c.timely(s) {
		b.Stuck, b.PromisedShort = min(b.Stuck, sure.Stuck), min(b.PromisedShort, sure.PromisedShort)
	}
	return b
}

// keptForReasons is the work that is kept for the reasons of what is short.
func (im *improver) keptForReasons(opt Options) int64 {
	if im.cost.PromisedShort+im.cost.Short == 0 {
		return 0
	}
	return opt.Budget / reasonShare
}

// workOfReasons is what the reasons may take of a budget of which so much is spent.
func workOfReasons(spent, budget int64) int64 {
	return max(spent/reasonShare, min(reasonFloor, budget-spent), 0)
}
