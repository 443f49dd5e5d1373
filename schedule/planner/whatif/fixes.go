package whatif

import (
	"cmp"
	"context"
	"iter"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/planner"
)

// Fix is a change with which a short want gets more.
type Fix struct {
	Change
	Gains int            // pieces of the want
	Plan  *schedule.Plan // on the changed problem, which shows it
}

// Why is what is known of a want that is short, and what would change it.
type Why struct {
	Because string
	Proved  bool // that it cannot get more as things are
	Fixes   []Fix
}

// FixWork is the counted work that one short want may take where the caller sets none.
const FixWork = 40_000_000

// laterMost is how many days later the missing pieces are tried.
const laterMost = 7

// WhyOptions steer [WhyShort].
type WhyOptions struct {
	Work int64 // counted work of each want; 0 for FixWork
	// Trying is called before each try of a change, and may be called by several at once;
	// nil for nobody.
	Trying func(wanted, tried, of int)
}

// WhyShort says of wants of the plan in force, the problem's earlier one, why each is
// short, and which single changes would give it more while every other want gets no
// less. Only what has a part in the reason is tried: nothing else can help. It gives nil
// where the plan is not in force any more.
func WhyShort(ctx context.Context, p *schedule.Problem, wanted []int, opt WhyOptions) iter.Seq2[int, *Why] {
	return func(yield func(int, *Why) bool) {
		ahead := planner.State(p, p.From).Until().Add((laterMost + 1) * resources.Day)
		like := &alike{ahead: ahead}
		for _, d := range wanted {
			s := &shortage{ctx: ctx, p: p, st: planner.State(p, ahead), wanted: d, like: like, work: cmp.Or(max(opt.Work, 0), FixWork), trying: opt.Trying}
			if !yield(d, s.why()) {
				return
			}
		}
	}
}

// shortage is one want that is short.
type shortage struct {
	ctx     context.Context
	p       *schedule.Problem
	st      *planner.Stated
	wanted  int
	missing int
	like    *alike
	work    int64
	trying  func(wanted, tried, of int) // nil for nobody
}

// why finds the reason, and then tries changes; nil where the plan is not in force.
func (s *shortage) why() *Why {
	if s.p.Earlier == nil || s.wanted >= len(s.st.Wants()) {
		return nil
	}
	q := ask(s.ctx, s.st, s.wanted, -1, s.work/2, s.like.tables)
	if q == nil {
		return nil
	}
	out := &Why{}
	plan := &schedule.Plan{Targets: s.st.WantResults(q.Short())}
	if s.missing = q.Short()[s.wanted]; s.missing == 0 {
		return out
	}
	reason, moved := s.reason(q)
	s.like.tables = q.Tables()
	if moved > 0 && plan.Targets[s.wanted].Price == 0 {
		out.Because = planner.Unpriced
		return out
	}
	if moved > 0 {
		c := changed(ChangePlan, s.p, "planning again with more --work, which may move other batches")
		out.Fixes = append(out.Fixes, Fix{Change: c, Gains: moved, Plan: planFor(s.st, q.Best())})
		out.Because = "The plan in force is not the best that there is."
		return out
	}
	out.Proved = reason.Kind != problem.ReasonOpen
	out.Because = s.st.Because("", &reason, plan)
	if !out.Proved && s.ruledOut() {
		out.Because = "More was proved impossible when this plan was made; what stands in the way was not found. Allow more work with --work."
	}
	out.Fixes = s.fixes(s.changes(q, &reason, plan))
	return out
}

// reason is why one piece more cannot be, and how many more than the plan in force has are found
// with nothing changed. Where the proof of that plan ruled them out it is not asked how many fit
// before the reason is: only a folder that has changed since can answer otherwise.
func (s *shortage) reason(q *cp.Inquiry) (reason problem.Reason, moved int) {
	ruledOut := s.ruledOut()
	if ruledOut {
		reason = q.Why(1, true)
	}
	if reason.Kind == problem.ReasonOpen {
		if moved, _ = q.Most(s.missing); moved == 0 && !ruledOut {
			reason = q.Why(1, true)
		}
	}
	return reason, moved
}

