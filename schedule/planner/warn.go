package planner

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// note adds a warning; at is 0 where it belongs to no moment.
func (pl *Stated) note(code string, at resources.Moment, format string, args ...any) {
	pl.warn = append(pl.warn, schedule.Warning{Code: code, At: at, Text: fmt.Sprintf(format, args...)})
}

// when writes a moment as the maker reads it.
func (pl *Stated) when(m resources.Moment) string { return resources.ShowMoment(m, pl.p.Kitchen.Zone) }

// noteBehind says where begun.yaml tells of less than the earlier plan had begun by
// now: it is believed, but it may only not have been kept up.
func (pl *Stated) noteBehind() {
	for _, u := range pl.under {
		next := len(u.starts)
		if u.entry < 0 || u.earlier == nil || next >= len(u.earlier.Stages) {
			continue
		}
		if t := &u.earlier.Stages[next]; t.Start < pl.p.From && !t.Begun {
			pl.note("begun-behind", t.Start, "begun.yaml has no %s for %s (%s), which was planned for %s: it is taken not to have begun. If it has, write there when it began, and plan again.",
				t.Stage, u.id, u.recipe.Name, pl.when(t.Start))
		}
	}
}

// noteOrders says which milk the earlier plan counted on whose order moment is past, of
// which nobody has said whether it was ordered or came: it is taken as ordered.
func (pl *Stated) noteOrders() {
	if pl.p.Earlier == nil {
		return
	}
	told := map[drawKey]bool{}
	for i := range pl.p.Earlier.Batches {
		b := &pl.p.Earlier.Batches[i]
		if b.Milk == nil || pl.isLost(b.ID) || len(b.Stages) == 0 || b.Stages[0].Start < pl.p.From {
			continue
		}
		k := drawKey{pl.milkNamed(b.Milk.Supply), b.Milk.Collect}
		if k.milk < 0 || told[k] {
			continue
		}
		told[k] = true
		m := &pl.p.Kitchen.Milk[k.milk]
		day := schedule.CollectionDay(m, k.ready, pl.p.Kitchen.Zone)
		_, ordered := pl.p.OrderedOf(m.Name, day)
		_, came := pl.p.CameOf(m.Name, day)
		all := needs.Assumed(pl.p.Earlier, *b.Milk)
		if !ordered && !came && all > m.Standing && k.ready.Add(-m.Order) < pl.p.From {
			pl.note("order-not-told", k.ready, "The plan before counts on %s of %s of %s, which is taken as ordered. If that is so, say it: ripeby record ordered %q %s %q; if not, with %q.",
				resources.FormatVolume(all), m.Name, day, m.Name, day, resources.FormatVolume(all), "0 L")
		}
	}
}

// noteIDs says which ids of the folder fit nothing that the earlier plan knows.
func (pl *Stated) noteIDs() {
	e := pl.p.Earlier
	if e == nil {
		return
	}
	for _, id := range pl.p.Lost {
		if earlierBatch(e, id) == nil && !pl.everGiven(id) {
			pl.note("lost-unknown", 0, "begun.yaml lists %s under lost, but no plan has had a batch of that id. See that it is written right.", id)
		}
	}
	for _, u := range pl.under {
		if u.entry < 0 || u.earlier != nil || len(u.starts) == 0 {
			continue
		}
		for _, o := range pl.under {
			if apart := firstStart(o) - firstStart(u); o.entry < 0 && o.family == u.family && -apartMost < apart && apart < apartMost {
				pl.note("begun-twice", firstStart(u), "begun.yaml has %s (%s), and the plan before had %s begin at about the same time: both are counted. If they are one batch, write %s in begun.yaml.",
					u.id, u.recipe.Name, o.id, o.id)
			}
		}
	}
}

// apartMost is how near in time two makes of one cheese are likely one and the same.
const apartMost = resources.Moment(12 * resources.Hour)

// everGiven reports whether an id may have been given by some plan before.
func (pl *Stated) everGiven(id string) bool {
	used := schedule.Numbers{}
	used.Note(id)
	for _, n := range pl.p.Earlier.LastNumber {
		if k, ok := used[n.Day]; ok && k <= n.Last {
			return true
		}
	}
	return false
}

// warnUnderWay says what is late or stuck or stands nowhere.
func (pl *Stated) warnUnderWay(plan *schedule.Plan, r *problem.Result) {
	for i := range r.Jobs {
		j, b := &r.Jobs[i], &plan.Batches[i]
		if j.Begun < 0 {
			continue
		}
		u := pl.under[j.Begun]
		if j.Stuck {
			pl.note("begun-stuck", pl.p.From, "%s (%s) cannot go on: there is no moment at which its next stages have somebody's hours, their kit and a place, with what else is under way. Give somebody hours, free the kit, or list the batch under lost.", b.ID, b.Cheese)
		}
		pl.warnLate(u, b)
		for s := range j.Stays {
			if j.Stays[s].Homeless {
				pl.note("boxes-do-not-fit", pl.p.From, "The boxes of %s (%s) do not fit in the %s by the sizes given. Check the sizes, or where they stand.",
					b.ID, b.Cheese, pl.p.Kitchen.Cold[j.Stays[s].Space].Name)
			}
		}
	}
	pl.warnClosed(plan, r)
	for s := range pl.stocks {
		if p := r.Stocks[s].Place; p.Homeless {
			st := &pl.p.Stock[pl.stocks[s]]
			pl.note("boxes-do-not-fit", pl.p.From, "The boxes of %s in stock do not fit in the %s by the sizes given. Check the sizes, or where they stand.",
				st.Cheese, pl.p.Kitchen.Cold[p.Space].Name)
		}
	}
}

// warnLate says which holds of a batch under way go on past their time. The last one listed is
// never late: it is the store after packing, or that of a stuck batch.
func (pl *Stated) warnLate(u *underWay, b *schedule.Batch) {
	for k := max(len(u.starts)-1, 0); k < len(b.Stages)-1; k++ {
		t := &b.Stages[k]
		over := t.Hold - u.chain.at(k, t.Start.Add(t.Work)).holds[k].Most
		if over <= 0 {
			continue
		}
		pl.note("hold-overrun", t.Ends, "%s (%s): the hold of %s goes on %s longer than it should. The next stage, %s, is planned for %s; look at the cheese before you go on.",
			b.ID, b.Cheese, t.Stage, resources.FormatMinutes(over), b.Stages[k+1].Stage, pl.when(t.Ends))
	}
}
