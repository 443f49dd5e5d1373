package main

import (
	"strconv"

	"ripeby/calendar/spreadsheet"
	"ripeby/config"
	"ripeby/config/recordfile"
)

// recordCSV prints all entries for a spreadsheet: a column for each key that an entry may
// have, then which entry struck it, and where it stands. Columns are only ever added, at
// the end.
func (p *program) recordCSV(r *config.Record) error {
	p.mindFaults(r.Cut)
	var rows [][]string
	for _, e := range r.Book.All() {
		struck := ""
		if by := r.Book.StruckBy(e); by != nil {
			struck = strconv.Itoa(by.Nr)
		}
		rows = append(rows, append(recordfile.Row(*e, r.Zone), struck, e.File, strconv.Itoa(e.Line)))
	}
	return spreadsheet.Write(p.out, append(recordfile.Columns(), "struck_by", "file", "line"), rows)
}
