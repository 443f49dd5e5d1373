package config

import (
	"fmt"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// repeated adds one target a date, from by up to and including until, in steps of
// whole weeks. The local clock time is what repeats. What lies before the planning
// start is left out without a word.
func (l *loader) repeated(f *object, t schedule.Target, names *register, named bool) {
	weeks, ok := need(f, "every", "week", everyWeeks)
	until, ok2 := need(f, "until", "2027-04-24", resources.ParseDate)
	if n := f.get("by"); n != nil {
		if _, plain := scalarText(n); !plain {
			f.fault("by", Fault{What: "a feast is once a year; leave out every and until"})
			return
		}
	}
	by, ok3 := l.by(f)
	if !ok || !ok2 || !ok3 || !named || !l.fromKnown {
		return
	}
	zone, from := l.problem.Kitchen.Zone, l.problem.From
	first := by.DateIn(zone)
	if until.Before(first) {
		f.fault("until", Fault{What: "this is before the first date, " + first.String(), Got: until.String()})
		return
	}
	if until.Start(zone) >= from && !l.inHorizon(f, "until", until.Start(zone)) {
		return
	}
	local := by.In(zone)
	clock := resources.Clock(local.Hour()*60 + local.Minute())
	step := 7 * weeks
	// Start at most two repetitions before the planning start.
	skip := max(0, first.DaysUntil(from.DateIn(zone))/step-1)
	for day := first.AddDays(skip * step); !until.Before(day); day = day.AddDays(step) {
		one := t
		if one.By = day.At(clock, zone); day == first {
			one.By = by // as written, where an offset says which of two is meant
		}
		if one.By < from {
			continue
		}
		one.Name = fmt.Sprintf("%s %s", t.Name, day)
		if !names.enter(f, "name", one.Name) {
			return
		}
		l.problem.Targets = append(l.problem.Targets, one)
		if len(l.problem.Targets) > MaxTargets {
			return // targets says so
		}
	}
}

// everyWeeks reads how often a target comes again.
func everyWeeks(text string) (int, error) {
	bad := Fault{What: "a target comes again every week or every so many weeks", Got: clip(text), Want: "every: week, or every: 2 weeks"}
	words := strings.Fields(text)
	if len(words) == 1 && words[0] == "week" {
		return 1, nil
	}
	if len(words) != 2 || words[1] != "weeks" && words[1] != "week" {
		return 0, bad
	}
	const mostWeeks = MaxHorizonDays/7 + 1
	n, err := whole(1, mostWeeks)(words[0])
	if err != nil {
		if f, ok := err.(Fault); ok {
			bad.What = f.What
		}
		return 0, bad
	}
	return n, nil
}
