package heard

import (
	"slices"
	"time"

	"ripeby/calendar/said"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// Beside is a plan at a moment, and what was said of it; Told is nil where nothing can be said.
type Beside struct {
	Problem *schedule.Problem
	Plan    *schedule.Plan
	Told    *said.Told
	Now     resources.Moment
}

// Today is the day of the present in the kitchen.
func (b *Beside) Today() resources.Date { return b.Now.DateIn(b.Problem.Kitchen.Zone) }

// DayWord names a moment's day as seen from today, which is "".
func (b *Beside) DayWord(m resources.Moment) string {
	day := m.DateIn(b.Problem.Kitchen.Zone)
	switch b.Today().DaysUntil(day) {
	case 0:
		return ""
	case 1:
		return "tomorrow"
	}
	return time.Date(day.Year, day.Month, day.Day, 0, 0, 0, 0, time.UTC).Format("Mon 2 Jan")
}

// By is when something was said to be, and who said so.
func (b *Beside) By(w *said.Word) string {
	text := " " + words.Clock(w.At, b.Problem.Kitchen.Zone)
	if day := b.DayWord(w.At); day != "" {
		text = " " + words.StampOf(b.Problem, w.At)
	}
	if w.Who != "" {
		text += ", " + words.Printable(w.Who)
	}
	return text
}

// stage is a stage's place in a batch of the plan; -1 for none.
func (b *Beside) stage(batch, stage string) int {
	of := b.Plan.Batch(batch)
	if of == nil {
		return -1
	}
	return slices.IndexFunc(of.Stages, func(t schedule.Task) bool { return t.Stage == stage })
}

// IsFirst reports whether a stage begins its batch: nothing is waited for before it.
func (b *Beside) IsFirst(batch, stage string) bool { return b.stage(batch, stage) == 0 }

// Waits reports whether a hold comes before a stage, so that it may be said not to be over.
func (b *Beside) Waits(batch, stage string) bool {
	i, of := b.stage(batch, stage), b.Plan.Batch(batch)
	if i <= 0 {
		return false
	}
	r := b.Problem.RecipeOf(of.ID, of.Cheese)
	if r == nil || i >= len(r.Stages) {
		return of.Stages[i-1].Hold > 0
	}
	h := r.Stages[i-1].Hold
	return h != nil && h.Most > 0
}
