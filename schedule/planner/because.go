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
	switch b.Kind {
	case cp.BlameTime:
		return fmt.Sprintf("%s takes at least %s from make to packing, and %s is left before %s.",
			w.Cheese, length(b.Least), length(b.Left), by)
	case cp.BlameNoMode:
		return fmt.Sprintf("The kitchen has no pot, kit, person or place for any batch of %s.", w.Cheese)
	case cp.BlameIntake:
		return fmt.Sprintf("No collection of %s that can still be ordered is in time for %s.", pl.p.Kitchen.Milk[b.Index].Name, by)
	case cp.BlameHours:
		return fmt.Sprintf("Nobody has hours at the moments when %s for %s needs hands.", w.Cheese, by)
	case cp.BlameSpace:
		return fmt.Sprintf("No cold place is open to the boxes of %s for as long as %s needs.", w.Cheese, by)
	case cp.BlameServes:
		return fmt.Sprintf("A batch of %s is made only when at least %d of its pieces are wanted.", w.Cheese, pl.p.Recipe(w.Cheese).Batch.Serves)
	case cp.BlamePool:
		return fmt.Sprintf("Every %s is in use by other batches when one more of %s for %s would need it.", pl.poolNames()[b.Index], w.Cheese, by)
	case cp.BlameDrawn:
		return fmt.Sprintf("The collections of %s in time for %s are used up by other batches.", pl.p.Kitchen.Milk[b.Index].Name, by)
	case cp.BlameFull:
		return fmt.Sprintf("The cold places are too full of other batches for one more of %s by %s.", w.Cheese, by)
	case cp.BlameBusy:
		return fmt.Sprintf("Everybody's time is taken by other batches when one more of %s for %s would need hands.", w.Cheese, by)
	case cp.BlameSeveral:
		return fmt.Sprintf("Several things at once are taken when one more of %s for %s would need them.", w.Cheese, by)
	}
	return fmt.Sprintf("No plan was found that has more %s by %s; none is proved impossible. Allow more work with --work.", w.Cheese, by)
}

// slips writes how late each stage may start. A stage that nobody is there for
// can slip as far as its neighbours allow.
func (pl *planning) slips(b *schedule.Batch, j *cp.Job) {
	c := pl.chains[j.Family]
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
