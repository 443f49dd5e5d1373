package config

import (
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"ripeby/resources"
	"ripeby/schedule"
)

// repeated adds one target a date, from by up to and including until, in steps of
// whole weeks, but for the dates excepted. The local clock time is what repeats. What
// lies before the planning start is left out without a word. Without until it goes on
// for as long as the kitchen plans ahead.
func (l *loader) repeated(f *object, t schedule.Target, names *register, named bool) {
	if f.get("every") == nil {
		f.missing("every")
		return
	}
	weeks, ok := value(f, "every", everyWeeks)
	until, ok2 := either(f, "until", l.aheadUntil(), resources.ParseDate)
	except, nodes := each(f, "except", resources.ParseDate)
	if n := f.get("by"); n != nil {
		if _, plain := scalarText(n); !plain {
			f.fault("by", Fault{What: "a feast is once a year; leave out every, until and except"})
			return
		}
	}
	by, ok3 := l.by(f)
	if !ok || !ok2 || !ok3 || !named || !l.fromKnown {
		return
	}
	zone, from := l.problem.Kitchen.Zone, l.problem.From
	first := by.DateIn(zone)
	if until.Before(first) && f.get("until") != nil {
		f.fault("until", Fault{What: "this is before the first date, " + first.String(), Got: until.String()})
		return
	}
	if until.Start(zone) >= from && !l.inHorizon(f, "until", until.Start(zone)) {
		return
	}
	local := by.In(zone)
	clock := resources.Clock(local.Hour()*60 + local.Minute())
	step := 7 * weeks
	for i, day := range except {
		notHeld(f, nodes[i], day, first, step)
	}
	// Start at most two repetitions before the planning start.
	skip := max(0, first.DaysUntil(from.DateIn(zone))/step-1)
	for day := first.AddDays(skip * step); !until.Before(day); day = day.AddDays(step) {
		one := t
		if one.By = day.At(clock, zone); day == first {
			one.By = by // as written, where an offset says which of two is meant
		}
		if one.By < from || slices.Contains(except, day) {
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

// aheadUntil is the last date up to which a target is planned that repeats for ever.
func (l *loader) aheadUntil() resources.Date {
	if !l.fromKnown {
		return resources.Date{}
	}
	return l.problem.From.DateIn(l.problem.Kitchen.Zone).AddDays(7 * l.problem.Kitchen.Ahead)
}

// notHeld sees that a date excepted is one on which the target would be held.
func notHeld(f *object, at *yaml.Node, day, first resources.Date, step int) {
	off := first.DaysUntil(day)
	if off >= 0 && off%step == 0 {
		return
	}
	near := first.AddDays(max(0, (off+step/2)/step) * step)
	f.faultAt(at, "except", Fault{What: "it is not held on this " + day.Weekday().String() + " anyway", Got: day.String(), Near: near.String()})
}

// everyWeeks reads how often a target comes again.
func everyWeeks(text string) (int, error) {
	return someWeeks(text, "a target comes again every week or every so many weeks", "every: week, or every: 2 weeks")
}

// aheadWeeks reads how far ahead is planned.
func aheadWeeks(text string) (int, error) {
	return someWeeks(text, "how far ahead is planned is written in weeks", "ahead: 12 weeks")
}

// mostWeeks is the most that can be written.
const mostWeeks = MaxHorizonDays/7 + 1

// someWeeks reads a number of weeks, "week" for one.
func someWeeks(text, what, want string) (int, error) {
	bad := Fault{What: what, Got: clip(text), Want: want}
	words := strings.Fields(text)
	if m, err := resources.ParseMinutes(text); err == nil && m > 0 {
		bad.Want = fmt.Sprintf("%d weeks", min(mostWeeks, (m+7*resources.Day-1)/(7*resources.Day)))
	}
	if len(words) == 1 && words[0] == "week" {
		return 1, nil
	}
	if len(words) != 2 || words[1] != "weeks" && words[1] != "week" {
		return 0, bad
	}
	n, err := whole(1, mostWeeks)(words[0])
	if err != nil {
		if f, ok := err.(Fault); ok {
			bad.What, bad.Want = f.What, fmt.Sprintf("%d weeks", mostWeeks)
		}
		return 0, bad
	}
	return n, nil
}
