package feed

import "ripeby/calendar/week"

// WeekView is a week as it is read: what is over of this one is folded, so that it begins with today.
type WeekView struct {
	*week.Shown
	Earlier []DayView // the days of this week before today
	Over    int       // what they held
	Days    []DayView // today and what follows; of another week all
}

// DayView is a day of a week.
type DayView struct {
	*week.DayShown
	Today      bool
	Open, Done []LineView // Done is said to be done or, today, over
}

// LineView is a line of a day.
type LineView struct {
	week.LineShown
	Root, Said string
}

// To leads from a line to a batch's sheet.
func (l LineView) To(batch, text string) batchLink { return batchLink{l.Root, batch, text} }

// weekView folds a week.
func (v *View) weekView(shown *week.Shown) *WeekView {
	w, today := &WeekView{Shown: shown}, v.today()
	present := today.Monday() == shown.First
	for i := range shown.Days {
		day := DayView{DayShown: &shown.Days[i], Today: v.IsToday(shown.Days[i].Date)}
		earlier := present && shown.Days[i].Date.DaysUntil(today) > 0
		for _, l := range day.Lines {
			line := LineView{LineShown: l, Root: v.Root}
			said, done := v.saidOf(l.Job)
			line.Said = said
			if !earlier && (done || day.Today && !l.Anytime && max(l.Until, l.Start+1) <= v.moment()) {
				day.Done = append(day.Done, line)
			} else {
				day.Open = append(day.Open, line)
			}
		}
		if earlier {
			w.Earlier, w.Over = append(w.Earlier, day), w.Over+len(day.Lines)
		} else {
			w.Days = append(w.Days, day)
		}
	}
	return w
}
