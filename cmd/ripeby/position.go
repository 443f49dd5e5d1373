package main

import (
	"time"

	"ripeby/schedule"
	"ripeby/schedule/planner/whatif"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
	"ripeby/schedule/record/since"
)

// position is where a kitchen stands with a plan before it, and what has become otherwise since that
// was made.
type position struct {
	*follows.Position
	causes func() (list []whatif.Cause, more bool)
}

// stands says where a kitchen stands with a plan before it, nil for none: what follows from its
// record, and from what nobody spoke of. A line of the record that cannot be read is a failure
// with exit code 2 that lists every one; nothing is planned past it. The demo has no record.
func (k kitchen) stands(problem *schedule.Problem, earlier *schedule.Plan) (*position, error) {
	problem.Earlier = earlier
	book, cut := record.NewBook(nil), []schedule.Warning(nil)
	if !k.demo {
		r, err := loadRecord(k.folder)
		if err != nil {
			return nil, err
		}
		book = r.Book
		for _, f := range r.Cut {
			cut = append(cut, schedule.Warning{Code: "record-cut", Text: f.Error()})
		}
	}
	where := follows.Of(problem, book)
	where.Problem.Warnings = append(where.Problem.Warnings, cut...)
	where.Problem.MadeOf = since.MadeOf(problem, book)
	return &position{where, func() ([]whatif.Cause, bool) {
		list, more := since.Of(problem, book)
		return causesOf(list, problem.Kitchen.Zone), more
	}}, nil
}

// showing reads the kitchen as of a plan's start, with what the plan knew to be closed: to show the
// plan, and not to make another.
func (k kitchen) showing(plan *schedule.Plan, now time.Time) (*schedule.Problem, error) {
	problem, err := k.load(startOf(plan), now)
	if err != nil || k.demo {
		return problem, err
	}
	r, err := loadRecord(k.folder)
	if err != nil {
		return nil, err
	}
	return follows.Closed(problem, r.Book), nil
}
