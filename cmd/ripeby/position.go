package main

import (
	"fmt"

	"ripeby/config/recordfile"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
)

// stands says where a kitchen stands with a plan before it, nil for none: what follows from its
// record, and from what nobody spoke of. A line of the record that cannot be read is a failure
// with exit code 2 that lists every one; nothing is planned past it.
func (k kitchen) stands(problem *schedule.Problem, earlier *schedule.Plan) (*follows.Position, error) {
	problem.Earlier = earlier
	book, cut, err := k.record(problem)
	if err != nil {
		return nil, err
	}
	where := follows.Of(problem, book)
	where.Problem.Warnings = append(where.Problem.Warnings, cut...)
	return where, nil
}

// record reads the record of a kitchen, and what there is to tell of lines that were cut short.
// The demo has none.
func (k kitchen) record(problem *schedule.Problem) (*record.Book, []schedule.Warning, error) {
	if k.demo {
		return record.NewBook(nil), nil, nil
	}
	done, err := recordfile.Shared(k.folder)
	if err != nil {
		return nil, nil, other("the record cannot be read: %w", err)
	}
	defer done()
	disk := recordfile.OnDisk(k.folder)
	names, err := disk.Names()
	if err != nil {
		return nil, nil, other("the record cannot be read: %w", err)
	}
	var all recordfile.Month
	for _, name := range recordfile.InOrder(names) {
		if !recordfile.OfMonth(name) {
			continue
		}
		text, err := disk.Read(name, recordfile.MaxBytes)
		if err != nil {
			return nil, nil, other("the record cannot be read: %w", err)
		}
		m := recordfile.Read(recordfile.Below(name), text, problem.Kitchen.Zone)
		all.Entries = append(all.Entries, m.Entries...)
		all.Cut = append(all.Cut, m.Cut...)
		all.Faults = append(all.Faults, m.Faults...)
	}
	if n := len(all.Faults); n > 0 {
		return nil, nil, &failure{exitWrong, fmt.Errorf("%s in the record of %s; nothing was written\n%w", schedule.Counted(n, "error"), k.folder, all.Faults)}
	}
	var cut []schedule.Warning
	for _, f := range all.Cut {
		cut = append(cut, schedule.Warning{Code: "record-cut", Text: f.Error()})
	}
	return record.NewBook(all.Entries), cut, nil
}
