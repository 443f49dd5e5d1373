package heard

import (
	"slices"

	"ripeby/calendar/said"
	"ripeby/calendar/week"
)

// last is the last word that was said of a job, nil for none, and what it says; done says that the
// job is over with that.
func (b *Beside) last(j week.Job) (last *said.Word, of string, done bool) {
	if b.Told == nil {
		return nil, "", false
	}
	day := j.Start.DateIn(b.Problem.Kitchen.Zone)
	for i := range slices.Backward(b.Told.Lately) {
		w := &b.Told.Lately[i]
		switch mine := j.Batch != "" && j.Batch == w.Batch; {
		case mine && w.Lost:
			of, done = "lost", true
		case mine && j.Stage != "" && w.Did == j.Stage:
			of, done = "done", true
		case mine && j.Stage != "" && w.Began == j.Stage:
			of, done = "begun", j.Look
		case mine && j.Stage != "" && w.NotYet == j.Stage:
			of = "not yet"
		case mine && j.To != "" && w.Stands == j.To:
			of, done = "carried", true
		case j.Round && w.Round == day:
			of, done = "said", true
		case j.Milk != nil && w.Milk == j.Milk.Supply && w.Day == j.Milk.Collect.DateIn(b.Problem.Kitchen.Zone):
			if j.Milk.Order && w.Ordered {
				of, done = "ordered", true
			} else if !j.Milk.Order && w.Came {
				of, done = "came", true
			}
		}
		if of != "" {
			return w, of, done
		}
	}
	return nil, "", false
}

// Said is what was said of a job last, by whom and when; "" for nothing. done says that the job is over
// with that.
func (b *Beside) Said(j week.Job) (text string, done bool) {
	w, of, done := b.last(j)
	if w == nil {
		return "", false
	}
	return of + b.By(w), done
}
