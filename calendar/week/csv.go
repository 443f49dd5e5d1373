package week

import (
	"io"
	"strconv"
	"strings"
	"time"

	"ripeby/calendar/spreadsheet"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule/coldroom"
)

// csvHeads are the columns of the CSV week table. Columns are only ever
// added, at the end. Moments are RFC 3339 with the kitchen's offset, days
// YYYY-MM-DD, lengths minutes, volumes litres.
var csvHeads = []string{"kind", "week", "day", "at", "who", "what", "cheese", "batch", "litres", "pieces",
	"promised", "minutes", "place", "boxes_to", "shelves", "kit", "start_by", "slip_minutes", "boxes", "boxes_most",
	"floor_percent", "text", "start_from", "critical", "needs", "measures"}

// writeCSV writes one record a row, whatever its kind: work, look, round, care, order,
// collect, leaves, share, missing, clock, fill, warning, caution. A week
// without any work has a record of kind "none".
func writeCSV(w io.Writer, s *oneWeek) error {
	return spreadsheet.Records(w, csvHeads, recordsOf(s))
}

// csvRecord holds a record's cells by their column; a missing one is empty.
type csvRecord = map[string]string

// recordsOf are all records in the order of the page.
func recordsOf(s *oneWeek) []csvRecord {
	var all []csvRecord
	add := func(kind string, day resources.Date, rec csvRecord) {
		rec["kind"], rec["week"], rec["day"] = kind, isoWeek(s.first), day.String()
		all = append(all, rec)
	}
	if s.empty() {
		lines := s.nothing(&cellPen{words.Pen{Zone: s.zone}})
		add("none", s.first, csvRecord{"text": words.Unglue(strings.Join(lines, " "))})
	}
	for _, d := range s.days {
		for _, c := range d.changes {
			add("clock", d.date, csvRecord{"at": csvMoment(c.at, s.zone), "text": words.Unglue(c.text())})
		}
		for i := range d.rows {
			add(csvKinds[d.rows[i].kind], d.date, csvRow(&d.rows[i], s.zone))
		}
	}
	for i := range s.fills {
		for _, d := range s.days {
			add("fill", d.date, csvFill(&s.fills[i], s.fills[i].Tightest(d.span), s.zone))
		}
	}
	for _, n := range s.notes.warnings {
		add("warning", n.At.DateIn(s.zone), csvRecord{"at": csvMoment(n.At, s.zone), "what": n.Code, "text": n.Text})
	}
	for _, n := range s.notes.cautions {
		for _, cheese := range n.cheeses {
			add("caution", s.first, csvRecord{"what": n.code, "cheese": cheese, "text": stageText(n.stage, n.text)})
		}
	}
	return all
}

// stageText names the stage that a caution is about.
func stageText(stage, text string) string {
	if stage == "" {
		return text
	}
	return stage + ": " + text
}

// csvRow writes one row of the table of work.
func csvRow(r *row, zone *time.Location) csvRecord {
	rec := csvRecord{"at": csvMoment(r.at, zone), "who": r.who, "what": r.what, "cheese": r.cheese,
		"batch": r.batch, "place": r.place, "boxes_to": r.boxesTo, "shelves": strings.Join(r.shelves, " / ")}
	if r.kind == rowAnytime {
		rec["at"] = ""
	}
	if r.litres > 0 {
		rec["litres"] = resources.FormatLitres(r.litres)
	}
	for head, n := range map[string]int64{"pieces": int64(r.pieces), "promised": int64(r.promised), "minutes": int64(r.minutes)} {
		if n > 0 {
			rec[head] = strconv.FormatInt(n, 10)
		}
	}
	rec["kit"] = words.Unglue((&cellPen{}).kit(r.kit))
	rec["needs"] = words.Unglue((&cellPen{}).doses(r.needs))
	rec["measures"] = (&cellPen{}).measures(r.measures)
	rec["text"] = r.because
	if r.begun {
		rec["text"] = "begun"
	}
	if r.milk != nil {
		csvMilk(rec, r, zone)
	}
	if r.critical {
		rec["critical"] = "yes"
	}
	if r.latest != 0 {
		rec["start_by"] = csvMoment(r.latest, zone)
		rec["start_from"] = csvMoment(r.earliest, zone)
		rec["slip_minutes"] = strconv.FormatInt(int64(max(r.latest.Sub(r.at), 0)), 10)
	}
	return rec
}

// csvMilk adds which batches draw, and of an order for which collection it is.
func csvMilk(rec csvRecord, r *row, zone *time.Location) {
	var batches []string
	for _, d := range r.milk.Draws {
		batches = append(batches, d.Batch)
	}
	rec["batch"] = strings.Join(batches, " ")
	if r.kind == rowOrder {
		rec["text"] = "to collect " + csvMoment(r.milk.Collect, zone)
		rec["start_by"] = csvMoment(r.at, zone)
	}
	if r.milk.Assumed {
		rec["text"] = words.TakenAsOrdered
	}
}

// csvFill writes what a place holds at the fullest moment of a day.
func csvFill(f *coldroom.Fill, most coldroom.FillStep, zone *time.Location) csvRecord {
	rec := csvRecord{"at": csvMoment(most.From, zone), "place": f.Place.Name, "boxes": strconv.Itoa(most.Boxes)}
	if f.Place.Measured() {
		rec["floor_percent"] = strconv.Itoa(f.Percent(most))
	} else {
		rec["boxes_most"] = strconv.FormatInt(most.Open, 10)
	}
	if f.Over(most) {
		rec["text"] = "too full"
	}
	return rec
}

func csvMoment(m resources.Moment, zone *time.Location) string {
	return m.In(zone).Format(time.RFC3339)
}
