package main

import (
	"io"
	"strconv"
	"time"

	"ripeby/calendar/spreadsheet"
	"ripeby/resources"
)

// slipColumns are those of the answer as a table. Columns are only ever added, at the end. Moments
// are RFC 3339 with the kitchen's offset.
var slipColumns = []string{"batch", "cheese", "stage", "begun", "start", "minutes", "who", "slip_from", "slip_until", "critical"}

// csv tells the answer to a spreadsheet, a row for each stage.
func (a *slipAnswer) csv(w io.Writer) error {
	at := func(m resources.Moment) string { return m.In(a.zone).Format(time.RFC3339) }
	yes := map[bool]string{true: "yes"}
	var rows [][]string
	for _, b := range a.batches {
		for i := range b.Stages {
			t := &b.Stages[i]
			begun := a.begun(t)
			rows = append(rows, []string{b.ID, b.Cheese, t.Stage, yes[begun], at(t.Start), strconv.Itoa(int(t.Work)), t.Who,
				at(t.SlipFrom), at(t.SlipUntil), yes[t.Critical && !begun]})
		}
	}
	return spreadsheet.Write(w, slipColumns, rows)
}
