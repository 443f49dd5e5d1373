package planner

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
)

// explain writes, for every want that is short, what stands in the way, and sets
// how far each stage may slip.
func (pl *planning) explain(plan *schedule.Plan, r *cp.Result) {
	for _, b := range r.Blames {
		plan.Targets[b.Demand].Because = pl.because(b, &plan.Targets[b.Demand])
	}
	for i := range r.Jobs {
		pl.slips(&plan.Batches[i], &r.Jobs[i])
	}
}

// because is one sentence that names what stands in the way.
func (pl *planning) because(b cp.Blame, w *schedule.WantResult) string {
	by := pl.when(w.By)
	length := func(ticks int) string { return resources.FormatMinutes(resources.Minutes(max(ticks, 0))) }
	switch {
	case b.Kind == cp.BlameTime:
		return fmt.Sprintf("%s takes at least %s from make to packing, and %s is left before %s.",
			w.Cheese, length(b.Least), length(b.Left), by)
	case b.Kind == cp.BlameNoMode:
		return pl.noBatch(w.Cheese)
	case b.Kind == cp.BlameServes:
		return fmt.Sprintf("A batch of %s is made only when at least %d of its pieces are wanted.", w.Cheese, pl.p.Recipe(w.Cheese).Batch.Serves)
	case b.Kind == cp.BlameAlone && len(b.Things) > 0:
		return fmt.Sprintf("For %s by %s, %s.", w.Cheese, by, pl.list(b.Things, pl.lacking))
	case b.Kind == cp.BlameTaken && len(b.Things) > 0:
		return fmt.Sprintf("One more batch of %s by %s needs what the plan has given to others: %s.", w.Cheese, by, pl.list(b.Things, pl.inUse))
	}
	return fmt.Sprintf("No plan was found that has more %s by %s; none is proved impossible. Allow more work with --work.", w.Cheese, by)
}

// list joins what each thing says.
func (pl *planning) list(things []cp.Thing, say func(cp.Thing) string) string {
	out := ""
	for i, t := range things {
		switch {
		case i == 0:
		case i == len(things)-1:
			out += " and "
		default:
			out += ", "
		}
		out += say(t)
	}
	return out
}

// lacking says what is not there, whatever else is made.
func (pl *planning) lacking(t cp.Thing) string {
	switch t.Kind {
	case cp.ThingIntake:
		return fmt.Sprintf("no collection of %s that can still be ordered is in time", pl.p.Kitchen.Milk[t.Index].Name)
	case cp.ThingSpace:
		return "no cold place is open to its boxes for long enough"
	}
	if !pl.anyHours() {
		return "nobody has any hours in kitchen.yaml"
	}
	return "nobody has hours when it needs hands"
}

// inUse says what others have.
func (pl *planning) inUse(t cp.Thing) string {
	switch t.Kind {
	case cp.ThingPool:
		if t.Index < 0 {
			return "every pot that is large enough"
		}
		return "every " + pl.poolNames()[t.Index]
	case cp.ThingIntake:
		return "the " + pl.p.Kitchen.Milk[t.Index].Name + " milk that is ordered or can still be"
	case cp.ThingSpace:
		return "room in the cold places"
	}
	return "everybody's time"
}

// anyHours reports whether anybody can work at all.
func (pl *planning) anyHours() bool {
	for i := range pl.model.Workers {
		if len(pl.model.Workers[i].Windows) > 0 {
			return true
		}
	}
	return false
}

// noBatch says what the kitchen lacks for any batch of a cheese.
func (pl *planning) noBatch(cheese string) string {
	r := pl.p.Recipe(cheese)
	sizes := sizesOf(r)
	if len(sizes) == 0 {
		return fmt.Sprintf("No batch size of %s gives more pieces than it keeps for tasting.", cheese)
	}
	c := pl.chains[pl.familyOf(cheese)]
	for i := range r.Stages {
		st := &r.Stages[i]
		if workOf(st, sizes[0], pl.clock.step) > 0 && len(pl.workersFor(st)) == 0 {
			return fmt.Sprintf("Nobody in kitchen.yaml may do the %s of %s.", st.Name, cheese)
		}
	}
	for _, run := range c.runs {
		if choices, _ := pl.choicesFor(run, sizes[0]); len(choices) == 0 {
			return fmt.Sprintf("No pot is large enough for the smallest batch of %s, %s.", cheese, resources.FormatVolume(sizes[0].litres))
		}
	}
	return fmt.Sprintf("No cold place is right for %s.", cheese)
}

// slips writes how late each stage may start. A stage that nobody is there for
// can slip as far as its neighbours allow.
func (pl *planning) slips(b *schedule.Batch, j *cp.Job) {
	c := pl.chainOf(j)
	for i := range b.Stages {
		t := &b.Stages[i]
		t.SlipUntil = t.Start
		if t.Begun {
			continue
		}
		a := c.actOf[i]
		if c.acts[a].first == i {
			t.SlipUntil = max(t.Start, pl.clock.moment(j.Slips[a]))
			continue
		}
		before := &b.Stages[i-1]
		latest := before.Start.Add(before.Work + resources.Minutes(c.holds[i-1].most))
		if a+1 < len(j.Slips) {
			next := pl.clock.moment(j.Slips[a+1])
			for k := i; k <= c.acts[a].last; k++ {
				next = next.Add(-resources.Minutes(c.holds[k].least))
			}
			latest = min(latest, next)
		}
		t.SlipUntil = max(t.Start, latest)
	}
}
