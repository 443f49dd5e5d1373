package week

import (
	"fmt"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// workHeads are the columns of the table of work.
var workHeads = []string{"When", "Who", "What", "Batch", "How much", "Takes", "Where, with", "Start by"}

// The columns by name.
const (
	colWhen = iota
	colWho
	colWhat
	colBatch
	colMuch
	colTakes
	colWhere
	colBy
	columns
)

// cellPen writes what a week's tables say.
type cellPen struct{ words.Pen }

// cells writes one row of the table of work.
func (n *cellPen) cells(r *row, day resources.Date) []string {
	c := make([]string, columns)
	c[colWhen] = words.Clock(r.at, n.Zone)
	c[colWho] = n.Name(r.who)
	c[colWhat] = strings.TrimSpace(n.Name(r.what) + " " + n.Name(r.cheese))
	c[colBatch] = n.Name(r.batch)
	c[colMuch] = amountText(r)
	if r.minutes > 0 {
		c[colTakes] = words.Length(r.minutes)
	}
	c[colWhere] = words.Join("; ", n.where(r), n.doses(r.needs), n.toMeasure(r.measures))
	switch r.kind {
	case rowWork:
		c[colBy] = n.startBy(r, day)
		if r.overdue != 0 {
			c[colWhat] += ", overdue since " + words.Stamp(r.overdue, n.Zone)
		}
	case rowLook:
		c[colWhat] = words.Look(n.Name(r.what), n.Name(r.cheese))
	case rowCarry:
		c[colWhat] = words.Carry(n.Name(r.cheese), n.Name(r.what))
	case rowLeaves:
		c[colWhat] = n.Name(r.what) + " leaves"
	case rowShare:
		c[colWhat] = n.Name(r.cheese)
	case rowMissing:
		c[colWhat] = words.Missing + ": " + n.Name(r.cheese)
	case rowAnytime:
		c[colWhen] = "today"
	case rowOrder, rowCollect:
		n.milkCells(c, r)
	}
	if r.kind == rowShare || r.kind == rowMissing || r.kind == rowCare {
		c[colWhen], c[colWho], c[colWhat] = "", "", "- "+c[colWhat]
	}
	return c
}

// startBy is the latest start, as told from the row's day.
func (n *cellPen) startBy(r *row, day resources.Date) string {
	switch {
	case r.begun:
		return "begun"
	case r.latest == 0:
		return "not known"
	case r.critical:
		return words.Clock(r.at, n.Zone) + " " + words.Sharp
	case r.latest <= r.at:
		return words.Clock(r.at, n.Zone)
	}
	return words.Latest(r.latest, day, n.Zone)
}

// amountText is how much of a batch a row is about.
func amountText(r *row) string {
	var parts []string
	if r.litres > 0 {
		parts = append(parts, words.Litres(r.litres))
	}
	if r.pieces > 0 {
		parts = append(parts, words.Count(r.pieces, "piece", "pieces"))
	}
	s := strings.Join(parts, ", ")
	if r.promised > 0 {
		s += fmt.Sprintf(" (%d%spromised)", r.promised, words.Glue)
	}
	return s
}

// where is the place, where boxes go, and the kit to take.
func (n *cellPen) where(r *row) string {
	s := n.Name(r.place)
	if r.boxesTo != "" && r.boxesTo != r.place {
		s += ", then " + n.Name(r.boxesTo)
	}
	if len(r.shelves) > 0 {
		names := make([]string, len(r.shelves))
		for i, shelf := range r.shelves {
			names[i] = n.Name(shelf)
		}
		s += ": " + strings.Join(names, ", ")
	}
	if kit := n.kit(r.kit); kit != "" {
		s += "; " + kit
	}
	return s
}

func (n *cellPen) kit(uses []schedule.Occupied) string { return words.Kit(uses, n.Name) }

// fillHeads are the columns of the table of cold places.
func (n *cellPen) fillHeads(fills []coldroom.Fill) []string {
	heads := []string{"Day"}
	for i := range fills {
		place := fills[i].Place
		heads = append(heads, n.Name(place.Name)+" ("+words.Degrees(place.Temperature)+")")
	}
	return heads
}

// fillRows are what each place holds at its fullest moment of each day, and when
// the fullest moment of the week is.
func (n *cellPen) fillRows(s *oneWeek) [][]string {
	var rows [][]string
	for _, d := range s.days {
		row := []string{words.Day(d.date)}
		for i := range s.fills {
			f := &s.fills[i]
			row = append(row, words.Fill(f, f.Tightest(d.span)))
		}
		rows = append(rows, row)
	}
	row := []string{"Fullest"}
	for i := range s.fills {
		most := s.fills[i].Tightest(s.span)
		if most.Boxes == 0 {
			row = append(row, "-")
			continue
		}
		row = append(row, words.Stamp(most.From, n.Zone))
	}
	return append(rows, row)
}
