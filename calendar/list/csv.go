package list

import (
	"io"
	"strconv"
	"time"

	"ripeby/calendar/spreadsheet"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// Columns of the tables for spreadsheets. They are only ever added, at the end. Moments are RFC 3339 with
// the kitchen's offset, days 2027-03-12.
var (
	listColumns = []string{"target", "leaves", "cheese", "lot", "pieces", "out_of", "keeps_until", "short"}
	noteColumns = []string{"dispatched", "from", "from_address", "to", "to_address", "for", "what", "pieces", "quantity", "lot", "keeps_until"}
)

// CSV writes the list for a spreadsheet: a row for each batch or entry of stock, and one for what is short.
func (s *Shown) CSV(w io.Writer) error {
	leaves := s.By.In(s.zone).Format(time.RFC3339)
	var rows [][]string
	for _, c := range s.Cheeses {
		for _, r := range c.Rows {
			rows = append(rows, []string{s.Target, leaves, c.Name, r.Lot, strconv.Itoa(r.Pieces), words.Unglue(r.From), isoDay(r.UseBy), ""})
		}
		if c.Short > 0 {
			rows = append(rows, []string{s.Target, leaves, c.Name, "", "", "", "", strconv.Itoa(c.Short)})
		}
	}
	return spreadsheet.Write(w, listColumns, rows)
}

// CSV writes the delivery note for a spreadsheet, a row for each of its lines.
func (d *Note) CSV(w io.Writer) error {
	var rows [][]string
	for _, l := range d.Lines {
		rows = append(rows, []string{d.Day.String(), d.From.Name, d.From.Address, d.To.Name, d.To.Address, d.For, l.What, strconv.Itoa(l.Pieces), words.Unglue(l.Quantity), l.Lot, isoDay(l.UseBy)})
	}
	return spreadsheet.Write(w, noteColumns, rows)
}

// isoDay is a day as a program reads it; "" for none.
func isoDay(d resources.Date) string {
	if d == (resources.Date{}) {
		return ""
	}
	return d.String()
}
