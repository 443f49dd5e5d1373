package sheet

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// facts are what holds of the batch as a whole.
func (m *maker) facts() {
	add := func(label string, items ...Item) {
		if len(items) > 0 {
			m.shown.Facts = append(m.shown.Facts, Fact{label, items})
		}
	}
	add("Make", m.made()...)
	add("Milk", m.milk()...)
	add("Packets", m.otherPackets()...)
	add("Pieces", append(m.pieces(), m.weights()...)...)
	add("Use by", m.useBy()...)
}

// year writes a moment's day with its year.
func (m *maker) year(at resources.Moment) string {
	return words.Midnight(at.DateIn(m.Zone)).Format("Mon 2 Jan 2006")
}

// made is the day of the make.
func (m *maker) made() []Item {
	if len(m.stages) == 0 {
		return nil
	}
	switch s := &m.stages[0]; {
	case s.known == trace.Said:
		return []Item{plain(other, m.year(s.began))}
	case s.known == trace.Assumed:
		return []Item{plain(other, m.year(s.began)+assumed)}
	case m.shown.lost:
		return nil
	case s.planned != 0:
		return []Item{plain(other, "planned for "+m.year(s.planned))}
	}
	return nil
}

// begun reports whether the make has begun, for all that is known.
func (m *maker) begun() bool { return len(m.stages) > 0 && m.stages[0].began != 0 }

// trust marks what nobody said of a batch that has begun.
func (m *maker) trust(said bool) string {
	switch {
	case said:
		return ""
	case m.begun():
		return assumed
	}
	return " (as planned)"
}

// milk is how much milk of which supply, day and lot.
func (m *maker) milk() (items []Item) {
	litres := resources.Millilitres(0)
	if m.Planned != nil {
		litres = m.Planned.Litres
	}
	if m.Told != nil && m.Told.Litres > 0 {
		litres = m.Told.Litres
	}
	said := m.byHand() || len(m.of.With(func(e *record.Entry) bool { return e.Batch.Litres.Given })) > 0
	if litres > 0 {
		items = append(items, plain(other, words.Litres(litres)+m.trust(said)))
	}
	if !said && !m.shown.lost {
		items = append(items, toWrite("litres really used"))
	}
	switch {
	case m.Told != nil && m.Told.Milk != nil:
		return append(items, m.collection(m.Told.Milk)...)
	case m.Milk != nil:
		return append(items, m.collection(m.Milk)...)
	case m.Planned != nil && m.Planned.Milk != nil:
		d := m.Planned.Milk
		items = append(items, plain(other, m.pen.Name(d.Supply)+", collected "+words.Stamp(d.Collect, m.Zone)+m.trust(false)), toWrite("supplier's lot or delivery note"))
	case m.Told != nil && m.Told.Kept != nil && m.Told.Kept.Recipe != nil && m.Told.Kept.Recipe.Milk != "":
		items = append(items, plain(other, "of which day it was is not known"))
	}
	return items
}

// byHand reports whether begun.yaml tells of the batch, and so how much milk it is of.
func (m *maker) byHand() bool {
	return m.Problem != nil && m.Planned != nil && slices.ContainsFunc(m.Problem.Begun, func(b schedule.Begun) bool { return b.ID == m.Planned.ID })
}

// collection is the milk of one supply and day that the batch drew on, with what was said of it.
func (m *maker) collection(c *trace.Collection) (items []Item) {
	items = append(items, plain(other, m.pen.Name(c.Supply)+", collected "+words.Day(c.Day)+m.trust(c.Known == trace.Said)))
	if len(c.Lots) == 0 {
		items = append(items, toWrite("supplier's lot or delivery note"))
	} else {
		items = append(items, plain(other, "supplier's lot: "+m.pen.Text(strings.Join(c.Lots, ", "))))
	}
	for _, e := range c.Entries {
		if m.Struck(e) {
			continue
		}
		if text := m.measured(e.Milk.Measured); text != "" {
			items = append(items, plain(heard, "measured: "+text+" ("+m.said(e)+")"))
		}
	}
	return items
}

