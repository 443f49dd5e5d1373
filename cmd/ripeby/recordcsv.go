package main

import (
	"encoding/csv"
	"strconv"

	"ripeby/calendar/words"
	"ripeby/config"
	"ripeby/config/recordfile"
)

// recordCSV prints all entries for a spreadsheet: a column for each key that an entry may
// have, then which entry struck it, and where it stands. Columns are only ever added, at
// the end.
func (p *program) recordCSV(r *config.Record) error {
	p.mindFaults(r.Cut)
	out := csv.NewWriter(p.out)
	out.UseCRLF = true // RFC 4180, section 2
	if err := out.Write(append(recordfile.Columns(), "struck_by", "file", "line")); err != nil {
		return err
	}
	for _, e := range r.Book.All() {
		struck := ""
		if by := r.Book.StruckBy(e); by != nil {
			struck = strconv.Itoa(by.Nr)
		}
		cells := append(recordfile.Row(*e, r.Zone), struck, e.File, strconv.Itoa(e.Line))
		for i := range cells {
			if words.Formula(cells[i]) {
				cells[i] = "'" + cells[i]
			}
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
