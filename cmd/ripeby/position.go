package main

import (
	"errors"
	"fmt"

	"ripeby/config"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// stands says where a kitchen stands with a plan before it, nil for none: what follows from its
// record, and from what nobody spoke of. A line of the record that cannot be read is a failure
// with exit code 2 that lists every one; nothing is planned past it.
func (k kitchen) stands(problem *schedule.Problem, earlier *schedule.Plan) (*follows.Position, error) {
	problem.Earlier = earlier
	book, cut, err := k.record()
	if err != nil {
		return nil, err
	}
	where := follows.Of(problem, book)
	where.Problem.Warnings = append(where.Problem.Warnings, cut...)
	return where, nil
}

// record reads the record of a kitchen, and what there is to tell of lines that were cut short.
// The demo has none.
func (k kitchen) record() (*record.Book, []schedule.Warning, error) {
	if k.demo {
		return record.NewBook(nil), nil, nil
	}
	r, err := config.LoadRecord(k.folder)
	var faults config.Faults
	if errors.As(err, &faults) {
		return nil, nil, &failure{exitWrong, fmt.Errorf("%s in the record of the kitchen folder %s; nothing was written\n%w", schedule.Counted(len(faults), "error"), k.folder, err)}
	}
	if err != nil {
		return nil, nil, other("the record of %s cannot be read: %w", k.folder, err)
	}
	var cut []schedule.Warning
	for _, f := range r.Cut {
		cut = append(cut, schedule.Warning{Code: "record-cut", Text: f.Error()})
	}
	return r.Book, cut, nil
}
