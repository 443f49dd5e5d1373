package main

import (
	"io"
	"time"

	"ripeby/calendar/list"
	"ripeby/calendar/words"
	"ripeby/resources"
)

// listJSON is a list to take along for a program. Keys are only ever added; null is what is not known.
type listJSON struct {
	Schema  string           `json:"schema"`
	Target  string           `json:"target"`
	Leaves  string           `json:"leaves"`
	Cheeses []listCheeseJSON `json:"cheeses"`
}

type listCheeseJSON struct {
	Cheese string        `json:"cheese"`
	Pieces int           `json:"pieces"`
	Short  int           `json:"short"`
	From   []listRowJSON `json:"from"`
}

type listRowJSON struct {
	Batch  *string `json:"batch"` // null for stock
	Lot    *string `json:"lot"`
	Pieces int     `json:"pieces"`
	OutOf  string  `json:"out_of"`
	Until  *string `json:"keeps_until"`
}

// noteJSON is a delivery note for a program.
type noteJSON struct {
	Schema     string         `json:"schema"`
	Dispatched string         `json:"dispatched"`
	From       partyJSON      `json:"from"`
	To         partyJSON      `json:"to"`
	For        string         `json:"for"`
	Lines      []noteLineJSON `json:"lines"`
	Lacking    []string       `json:"lacking"`
}

type partyJSON struct {
	Name    string  `json:"name"`
	Address *string `json:"address"`
}

type noteLineJSON struct {
	What     string  `json:"what"`
	Pieces   int     `json:"pieces"`
	Quantity string  `json:"quantity"`
	Lot      *string `json:"lot"`
	Until    *string `json:"keeps_until"`
}

// listAsJSON tells a list to a program.
func listAsJSON(w io.Writer, s *list.Shown, zone *time.Location) error {
	out := listJSON{Schema: "ripeby/list/1", Target: s.Target, Leaves: s.By.In(zone).Format(time.RFC3339), Cheeses: []listCheeseJSON{}}
	for _, c := range s.Cheeses {
		j := listCheeseJSON{Cheese: c.Name, Pieces: c.Pieces, Short: c.Short, From: []listRowJSON{}}
		for _, r := range c.Rows {
			j.From = append(j.From, listRowJSON{textOrNull(r.Batch), textOrNull(r.Lot), r.Pieces, words.Unglue(r.From), dayOrNull(r.UseBy)})
		}
		out.Cheeses = append(out.Cheeses, j)
	}
	return printJSON(w, out)
}

// noteAsJSON tells a delivery note to a program.
func noteAsJSON(w io.Writer, d *list.Note) error {
	out := noteJSON{Schema: "ripeby/note/1", Dispatched: d.Day.String(), From: partyJSON{d.From.Name, textOrNull(d.From.Address)}, To: partyJSON{d.To.Name, textOrNull(d.To.Address)},
		For: d.For, Lines: []noteLineJSON{}, Lacking: append([]string{}, d.Lacking...)}
	for _, l := range d.Lines {
		out.Lines = append(out.Lines, noteLineJSON{l.What, l.Pieces, words.Unglue(l.Quantity), textOrNull(l.Lot), dayOrNull(l.UseBy)})
	}
	return printJSON(w, out)
}

func dayOrNull(d resources.Date) *string {
	if d == (resources.Date{}) {
		return nil
	}
	return textOrNull(d.String())
}
