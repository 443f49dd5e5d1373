package feed

import (
	"fmt"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// What a new plan changes of what was told is shown, and pushed to nobody: one line where the page begins,
// which leads to the list, and one in the log.

// ChangesView is what is otherwise than in the plan before.
type ChangesView struct {
	SettledUntil string       // "" where nothing is settled
	Soon, Later  []ChangeView // in the settled time, and after it
}

// ChangeView is one task that is otherwise.
type ChangeView struct {
	Batch, What string
	Facts       []ChangeFact
}

// ChangeFact is one thing that is said of it.
type ChangeFact struct{ Label, Text string }

// Changed says how many tasks changed since the plan before; "" for none.
func (v *View) Changed() string {
	if v.Plan == nil || len(v.Plan.Changes) == 0 {
		return ""
	}
	return schedule.Counted(len(v.Plan.Changes), "task") + " changed"
}

// withChanges fills in what changed.
func (v *View) withChanges() {
	until := settledUntil(&Made{Problem: v.Problem, Plan: v.Plan})
	c := &ChangesView{}
	if until > v.Plan.From {
		c.SettledUntil = words.StampOf(v.Problem, until)
	}
	for _, x := range v.Plan.Changes {
		shown := ChangeView{What: words.Printable(x.Batch + " " + x.Stage)}
		if v.batch(x.Batch) != nil {
			shown.Batch = x.Batch // it has a sheet
		}
		add := func(label, text string) { shown.Facts = append(shown.Facts, ChangeFact{label, words.Printable(text)}) }
		add("Was", v.task(x.Was, x.WasWho, "not planned"))
		add("Now", v.task(x.Now, x.NowWho, "not planned any more"))
		add("Why", x.Because)
		if x.Before(until) {
			c.Soon = append(c.Soon, shown)
		} else {
			c.Later = append(c.Later, shown)
		}
	}
	v.Changes = c
}

// task is when work is, and who does it.
func (v *View) task(at resources.Moment, who, none string) string {
	if at == 0 {
		return none
	}
	text := words.StampOf(v.Problem, at)
	if who != "" {
		text += ", " + who
	}
	return text
}

// settledUntil is when the settled time of a plan is over; its start where nothing is settled.
func settledUntil(made *Made) resources.Moment {
	return made.Plan.From.Add(made.Problem.Kitchen.Settled)
}

// changedText says for the log what a plan has changed.
func changedText(made *Made) string {
	n := len(made.Plan.Changes)
	if n == 0 {
		return "nothing that was planned has moved"
	}
	soon, until := 0, settledUntil(made)
	for _, c := range made.Plan.Changes {
		if c.Before(until) {
			soon++
		}
	}
	text := schedule.Counted(n, "task") + " changed"
	if until > made.Plan.From {
		text += fmt.Sprintf(", %d of them until %s", soon, words.StampOf(made.Problem, until))
	}
	return text
}
