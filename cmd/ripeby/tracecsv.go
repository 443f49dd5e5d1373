package main

import (
	"cmp"
	"maps"
	"strconv"

	"ripeby/calendar/spreadsheet"
	"ripeby/calendar/words"
	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/measured"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// traceColumns are those of the answer as a table. Columns are only ever added, at the end.
var traceColumns = []string{"asked", "row", "lot", "id", "cheese", "what", "planned", "from", "until", "pieces", "who", "where", "known", "struck_by", "file", "line", "grams"}

// traceRow is one row: what it is, of which batch, and its other cells by their column.
type traceRow struct {
	row   string
	of    trace.Neighbour
	cells map[string]string
}

// csv prints answers for a spreadsheet, a row for each thing that is known.
func (t *traced) csv(answers []*trace.Answer) error {
	var records []map[string]string
	for _, a := range answers {
		for _, r := range t.rows(a) {
			records = append(records, r.record(a.Asked))
		}
	}
	return spreadsheet.Records(t.p.out, traceColumns, records)
}

// record is a row with all its cells by their column.
func (r *traceRow) record(asked string) map[string]string {
	all := map[string]string{"asked": asked, "row": r.row, "lot": r.of.Lot, "id": r.of.ID, "cheese": r.of.Cheese}
	maps.Copy(all, r.cells)
	return all
}

// rows are those of one answer.
func (t *traced) rows(a *trace.Answer) (rows []traceRow) {
	for _, b := range a.Batches {
		rows = append(rows, t.batchRows(b)...)
	}
	for _, c := range a.Collections {
		rows = append(rows, t.milkRows(trace.Neighbour{}, c)...)
		for _, n := range c.Batches {
			rows = append(rows, t.shortRow("made of it", n))
		}
	}
	for _, k := range a.Packets {
		rows = append(rows, t.packetRows(k)...)
	}
	for _, n := range a.Made {
		rows = append(rows, t.shortRow("made", n))
	}
	for i := range a.Passed {
		rows = append(rows, t.leftRows(a.Passed[i].Batch, &a.Passed[i].Leaving)...)
	}
	for i := range a.Balances {
		rows = append(rows, t.balanceRows(a.Balances[i].Batch, &a.Balances[i].Balance)...)
	}
	for _, e := range a.Loose {
		rows = append(rows, t.entryRow(trace.Neighbour{}, "left of no batch that is known", e))
	}
	return append(rows, t.entryRows(trace.Neighbour{}, a.Entries)...)
}

func (t *traced) batchRows(b *trace.Batch) []traceRow {
	first := t.shortRow("batch", b.Neighbour)
	if b.Litres > 0 {
		first.cells["what"] = litres(b.Litres)
	}
	rows := []traceRow{first}
	if b.Milk != nil {
		rows = append(rows, t.milkRows(b.Neighbour, b.Milk)...)
	}
	for _, k := range b.Packets {
		rows = append(rows, traceRow{"packet", b.Neighbour, map[string]string{"what": k.What + ": " + k.Lot, "known": string(k.Known)}})
	}
	for i := range b.Stages {
		s := &b.Stages[i]
		rows = append(rows, traceRow{"stage", b.Neighbour, map[string]string{"what": s.Name, "planned": t.at(s.Planned), "from": t.at(s.Start), "until": t.at(s.Done),
			"who": s.Who, "where": s.At, "known": string(s.Known)}})
	}
	for i := range b.Measured {
		r := &b.Measured[i]
		for k := range r.Said {
			s := &r.Said[k]
			text := words.Join(": ", r.Stage, cmp.Or(measured.Outside(&r.Measure, s.Is), r.What+" "+s.Is))
			rows = append(rows, traceRow{"measured", b.Neighbour, map[string]string{"what": text, "from": t.at(s.At), "who": s.Who, "known": string(trace.Said)}})
		}
	}
	if b.Kept != nil {
		for _, c := range b.Kept.Carries {
			rows = append(rows, traceRow{"carry", b.Neighbour, map[string]string{"what": c.Stage, "planned": t.at(c.Start), "who": c.Who,
				"where": c.From + ", then " + c.To, "known": string(trace.Planned)}})
		}
	}
	for i := range b.Leavings {
		rows = append(rows, t.leftRows(b.Neighbour, &b.Leavings[i])...)
	}
	rows = append(rows, t.balanceRows(b.Neighbour, &b.Balance)...)
	for _, n := range b.Before {
		rows = append(rows, t.shortRow("made before", n))
	}
	for _, n := range b.After {
		rows = append(rows, t.shortRow("made after", n))
	}
	return append(rows, t.entryRows(b.Neighbour, b.Entries)...)
}

// balanceRows are what became of the pieces: of which it is not known how many were made, only what
// was said. What weighs is in grams, where somebody weighed.
func (t *traced) balanceRows(of trace.Neighbour, x *trace.Balance) (rows []traceRow) {
	var w trace.Weights
	if x.Weights != nil {
		w = *x.Weights
	}
	for _, part := range []struct {
		name   string
		pieces int
		weighs resources.Milligrams
		said   bool // known without how many were made
	}{{"pieces made", x.Made, w.Made, false}, {"pieces gone", x.Gone, w.Gone, true}, {"pieces that left", x.Took, w.Took, true}, {"pieces that came back", x.Back, w.Back, true},
		{"pieces still here", x.Left, w.Left, false}, {"pieces not accounted for", x.Gap, w.Gap, false}} {
		if !x.Known && !part.said {
			continue
		}
		cells := map[string]string{"pieces": strconv.Itoa(part.pieces)}
		if x.Weights != nil {
			cells["grams"] = strconv.Itoa(int(part.weighs / gram))
		}
		if part.name == "pieces still here" && x.Where != nil {
			cells["where"], cells["from"], cells["known"] = words.Join(", ", x.Where.Name, x.Where.Shelf), t.at(x.Where.Since), string(x.Where.Known)
		}
		rows = append(rows, traceRow{part.name, of, cells})
	}
	return rows
}

// gram is in milligrams.
const gram = 1000

// packetRows are a packet that was opened, and what it went into.
func (t *traced) packetRows(k *trace.PacketOpened) []traceRow {
	cells := map[string]string{"what": k.What + ": " + k.Lot}
	if k.Opened != nil {
		cells["from"], cells["who"], cells["known"] = t.at(k.Opened.At), k.Opened.Who, string(trace.Said)
	}
	rows := []traceRow{{"packet", trace.Neighbour{}, cells}}
	for _, u := range k.Batches {
		row := t.shortRow("had of the packet", u.Batch)
		row.cells["what"], row.cells["known"] = k.What+": "+k.Lot, string(u.Known)
		rows = append(rows, row)
	}
	for _, n := range k.Beside {
		row := t.shortRow("made while it was open", n)
		row.cells["what"] = k.What + ": " + k.Lot
		rows = append(rows, row)
	}
	return rows
}

// shortRow is a batch in short.
func (t *traced) shortRow(row string, n trace.Neighbour) traceRow {
	return traceRow{row, n, map[string]string{"from": t.at(n.Made), "known": string(n.Known)}}
}

// milkRows are a collection: a row for each lot of the supplier's, one without where none was said.
func (t *traced) milkRows(of trace.Neighbour, c *trace.Collection) (rows []traceRow) {
	lots := c.Lots
	if len(lots) == 0 {
		lots = []string{""}
	}
	for _, lot := range lots {
		what := c.Supply
		if lot != "" {
			what += ": " + lot
		}
		rows = append(rows, traceRow{"milk", of, map[string]string{"what": what, "from": c.Day.String(), "known": string(c.Known)}})
	}
	if of == (trace.Neighbour{}) { // those of a batch's milk stand among its own
		rows = append(rows, t.entryRows(of, c.Entries)...)
	}
	return rows
}

// leftRows are what left, and what of it came back.
func (t *traced) leftRows(of trace.Neighbour, l *trace.Leaving) []traceRow {
	cells := map[string]string{"what": l.Target, "planned": strconv.Itoa(l.Planned), "from": t.at(l.By), "where": l.To, "known": string(l.Known)}
	if l.Known != trace.Planned {
		cells["pieces"] = strconv.Itoa(l.Pieces)
	}
	rows := []traceRow{{"left", of, cells}}
	if l.Back > 0 {
		rows = append(rows, traceRow{"came back", of, map[string]string{"what": l.Target, "from": t.at(l.BackBy.At), "pieces": strconv.Itoa(l.Back), "known": string(trace.Said)}})
	}
	return rows
}

func (t *traced) entryRows(of trace.Neighbour, all record.Entries) (rows []traceRow) {
	for _, e := range all {
		rows = append(rows, t.entryRow(of, "entry", e))
	}
	return rows
}

func (t *traced) entryRow(of trace.Neighbour, row string, e *record.Entry) traceRow {
	cells := map[string]string{"what": recordfile.Said(*e, t.zone), "from": t.at(e.At), "who": e.Who, "file": e.File, "line": strconv.Itoa(e.Line)}
	if by := t.known.StruckBy(e); by != nil {
		cells["struck_by"] = entryName(by)
	}
	return traceRow{row, of, cells}
}
