package main

import (
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// stands says where a kitchen stands with a plan before it, nil for none: what follows from its
// record, and from what nobody spoke of. A line of the record that cannot be read is a failure
// with exit code 2 that lists every one; nothing is planned past it. The demo has no record.
func (k kitchen) stands(problem *schedule.Problem, earlier *schedule.Plan) (*follows.Position, error) {
	problem.Earlier = earlier
	if k.demo {
		return follows.Of(problem, record.NewBook(nil)), nil
	}
	r, err := loadRecord(k.folder)
	if err != nil {
		return nil, err
	}
	where := follows.Of(problem, r.Book)
	for _, f := range r.Cut {
		where.Problem.Warnings = append(where.Problem.Warnings, schedule.Warning{Code: "record-cut", Text: f.Error()})
	}
	return where, nil
}