// ruledOut reports whether more was ruled out by the proof of the plan in force when it was made.
func (s *shortage) ruledOut() bool {
	at := s.st.Wants()[s.wanted]
	t := &s.p.Targets[at.Target]
	for i := range s.p.Earlier.Targets {
		if w := &s.p.Earlier.Targets[i]; w.Target == t.Name && w.By == t.By && w.Want == at.Want {
			return s.p.Earlier.RulesOutMore(w)
		}
	}
	return false
}

// changes are those that could do away with a reason.
func (s *shortage) changes(q *cp.Inquiry, reason *problem.Reason, plan *schedule.Plan) []Change {
	recipe := s.p.Recipe(plan.Targets[s.wanted].Cheese)
	var tries []Change
	switch reason.Kind {
	case problem.ReasonFacts, problem.ReasonMoments:
		if len(reason.Sets) == 1 { // of two sets apart, one change can lift one only
			helping := slices.DeleteFunc(slices.Clone(reason.Sets[0].Facts), func(f problem.Fact) bool { return !q.Helps(f) })
			tries = changesFor(s.st, helping, plan, s.wanted, s.missing)
			if slices.ContainsFunc(helping, s.potFact) {
				tries = append(tries, biggerPots(s.p, recipe)...)
			}
		}
	case problem.ReasonTime:
	default:
		tries = append(OneMore(s.p), biggerPots(s.p, recipe)...)
	}
	return append(tries, sizesBetween(s.p, s.st.Family(recipe.Name))...)
}

// fixes tries changes, and then the missing pieces some days later, and gives those that
// help, the least asked for first.
func (s *shortage) fixes(tries []Change) []Fix {
	all := len(tries) + laterMost
	work := s.work / int64(2*all)
	tell := func(tried int) {
		if s.trying != nil {
			s.trying(s.wanted, tried, all)
		}
	}
	tried := make([]*Fix, len(tries))
	sideBySide(len(tries), func(i int) {
		tell(i)
		tried[i] = s.like.try(s.ctx, &tries[i], s.wanted, s.missing, work)
	})
	var out []Fix
	for _, f := range tried {
		if f != nil {
			out = append(out, *f)
		}
	}
	most := 0
	for days := 1; days <= laterMost && most < s.missing; days++ {
		tell(len(tries) + days - 1)
		c := laterWant(s.p, s.st.Wants()[s.wanted], s.missing, days)
		f := s.like.try(s.ctx, &c, len(s.st.Wants()), s.missing, work)
		if f != nil && f.Gains > most { // a longer wait for no more is no help
			out = append(out, *f)
			most = f.Gains
		}
	}
	out = slices.DeleteFunc(out, func(f Fix) bool {
		return slices.ContainsFunc(tried, func(o *Fix) bool { return o != nil && f.unless == o.Text && o.Gains >= f.Gains })
	})
	slices.SortStableFunc(out, func(a, b Fix) int {
		if a.Kind != b.Kind {
			return int(a.Kind) - int(b.Kind)
		}
		return b.Gains - a.Gains
	})
	return out
}

// alike is what the kitchens with one change each have in common: how far they look ahead,
// and what is worked out of their recipes and hours.
type alike struct {
	ahead  resources.Moment
	tables *cp.Tables
}

// try finds how much more a want gets with a change; nil for nothing.
func (like *alike) try(ctx context.Context, c *Change, wanted, missing int, work int64) *Fix {
	st := planner.State(c.With, like.ahead)
	q := ask(ctx, st, wanted, c.Also, work, like.tables)
	if q == nil {
		return nil
	}
	more, _ := q.More(missing, cp.LongLook)
	if more == 0 {
		return nil
	}
	return &Fix{Change: *c, Gains: more, Plan: planFor(st, q.Best())}
}

// potFact reports whether a fact is about a pot.
func (s *shortage) potFact(f problem.Fact) bool {
	return f.Kind == problem.FactPool && s.st.Thing(f.Index).IsPot()
}
