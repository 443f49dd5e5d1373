package planner

import (
	"fmt"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp"
)

// note adds a warning; at is 0 where it belongs to no moment.
func (pl *planning) note(code string, at resources.Moment, format string, args ...any) {
	pl.warn = append(pl.warn, schedule.Warning{Code: code, At: at, Text: fmt.Sprintf(format, args...)})
}

// momentText writes a moment as the maker reads it.
func momentText(m resources.Moment, zone *time.Location) string {
	return m.In(zone).Format("Mon 2 Jan 15:04")
}

// noteBehind says where begun.yaml tells of less than the earlier plan had begun by
// now: it is believed, but it may only not have been kept up.
func (pl *planning) noteBehind() {
	for _, u := range pl.under {
		next := len(u.starts)
		if u.entry < 0 || u.earlier == nil || next >= len(u.earlier.Stages) {
			continue
		}
		if t := &u.earlier.Stages[next]; t.Start < pl.p.From && !t.Begun {
			pl.note("begun-behind", t.Start, "begun.yaml has no %s for %s (%s), which was planned for %s: it is taken not to have begun. If it has, write it there, or take the entry out when all went as planned.",
				t.Stage, u.id, u.recipe.Name, pl.when(t.Start))
		}
	}
}

// warnUnderWay says what is late or stuck or stands nowhere, and sets how far
// each stage may slip.
func (pl *planning) warnUnderWay(plan *schedule.Plan, r *cp.Result) {
	for i := range r.Jobs {
		j, b := &r.Jobs[i], &plan.Batches[i]
		if j.Begun < 0 {
			continue
		}
		u := pl.under[j.Begun]
		if j.Stuck {
			pl.note("begun-stuck", pl.p.From, "%s (%s) cannot go on: nobody has hours for its next stage. Give somebody hours, or list it under lost.", b.ID, b.Cheese)
		}
		k := len(u.starts) - 1
		if over := lateBy(u, b); over > 0 {
			pl.note("hold-overrun", b.Stages[k].Ends, "%s (%s): the hold of %s goes on %s longer than it should. The next stage is planned as soon as it can be; look at the cheese before you go on.",
				b.ID, b.Cheese, b.Stages[k].Stage, resources.FormatMinutes(over))
		}
		for s := range j.Stays {
			if j.Stays[s].Homeless {
				pl.note("boxes-do-not-fit", pl.p.From, "The boxes of %s (%s) do not fit in the %s by the sizes given. Check the sizes, or where they stand.",
					b.ID, b.Cheese, pl.p.Kitchen.Cold[j.Stays[s].Space].Name)
			}
		}
	}
	for s := range r.Stocks {
		if p := r.Stocks[s].Place; p.Homeless {
			st := &pl.p.Stock[pl.stocks[s]]
			pl.note("boxes-do-not-fit", pl.p.From, "The boxes of %s in stock do not fit in the %s by the sizes given. Check the sizes, or where they stand.",
				st.Cheese, pl.p.Kitchen.Cold[p.Space].Name)
		}
	}
}

// lateBy is how far the running hold of a batch under way goes beyond its most.
// The store after packing and the hold of a stuck batch are never late.
func lateBy(u *underWay, b *schedule.Batch) resources.Minutes {
	k := len(u.starts) - 1
	if k < 0 || k >= len(b.Stages)-1 {
		return 0
	}
	return b.Stages[k].Hold - resources.Minutes(u.chain.holds[k].most)
}
