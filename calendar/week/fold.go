package week

import "ripeby/resources"

// Folded is a week as it is read: what is over of the present one is folded, so that it begins with today.
type Folded struct {
	*Shown
	Earlier []FoldedDay // the days of this week before today
	Over    int         // how many lines they have
	Days    []FoldedDay // today and what follows; of another week all
}

// FoldedDay is a day of it.
type FoldedDay struct {
	*DayShown
	Today      bool
	Open, Done []FoldedLine // Done is said to be done or, today, over
}

// FoldedLine is a line of a day, with what was said of it.
type FoldedLine struct {
	LineShown
	Said string
}

// Fold folds a week as it is seen at a moment of a day. What was said of a job, and whether it is over with
// that, is asked of said.
func (w *Shown) Fold(today resources.Date, now resources.Moment, said func(Job) (text string, done bool)) *Folded {
	f, present := &Folded{Shown: w}, today.Monday() == w.First
	for i := range w.Days {
		day := FoldedDay{DayShown: &w.Days[i], Today: w.Days[i].Date == today}
		earlier := present && day.Date.DaysUntil(today) > 0
		for _, l := range day.Lines {
			line, done := FoldedLine{LineShown: l}, false
			line.Said, done = said(l.Job)
			if !earlier && (done || day.Today && !l.Anytime && max(l.Until, l.Start+1) <= now) {
				day.Done = append(day.Done, line)
			} else {
				day.Open = append(day.Open, line)
			}
		}
		if earlier {
			f.Earlier, f.Over = append(f.Earlier, day), f.Over+len(day.Lines)
		} else {
			f.Days = append(f.Days, day)
		}
	}
	return f
}
