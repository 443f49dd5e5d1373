package main

import (
	"io"
	"strconv"
	"time"

	"ripeby/calendar/spreadsheet"
	"ripeby/resources"
)

// The columns of both answers as tables. They are only ever added, at the end. Moments are RFC 3339 with the
// kitchen's offset.
var (
	whyColumns   = []string{"target", "by", "cheese", "short", "because", "proved", "change", "more", "settled_moved"}
	worthColumns = []string{"change", "pieces", "money", "least", "most"}
)

// csv tells a spreadsheet why something is short, a row for each change that would help: one without a
// change where none does.
func (a *whyAnswer) csv(w io.Writer) error {
	var rows [][]string
	for i, why := range a.whys {
		x := a.wants[i]
		of := []string{x.target, x.by.In(a.problem.Kitchen.Zone).Format(time.RFC3339), x.cheese, strconv.Itoa(shortOf(a.problem.Earlier, x)), why.Because, map[bool]string{true: "yes"}[why.Proved]}
		for _, f := range why.Fixes {
			moved, _ := settledCount(f.With, f.Plan)
			rows = append(rows, append(of[:len(of):len(of)], f.Text, strconv.Itoa(f.Gains), strconv.Itoa(moved)))
		}
		if len(why.Fixes) == 0 {
			rows = append(rows, append(of, "", "", ""))
		}
	}
	return spreadsheet.Write(w, whyColumns, rows)
}

// worthCSV tells a spreadsheet what one more of each thing would buy.
func (a *whyAnswer) worthCSV(w io.Writer) error {
	var rows [][]string
	for _, f := range a.worths {
		rows = append(rows, []string{f.Text, strconv.Itoa(f.Pieces), resources.FormatMoney(f.Money), resources.FormatMoney(f.Least), resources.FormatMoney(f.Most)})
	}
	return spreadsheet.Write(w, worthColumns, rows)
}
