package recordfile

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// Line writes an entry as one line without its end. Read gives the same entry back; so does
// any reader of YAML, since every text stands in quotation marks: unquoted, 11:20 is 680 to
// some, no is false, and 0012 is ten. What is not UTF-8 in a text is mended first.
func Line(e record.Entry, zone *time.Location) string {
	w := &lineWriter{zone: zone}
	w.entry(&e)
	return "- {" + strings.Join(w.pairs, ", ") + "}"
}

// entry writes all of an entry.
func (w *lineWriter) entry(e *record.Entry) {
	w.number("nr", e.Nr)
	w.moment("at", e.At)
	if e.Written.Given {
		w.moment("written", e.Written.Value)
	}
	w.text("who", e.Who)
	w.said(e)
	w.text("once", e.Once)
}

// said writes what the entry says of what.
func (w *lineWriter) said(e *record.Entry) {
	w.subject(e.Subject)
	w.batch(&e.Batch)
	w.milk(&e.Milk)
	w.target(&e.Target)
	w.place(e.At, &e.Place)
	w.person(e.At, &e.Person)
	w.truth("did", e.Round.Did)
	w.truth("skipped", e.Round.Skipped)
	w.packet(&e.Packet)
	w.text("note", e.Note)
	if n := len(e.Strikes); n == 1 {
		w.number("strikes", e.Strikes[0])
	} else if n > 1 {
		var numbers []string
		for _, nr := range e.Strikes {
			numbers = append(numbers, strconv.Itoa(nr))
		}
		w.add("strikes", "["+strings.Join(numbers, ", ")+"]")
	}
}

// lineWriter gathers pairs of a key and its value.
type lineWriter struct {
	zone  *time.Location
	bare  bool // for people: no quotation marks
	pairs []string
	row   map[string]string // nil, or where values go by their keys
}

// quote puts a text in double quotation marks. What it writes as \x7f, \u0085 or \a, YAML
// reads so.
func (w *lineWriter) quote(text string) string {
	if w.bare {
		return text
	}
	return strconv.Quote(mend(text))
}

// mend puts a sign that says so in place of what is not UTF-8.
func mend(text string) string { return strings.ToValidUTF8(text, "\ufffd") }

func (w *lineWriter) add(key, value string) {
	if w.row != nil {
		w.row[key] = value
		return
	}
	w.pairs = append(w.pairs, key+": "+value)
}

func (w *lineWriter) text(key, text string) {
	if text != "" {
		w.add(key, w.quote(text))
	}
}

func (w *lineWriter) number(key string, n int) {
	if n != 0 {
		w.add(key, strconv.Itoa(n))
	}
}

func (w *lineWriter) truth(key string, said bool) {
	if said {
		w.add(key, "true")
	}
}

// written adds a value that was given, in quotation marks.
func written[T any](w *lineWriter, key string, v record.Said[T], format func(T) string) {
	if v.Given {
		w.add(key, w.quote(format(v.Value)))
	}
}

// count adds a count that was given.
func (w *lineWriter) count(key string, v record.Said[int]) {
	if v.Given {
		w.add(key, strconv.Itoa(v.Value))
	}
}

// momentText writes a local time; in an hour that a clock change repeats, or in old times
// of odd offsets, with the offset.
func (w *lineWriter) momentText(m resources.Moment) string {
	local := resources.FormatMoment(m, w.zone)
	if read, err := resources.ParseMoment(local, w.zone); err == nil && read == m {
		return local
	}
	return m.In(w.zone).Format(time.RFC3339)
}

func (w *lineWriter) moment(key string, m resources.Moment) { w.add(key, w.quote(w.momentText(m))) }

func (w *lineWriter) subject(s record.Subject) {
	for _, one := range subjects {
		if one.kind != s.Kind {
			continue
		}
		if s.Kind == record.OfRound {
			w.add("round", w.quote(s.Day.String()))
			return
		}
		w.add(one.key(), w.quote(s.Name))
		if s.Kind == record.OfMilk {
			w.add("day", w.quote(s.Day.String()))
		}
		w.text("cheese", s.Cheese)
		w.text("shelf", s.Shelf)
	}
}

