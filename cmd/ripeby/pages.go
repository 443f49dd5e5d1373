package main

import (
	"bytes"
	"io"
	"slices"
	"sync"
	"time"

	"ripeby/calendar/ical"
	"ripeby/calendar/strips"
	"ripeby/calendar/week"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/planfile"
)

// pagesOf makes all files of a plan, plan.json first, without writing any. They
// depend on nothing but the problem and the plan: no setting, no clock. They are made side by
// side: a plan of years has files that take longer than who called it off wants to wait.
func pagesOf(problem *schedule.Problem, plan *schedule.Plan) ([]page, error) {
	makers := []func() ([]byte, error){ // in the order of the names
		func() ([]byte, error) { return planfile.Encode(plan, problem.Kitchen.Zone) },
		func() ([]byte, error) { return ical.Encode(problem, plan, ical.Options{Earlier: problem.Earlier}) }, // a file that is imported
		func() ([]byte, error) { return allWeeks(problem, plan) },
		func() ([]byte, error) { return strips.Draw(problem, plan), nil },
	}
	pages, faults := make([]page, len(makers)), make([]error, len(makers))
	var making sync.WaitGroup
	for i, name := range pageNames() {
		pages[i].name = name
		making.Go(func() { pages[i].text, faults[i] = makers[i]() })
	}
	making.Wait()
	for _, err := range faults {
		if err != nil {
			return nil, err
		}
	}
	return pages, nil
}

// allWeeks gives the tables of all weeks in which something is to be done, one
// under the other.
func allWeeks(problem *schedule.Problem, plan *schedule.Plan) ([]byte, error) {
	var out bytes.Buffer
	opt := week.Options{Format: week.Terminal, Width: standardWidth}
	err := week.Tables(&out, problem, plan, weeksOf(plan, problem.Kitchen.Zone), opt)
	return out.Bytes(), err
}

// comingWeek prints the first week in which something is to be done.
func comingWeek(w io.Writer, problem *schedule.Problem, plan *schedule.Plan, l look) error {
	monday := weeksOf(plan, problem.Kitchen.Zone)[0]
	return week.Table(w, problem, plan, week.Options{Of: monday, Format: week.Terminal, Width: l.width, Colour: l.colour})
}

// weeksOf gives the Mondays of all weeks from the planning start on in which
// there is work, a round or a target; the week of the start when there is none.
func weeksOf(plan *schedule.Plan, zone *time.Location) []resources.Date {
	var moments []resources.Moment
	for _, b := range plan.Batches {
		for _, t := range b.Stages {
			if t.Work > 0 {
				moments = append(moments, t.Start)
			}
		}
	}
	for _, r := range plan.Rounds {
		moments = append(moments, r.Start)
	}
	for _, t := range plan.Targets {
		moments = append(moments, t.By)
	}
	moments = slices.DeleteFunc(moments, func(m resources.Moment) bool { return m < plan.From })
	if len(moments) == 0 {
		moments = append(moments, plan.From)
	}
	slices.Sort(moments)
	var mondays []resources.Date
	for _, m := range moments {
		mondays = append(mondays, mondayOf(m.DateIn(zone)))
	}
	return slices.Compact(mondays)
}

// mondayOf is the first day of the week that the day lies in.
func mondayOf(d resources.Date) resources.Date {
	t := time.Date(d.Year, d.Month, d.Day, 12, 0, 0, 0, time.UTC)
	back := (int(t.Weekday()) + 6) % 7
	y, m, day := t.AddDate(0, 0, -back).Date()
	return resources.Date{Year: y, Month: m, Day: day}
}
