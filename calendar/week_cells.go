package calendar

import (
	"fmt"
	"strings"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// weekHeads are the columns of the table of work.
var weekHeads = []string{"When", "Who", "What", "Batch", "How much", "Takes", "Where, with", "Start by"}

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
	weekColumns
)

// weekPen writes names and texts for one format, and remembers whether it had to
// shorten any.
type weekPen struct {
	zone   *time.Location
	most   int                 // columns of a name; 0 for all
	escape func(string) string // after it is printable; nil for none
	cut    bool
}

// name writes a name, shortened where it must be.
func (n *weekPen) name(s string) string {
	s = printable(s)
	if n.most > 0 {
		short, cut := shortName(s, n.most)
		s, n.cut = short, n.cut || cut
	}
	return n.escaped(s)
}

// text writes a sentence, whole.
func (n *weekPen) text(s string) string { return n.escaped(printable(s)) }

func (n *weekPen) escaped(s string) string {
	if n.escape == nil {
		return s
	}
	return n.escape(s)
}

// cells writes one row of the table of work.
func (n *weekPen) cells(r *weekRow, day resources.Date) []string {
	c := make([]string, weekColumns)
	c[colWhen] = clockText(r.at, n.zone)
	c[colWho] = n.name(r.who)
	c[colWhat] = strings.TrimSpace(n.name(r.what) + " " + n.name(r.cheese))
	c[colBatch] = n.name(r.batch)
	c[colMuch] = amountText(r)
	if r.minutes > 0 {
		c[colTakes] = lengthText(r.minutes)
	}
	c[colWhere] = n.where(r)
	switch r.kind {
	case rowWork:
		c[colBy] = n.startBy(r, day)
	case rowLeaves:
		c[colWhat] = n.name(r.what) + " leaves"
	case rowShare:
		c[colWhat] = n.name(r.cheese)
	case rowMissing:
		c[colWhat] = "MISSING: " + n.name(r.cheese)
	case rowAnytime:
		c[colWhen] = "today"
	}
	if r.kind == rowShare || r.kind == rowMissing || r.kind == rowCare {
		c[colWhen], c[colWho], c[colWhat] = "", "", "- "+c[colWhat]
	}
	return c
}

// sharp marks a critical piece of work, and SharpNote says once what that is.
const (
	sharp     = "sharp"
	SharpNote = "sharp: it may begin no later, or a target breaks, however short the waits after it are made."
)

// startBy is the latest start, as told from the row's day.
func (n *weekPen) startBy(r *weekRow, day resources.Date) string {
	switch {
	case r.begun:
		return "begun"
	case r.latest == 0:
		return "not known"
	case r.critical:
		return clockText(r.at, n.zone) + " " + sharp
	case r.latest <= r.at:
		return clockText(r.at, n.zone)
	}
	return latestText(r.latest, day, n.zone)
}

// amountText is how much of a batch a row is about.
func amountText(r *weekRow) string {
	var parts []string
	if r.litres > 0 {
		parts = append(parts, litresText(r.litres))
	}
	if r.pieces > 0 {
		parts = append(parts, countText(r.pieces, "piece", "pieces"))
	}
	s := strings.Join(parts, ", ")
	if r.promised > 0 {
		s += fmt.Sprintf(" (%d%spromised)", r.promised, glue)
	}
	return s
}

// where is the place, where boxes go, and the kit to take.
func (n *weekPen) where(r *weekRow) string {
	s := n.name(r.place)
	if r.boxesTo != "" && r.boxesTo != r.place {
		s += ", then " + n.name(r.boxesTo)
	}
	if len(r.shelves) > 0 {
		names := make([]string, len(r.shelves))
		for i, shelf := range r.shelves {
			names[i] = n.name(shelf)
		}
		s += ": " + strings.Join(names, ", ")
	}
	if kit := n.kit(r.kit); kit != "" {
		s += "; " + kit
	}
	return s
}

func (n *weekPen) kit(uses []schedule.Occupied) string {
	names := make([]string, len(uses))
	for i, u := range uses {
		names[i] = n.name(u.Thing)
		if u.Count != 1 {
			names[i] = fmt.Sprintf("%d%sx%s%s", u.Count, glue, glue, names[i])
		}
	}
	return strings.Join(names, ", ")
}

// fillHeads are the columns of the table of cold places.
func (n *weekPen) fillHeads(fills []coldroom.Fill) []string {
	heads := []string{"Day"}
	for i := range fills {
		place := fills[i].Place
		heads = append(heads, n.name(place.Name)+" ("+degreesText(place.Temperature)+")")
	}
	return heads
}

// fillRows are what each place holds at its fullest moment of each day, and when
// the fullest moment of the week is.
func (n *weekPen) fillRows(s *weekSheet) [][]string {
	var rows [][]string
	for _, d := range s.days {
		row := []string{dayName(d.date)}
		for i := range s.fills {
			f := &s.fills[i]
			row = append(row, fillText(f, f.Tightest(d.span)))
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
		row = append(row, stampText(most.From, n.zone))
	}
	return append(rows, row)
}

// fillText is what a place holds, against what it can.
func fillText(f *coldroom.Fill, s coldroom.FillStep) string {
	var text string
	switch {
	case s.Boxes == 0 && s.Open == 0:
		return "closed"
	case s.Boxes == 0:
		return "empty"
	case f.Place.Measured():
		text = countText(s.Boxes, "box", "boxes")
		if s.Open > 0 {
			text += fmt.Sprintf(", %d%s%% of floor", f.Percent(s), glue)
		}
	default:
		text = fmt.Sprintf("%d of%s%d%sboxes", s.Boxes, glue, s.Open, glue)
	}
	if f.Over(s) {
		text += ", TOO FULL"
	}
	return text
}
