package recordfile

import (
	"fmt"

	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule/record"
)

// Say checks an entry against the record and against what is known, and adds it. The error
// is [fault.Faults] where it is refused, which names the line that it would have been and
// the one with which it is at odds, and nothing is written. What was only asked about is
// taken when it is said again.
//
// An entry whose word was taken before is the one that was written then, unchecked.
func (w *Writer) Say(e record.Entry, known *record.Known, now resources.Moment, again bool) (record.Entry, error) {
	day := now.DateIn(w.zone)
	if w.Taken(e.Once) == nil {
		if faults := w.Refused(e, known, now, again); len(faults) > 0 {
			return record.Entry{}, faults
		}
	}
	added, err := w.Add(day, e)
	if err != nil {
		return record.Entry{}, err
	}
	return added[0], nil
}

// Refused is everything for which an entry would be refused; nil for nothing.
func (w *Writer) Refused(e record.Entry, known *record.Known, now resources.Moment, again bool) (faults fault.Faults) {
	e.File, e.Line = w.next(now.DateIn(w.zone))
	line := Line(e, w.zone)
	if err := w.readable(line, &e); err != nil {
		if faults, ok := err.(fault.Faults); ok {
			for i := range faults { // a column of a line that nobody sees says nothing
				faults[i].Line, faults[i].Column = e.Line, 0
			}
			return faults
		}
		return fault.Faults{{File: e.File, Line: e.Line, What: err.Error()}}
	}
	for _, r := range record.Check(e, w.Book(), known, now, again) {
		f := fault.Fault{File: e.File, Line: e.Line, What: r.What, Got: fault.Clip(r.Got), Want: r.Want, Near: fault.Nearest(r.Got, r.Among), Asked: r.Asked}
		if o := r.Other; o != nil {
			f.What += fmt.Sprintf(", see %s:%d: %s", o.File, o.Line, fault.Clip(Said(*o, w.zone)))
		}
		if f.Near == "" && f.Want == "" && len(r.Among) > 0 {
			f.Want = "one of " + some(r.Among)
		}
		if r.Asked {
			f.Want = "the right number, or say it again (--again) if it is so"
		}
		if f.Want == "" && f.Near == "" {
			f.Want = "it otherwise, or leave it out"
		}
		faults = append(faults, f)
	}
	return faults
}

// Draft is where an entry would stand if it were added now, and its line.
func (w *Writer) Draft(e record.Entry, now resources.Moment) (file, line string) {
	if before := w.Taken(e.Once); before != nil {
		return before.File, Line(*before, w.zone)
	}
	file, _ = w.next(now.DateIn(w.zone))
	e.Nr = w.lastNr + 1
	return file, Line(e, w.zone)
}

// next is where the next entry will stand.
func (w *Writer) next(day resources.Date) (file string, line int) {
	name := monthOf(day)
	return Below(name), lineAfter(w.months[name])
}

// some names the last few of a list, which are the newest, and how many more there are.
func some(names []string) string {
	const most = 8
	text, more := "", len(names)-most
	for i, name := range names[max(0, more):] {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("%q", fault.Clip(name))
	}
	if more > 0 {
		text = fmt.Sprintf("%s and %d more", text, more)
	}
	return text
}
