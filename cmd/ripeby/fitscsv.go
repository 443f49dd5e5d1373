package main

import (
	"io"
	"strconv"
	"time"

	"ripeby/calendar/spreadsheet"
	"ripeby/resources"
)

// fitColumns are those of the answer as a table: first a row that has the answer, then one for each task that
// moves, for where the pieces come from and for what could be had instead. Columns are only ever added, at the
// end. Moments are RFC 3339 with the kitchen's offset.
var fitColumns = []string{"row", "cheese", "pieces", "by", "answer", "text", "batch", "stage", "was", "start", "who", "at"}

// csv tells the answer to a spreadsheet.
func (a *fitAnswer) csv(w io.Writer) error {
	at := func(m resources.Moment) string { return m.In(a.zone()).Format(time.RFC3339) }
	rows := []map[string]string{{"row": "answer", "cheese": a.order.Cheese, "pieces": strconv.Itoa(a.order.Pieces), "by": at(a.order.By),
		"answer": answerWords()[a.fit.Outcome], "text": a.first()}}
	for _, m := range a.moves {
		rows = append(rows, map[string]string{"row": "moves", "cheese": m.Cheese, "batch": m.Batch, "stage": m.Stage, "was": at(m.From), "start": at(m.To), "who": m.Now, "at": m.PlaceTo})
	}
	for _, text := range a.sourceLines() {
		rows = append(rows, map[string]string{"row": "from", "text": text})
	}
	for _, text := range a.insteadLines() {
		rows = append(rows, map[string]string{"row": "instead", "text": text})
	}
	return spreadsheet.Records(w, fitColumns, rows)
}