func (w *lineWriter) batch(b *record.BatchFacts) {
	w.text("began", b.Began)
	w.text("did", b.Did)
	w.text("not_yet", b.NotYet)
	written(w, "look", b.Look, resources.FormatMinutes)
	written(w, "litres", b.Litres, resources.FormatVolume)
	w.text("pot", b.Pot)
	if b.Drew.Given {
		w.add("drew", fmt.Sprintf("{supply: %s, day: %s}", w.quote(b.Drew.Value.Supply), w.quote(b.Drew.Value.Day.String())))
	}
	if s := b.Stands; s.Given {
		in := &lineWriter{bare: w.bare}
		in.text("place", s.Value.Place)
		in.text("shelf", s.Value.Shelf)
		w.braces("stands", in)
	}
	w.count("pieces", b.Pieces)
	w.count("gone", b.Gone)
	w.text("why", b.Why)
	written(w, "weight", b.Weight, resources.FormatMass)
	w.truth("lost", b.Lost)
	w.measured(b.Measured)
	var lots []string
	for _, l := range b.Lots {
		lots = append(lots, fmt.Sprintf("{what: %s, lot: %s}", w.quote(l.What), w.quote(l.Lot)))
	}
	if lots != nil {
		w.add("lots", "["+strings.Join(lots, ", ")+"]")
	}
}

func (w *lineWriter) braces(key string, in *lineWriter) {
	w.add(key, "{"+strings.Join(in.pairs, ", ")+"}")
}

func (w *lineWriter) measured(all []record.Measure) {
	var parts []string
	for _, m := range all {
		parts = append(parts, fmt.Sprintf("{what: %s, is: %s}", w.quote(m.What), w.quote(m.Is)))
	}
	if parts != nil {
		w.add("measured", "["+strings.Join(parts, ", ")+"]")
	}
}

func (w *lineWriter) milk(m *record.MilkFacts) {
	written(w, "ordered", m.Ordered, resources.FormatVolume)
	written(w, "came", m.Came, resources.FormatVolume)
	w.text("lot", m.Lot)
	w.measured(m.Measured)
}

func (w *lineWriter) target(t *record.TargetFacts) {
	w.count("took", t.Took)
	if len(t.Of) > 0 {
		in := &lineWriter{bare: w.bare}
		for _, l := range t.Of {
			in.add(w.quote(l.Lot), strconv.Itoa(l.Pieces))
		}
		w.braces("of", in)
	}
	w.count("back", t.Back)
	w.truth("resell", t.Resell)
	written(w, "sold_out", t.SoldOut, resources.FormatClock)
	w.text("to", t.To)
}

func (w *lineWriter) place(at resources.Moment, p *record.PlaceFacts) {
	w.measured(p.Measured)
	w.stretch("closed", at, p.Closed)
	w.truth("open", p.Open)
}

func (w *lineWriter) person(at resources.Moment, p *record.PersonFacts) {
	w.stretch("away", at, p.Away)
	w.truth("here", p.Here)
	if t := p.Takes; t.Given {
		w.add("takes", fmt.Sprintf("{batch: %s, stage: %s}", w.quote(t.Value.Batch), w.quote(t.Value.Stage)))
	}
}

// stretch writes a time that begins with the entry, or says when it begins.
func (w *lineWriter) stretch(key string, at resources.Moment, s record.Said[record.Stretch]) {
	if !s.Given {
		return
	}
	if !s.Value.Until.Given {
		w.truth(key, true)
		return
	}
	in := &lineWriter{zone: w.zone, bare: w.bare}
	if s.Value.From != at {
		in.moment("from", s.Value.From)
	}
	in.moment("until", s.Value.Until.Value)
	w.braces(key, in)
}

func (w *lineWriter) packet(p *record.PacketFacts) {
	w.text("lot", p.Lot)
	written(w, "use_by", p.UseBy, resources.Date.String)
	w.text("strength", p.Strength)
	w.text("holds", p.Holds)
}
