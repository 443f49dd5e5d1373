package standing

import (
	"fmt"

	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// What a new plan changes of what was told is shown, and pushed to nobody: one line where the page begins,
// which leads to the list, and one in the log.

// Changes is what is otherwise than in the plan before.
type Changes struct {
	SettledUntil string   // "" where nothing is settled
	Soon, Later  []Change // in the settled time, and after it
}

// Change is one task that is otherwise.
type Change struct {
	Batch, What string // Batch has a sheet; "" for one that is in the plan no more
	Facts       []week.Fact
}

// Changed says how many tasks changed since the plan before; "" for none.
func Changed(plan *schedule.Plan) string {
	if plan == nil || len(plan.Changes) == 0 {
		return ""
	}
	return schedule.Counted(len(plan.Changes), "task") + " changed"
}

// ChangesOf lists what changed.
func ChangesOf(p *schedule.Problem, plan *schedule.Plan) *Changes {
	until := settledUntil(p, plan)
	c := &Changes{}
	if until > plan.From {
		c.SettledUntil = words.StampOf(p, until)
	}
	for _, x := range plan.Changes {
		shown := Change{What: words.Printable(x.Batch + " " + x.Stage)}
		if plan.Batch(x.Batch) != nil {
			shown.Batch = x.Batch
		}
		add := func(label, text string) {
			shown.Facts = append(shown.Facts, week.Fact{Label: label, Text: words.Printable(text)})
		}
		add("Was", task(p, x.Was, x.WasWho, "not planned"))
		add("Now", task(p, x.Now, x.NowWho, "not planned any more"))
		add("Why", x.Because)
		if x.Before(until) {
			c.Soon = append(c.Soon, shown)
		} else {
			c.Later = append(c.Later, shown)
		}
	}
	return c
}

// task is when work is, and who does it.
func task(p *schedule.Problem, at resources.Moment, who, none string) string {
	if at == 0 {
		return none
	}
	text := words.StampOf(p, at)
	if who != "" {
		text += ", " + who
	}
	return text
}

// settledUntil is when the settled time of a plan is over; its start where nothing is settled.
func settledUntil(p *schedule.Problem, plan *schedule.Plan) resources.Moment {
	return plan.From.Add(p.Kitchen.Settled)
}

// ChangedText says for the log what a plan has changed.
func ChangedText(p *schedule.Problem, plan *schedule.Plan) string {
	n := len(plan.Changes)
	if n == 0 {
		return "nothing that was planned has moved"
	}
	soon, until := 0, settledUntil(p, plan)
	for _, c := range plan.Changes {
		if c.Before(until) {
			soon++
		}
	}
	text := schedule.Counted(n, "task") + " changed"
	if until > plan.From {
		text += fmt.Sprintf(", %d of them until %s", soon, words.StampOf(p, until))
	}
	return text
}
