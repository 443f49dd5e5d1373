package planner

import (
	"context"
	"slices"
	"sync"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
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

// FixWork is the counted work that the changes of one short want may take together where
// the caller sets none.
const FixWork = 60_000_000

// laterMost is how many days later the missing pieces are tried.
const laterMost = 7

// WhyShort says of one want of the plan in force, the problem's earlier one, why it is
// short, and which single changes would give it more while every other want gets no
// less. Only what has a part in the reason is tried: nothing else can help. Nil where the
// plan is not in force any more.
func WhyShort(ctx context.Context, p *schedule.Problem, wanted int, work int64) *Why {
	if work <= 0 {
		work = FixWork
	}
	ahead := newPlanning(p).within.Until.Add((laterMost + 1) * resources.Day)
	pl := newPlanningUntil(p, ahead)
	if p.Earlier == nil || wanted >= len(pl.demands) {
		return nil
	}
	q := pl.ask(ctx, wanted, -1, work/2, nil)
	if q == nil {
		return nil
	}
	short := q.Short()
	out := &Why{}
	plan := &schedule.Plan{Targets: pl.wantResults(&cp.Result{Short: short})}
	missing := short[wanted]
	if missing == 0 {
		return out
	}
	moved, _ := q.Most(missing) // more than the plan in force has, with nothing changed
	if moved > 0 {
		c := Change{Kind: ChangePlan, Text: "other batches moved, as planning again with more --work may find", With: p, Also: -1}
		out.Fixes = append(out.Fixes, Fix{Change: c, Gains: moved, Plan: pl.decodeFor(q.Best())})
		out.Because = "The plan in force is not the best that there is."
		return out
	}
	var tries []Change
	switch reason := q.Why(1); reason.Kind {
	case cp.ReasonFacts:
		out.Proved = true
		out.Because = pl.because(&reason, plan)
		if len(reason.Sets) == 1 { // of two sets apart, one change can lift one only
			helping := slices.DeleteFunc(slices.Clone(reason.Sets[0].Facts), func(f cp.Fact) bool { return !q.Helps(f) })
			tries = pl.changesFor(helping, plan)
			if slices.ContainsFunc(helping, pl.potFact) {
				tries = append(tries, biggerPots(p, p.Recipe(plan.Targets[wanted].Cheese))...)
			}
		}
	case cp.ReasonTime:
		out.Proved, out.Because = true, pl.because(&reason, plan)
	case cp.ReasonNoMode:
		out.Proved, out.Because = true, pl.because(&reason, plan)
		tries = append(OneMore(p), biggerPots(p, p.Recipe(plan.Targets[wanted].Cheese))...)
	default:
		out.Because = pl.because(&reason, plan)
		tries = append(OneMore(p), biggerPots(p, p.Recipe(plan.Targets[wanted].Cheese))...)
	}
	tries = append(tries, sizesBetween(p, pl.familyOf(plan.Targets[wanted].Cheese))...)
	share := work / int64(2*(len(tries)+laterMost))
	like := alike{ahead, q.Tables()}
	for _, f := range like.tryAll(ctx, tries, wanted, missing, share) {
		if f != nil {
			out.Fixes = append(out.Fixes, *f)
		}
	}
	most := 0
	for days := 1; days <= laterMost && most < missing; days++ {
		c := laterWant(p, pl.demands[wanted], missing, days)
		f := like.try(ctx, &c, len(pl.demands), missing, share)
		if f != nil && f.Gains > most { // a longer wait for no more is no help
			out.Fixes = append(out.Fixes, *f)
			most = f.Gains
		}
	}
	slices.SortStableFunc(out.Fixes, func(a, b Fix) int {
		if a.Kind != b.Kind {
			return int(a.Kind) - int(b.Kind)
		}
		return b.Gains - a.Gains
	})
	return out
}

// triedAtOnce is how many changes are tried side by side. Each has its own work, so the
// answers do not depend on it.
const triedAtOnce = 2

// alike is what the kitchens with one change each have in common: how far they look ahead,
// and what is worked out of their recipes and hours.
type alike struct {
	ahead  resources.Moment
	tables *cp.Tables
}

// tryAll tries changes, and gives what each of them does.
func (like *alike) tryAll(ctx context.Context, list []Change, wanted, missing int, work int64) []*Fix {
	out := make([]*Fix, len(list))
	sideBySide(len(list), func(i int) { out[i] = like.try(ctx, &list[i], wanted, missing, work) })
	return out
}

// sideBySide does n pieces of work, so many at once.
func sideBySide(n int, do func(i int)) {
	free := make(chan struct{}, triedAtOnce)
	var all sync.WaitGroup
	for i := range n {
		free <- struct{}{}
		all.Go(func() {
			do(i)
			<-free
		})
	}
	all.Wait()
}

// try finds how much more a want gets with a change; nil for nothing.
func (like *alike) try(ctx context.Context, c *Change, wanted, missing int, work int64) *Fix {
	pl := newPlanningUntil(c.With, like.ahead)
	q := pl.ask(ctx, wanted, c.Also, work, like.tables)
	if q == nil {
		return nil
	}
	more, _ := q.More(missing)
	if more == 0 {
		return nil
	}
	return &Fix{Change: *c, Gains: more, Plan: pl.decodeFor(q.Best())}
}

// decodeFor is a plan that answers a question, numbered after the earlier one.
func (pl *planning) decodeFor(r *cp.Result) *schedule.Plan {
	plan := pl.decode(r)
	for i := range plan.Targets {
		if w := &plan.Targets[i]; w.Short > 0 {
			w.Because = pl.asBefore(w)
		}
	}
	schedule.Revise(plan, pl.p.Earlier, pl.p.Kitchen.Zone)
	return plan
}

// potFact reports whether a fact is about a pot.
func (pl *planning) potFact(f cp.Fact) bool {
	return f.Kind == cp.FactPool && pl.isPot(pl.poolNames()[f.Index])
}

// asBefore is why a want that is short was short in the earlier plan.
func (pl *planning) asBefore(w *schedule.WantResult) string {
	for i := range pl.p.Earlier.Targets {
		o := &pl.p.Earlier.Targets[i]
		if o.Target == w.Target && o.By == w.By && o.Want == w.Want && o.Because != "" {
			return o.Because
		}
	}
	return "It is what the others leave."
}
