package recordfile

import (
	"fmt"
	"slices"
	"strings"

	"ripeby/config/fault"
	"ripeby/config/keys"
	"ripeby/resources"
	"ripeby/schedule/record"
)

// entry makes an entry of a line that was taken apart. After a fault it is not complete.
func (r *reader) entry(n node) record.Entry {
	e := record.Entry{File: r.file, Line: r.number}
	about := r.about(n)
	known := &keys.Mapping{Keys: common}
	if about != nil {
		known = about.table()
	}
	f := r.fields(n, "", known)
	r.head(&f, &e)
	if about != nil {
		r.subject(&f, about, &e)
		r.facts(&f, about, &e)
	}
	if len(r.faults) == 0 {
		r.complete(&f, about, &e)
	}
	return e
}

// about finds what an entry is about; nil for nothing, or after a fault.
func (r *reader) about(n node) *subject {
	has := func(key string) bool { return slices.ContainsFunc(n.pairs, func(p pair) bool { return p.key == key }) }
	var found []subject
	for _, s := range subjects {
		if has(s.key()) && !(s.kind == record.OfCheese && has("target")) {
			found = append(found, s)
		}
	}
	switch {
	case len(found) > 1:
		r.fault(n.at, fault.Fault{What: fmt.Sprintf("one entry is about one thing, and this is about %s and %s", found[0].what, found[1].what),
			Want: "an entry for each"})
	case len(found) == 0 && has("shelf"):
		r.fault(n.at, fault.Fault{What: "a shelf is named with its place", Want: "place: kitchen fridge, shelf: top"})
	case len(found) == 1:
		return &found[0]
	}
	return nil
}

// head reads what any entry may have.
func (r *reader) head(f *fields, e *record.Entry) {
	number := fault.Whole(1, MaxNumber)
	e.Nr, _ = read(f, "nr", number)
	if f.need("at") {
		e.At, _ = read(f, "at", r.moment)
	}
	if m, ok := read(f, "written", r.moment); ok {
		e.Written = record.Say(m)
	}
	e.Who, _ = read(f, "who", fault.Name)
	e.Note, _ = read(f, "note", text(record.MaxNote))
	e.Once, _ = read(f, "once", text(MaxText))
	switch n := f.got["strikes"]; {
	case n.kind == list && len(n.items) > MaxList:
		f.fault("strikes", fault.Fault{What: fmt.Sprintf("more than the limit of %d numbers", MaxList)})
	case n.kind == list:
		for _, item := range n.items {
			if nr, ok := readNode(f, "strikes", item, number); ok {
				e.Strikes = append(e.Strikes, nr)
			}
		}
	default:
		if nr, ok := read(f, "strikes", number); ok {
			e.Strikes = []int{nr}
		}
	}
}

// subject reads what the entry is about.
func (r *reader) subject(f *fields, about *subject, e *record.Entry) {
	s := &e.Subject
	s.Kind = about.kind
	if about.kind == record.OfRound {
		s.Day, _ = read(f, "round", resources.ParseDate)
		return
	}
	s.Name, _ = read(f, about.key(), fault.Name)
	s.Shelf, _ = read(f, "shelf", fault.Name)
	switch about.kind {
	case record.OfMilk:
		if f.need("day") {
			s.Day, _ = read(f, "day", resources.ParseDate)
		}
	case record.OfTarget:
		if f.need("cheese") {
			s.Cheese, _ = read(f, "cheese", fault.Name)
		}
		if day, ok := read(f, "date", resources.ParseDate); ok && !strings.HasSuffix(s.Name, " "+day.String()) {
			s.Name += " " + day.String()
		}
	}
}

// complete sees that something is said, and nothing that takes the rest back.
func (r *reader) complete(f *fields, about *subject, e *record.Entry) {
	if about == nil {
		if e.Note == "" && len(e.Strikes) == 0 {
			r.fault(f.at, fault.Fault{What: "this entry says nothing of anything", Want: "batch: AB-270312-1, did: drain, or a note"})
		}
		return
	}
	facts := (&keys.Mapping{Keys: about.facts}).Names()
	if !slices.ContainsFunc(facts, f.has) && e.Note == "" {
		r.fault(f.at, fault.Fault{What: fmt.Sprintf("nothing is said of %s", about.what), Want: "one or more of " + strings.Join(facts, ", ") + ", note"})
	}
	for _, two := range [][2]string{{"closed", "open"}, {"away", "here"}} {
		if f.has(two[0]) && f.has(two[1]) {
			f.fault(two[1], fault.Fault{What: "this takes back " + two[0] + " in the same entry", Want: "an entry for each, each with its moment"})
		}
	}
	for _, two := range [][2]string{{"look", "not_yet"}, {"of", "took"}, {"resell", "back"}} {
		if f.has(two[0]) && !f.has(two[1]) {
			f.fault(two[0], fault.Fault{What: "this is said together with " + two[1], Want: two[1] + ": " + exampleOf(two[1])})
		}
	}
}