// pieces are how many were made, counted and gone.
func (m *maker) pieces() (items []Item) {
	made, spare, known := 0, 0, false
	if b := m.Planned; b != nil {
		made, spare, known = max(b.Made, b.Pieces+b.Gone), b.Spare, true
	}
	if t := m.Told; t != nil && t.Balance.Known {
		made, known = t.Balance.Made, true
		if t.Kept != nil {
			spare = t.Kept.Spare
		}
	}
	if known && made > 0 {
		text := "makes " + words.Count(made, "piece", "pieces")
		if spare > 0 {
			text += fmt.Sprintf(", %d%sof them to spare", spare, words.Glue)
		}
		items = append(items, plain(other, text+m.trust(m.counted())))
	}
	for _, e := range m.of {
		if e.Batch.Pieces.Given {
			items = append(items, plain(heard, fmt.Sprintf("%d%scounted, %s", e.Batch.Pieces.Value, words.Glue, m.said(e))))
		}
		if e.Batch.Gone.Given {
			text := fmt.Sprintf("%d%sgone, %s", e.Batch.Gone.Value, words.Glue, m.said(e))
			if e.Batch.Why != "" {
				text += ": " + m.pen.Text(e.Batch.Why)
			}
			items = append(items, plain(heard, text))
		}
	}
	if m.shown.lost {
		return items
	}
	return append(items, toWrite("counted"), toWrite("gone, and why"))
}

// counted reports whether somebody counted.
func (m *maker) counted() bool {
	return len(m.of.With(func(e *record.Entry) bool { return e.Batch.Pieces.Given })) > 0
}

// weights are what all of it weighed, and when.
func (m *maker) weights() (items []Item) {
	for _, e := range m.of {
		if e.Batch.Weight.Given {
			items = append(items, plain(heard, strings.ReplaceAll(resources.FormatMass(e.Batch.Weight.Value), " ", words.Glue)+" all together, "+m.said(e)))
		}
	}
	if m.shown.lost {
		return items
	}
	return append(items, Item{Parts: []string{"weight all together ", " on ", ""}})
}

// useBy is the date mark: the maker's own estimate, from the packing on.
func (m *maker) useBy() []Item {
	if m.shown.lost || len(m.stages) == 0 {
		return nil
	}
	keeps, last := m.keeps(), &m.stages[len(m.stages)-1]
	packed := last.known == trace.Said || last.known == trace.Assumed
	at := last.done
	if !packed && last.planned != 0 {
		at = last.planned.Add(last.work)
	}
	own := ": the maker's own estimate, packing and the " + words.Length(keeps) + " of the recipe; not a tested shelf life"
	switch {
	case keeps > 0 && at != 0 && packed:
		return []Item{plain(other, m.year(at.Add(keeps))+own)}
	case keeps > 0 && at != 0:
		return []Item{plain(other, m.year(at.Add(keeps))+" if it is packed as planned"+own), toWrite("on the label")}
	case m.Told != nil && m.Told.Kept != nil && m.Told.Kept.UseBy != (resources.Date{}):
		return []Item{plain(other, words.Midnight(m.Told.Kept.UseBy).Format("Mon 2 Jan 2006")+": the maker's own estimate, not a tested shelf life")}
	}
	return []Item{{Parts: []string{"", " (the maker's own estimate)"}}}
}

// keeps is for how long it keeps by the recipe, as that was where it was kept; 0 where nobody knows.
func (m *maker) keeps() resources.Minutes {
	if m.Told != nil && m.Told.Kept != nil && m.Told.Kept.Recipe != nil {
		return m.Told.Kept.Recipe.Keeps
	}
	if m.Problem == nil || m.Planned == nil {
		return 0
	}
	if r := m.Problem.Recipe(m.Planned.Cheese); r != nil {
		return r.Keeps
	}
	return 0
}
