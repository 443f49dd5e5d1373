package recordfile

import (
	"fmt"

	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule/record"
)

// facts reads what is said of the subject.
func (r *reader) facts(f *fields, about *subject, e *record.Entry) {
	switch about.kind {
	case record.OfBatch, record.OfCheese:
		r.batch(f, &e.Batch)
	case record.OfMilk:
		m := &e.Milk
		m.Ordered = said(f, "ordered", resources.ParseVolume)
		m.Came = said(f, "came", resources.ParseVolume)
		m.Lot, _ = read(f, "lot", text(MaxText))
		m.Measured = r.measured(f)
	case record.OfTarget:
		r.target(f, &e.Target)
	case record.OfPlace:
		e.Place = record.PlaceFacts{Measured: r.measured(f), Closed: r.stretch(f, "closed", e.At), Open: f.isTrue("open")}
	case record.OfPerson:
		e.Person = record.PersonFacts{Away: r.stretch(f, "away", e.At), Here: f.isTrue("here")}
		if t, ok := f.inner("takes"); ok && t.need("batch") && t.need("stage") {
			var task record.Task
			task.Batch, _ = read(&t, "batch", fault.Name)
			task.Stage, _ = read(&t, "stage", fault.Name)
			e.Person.Takes = record.Say(task)
		}
	case record.OfRound:
		e.Round = record.RoundFacts{Did: f.isTrue("did"), Skipped: f.isTrue("skipped")}
		if e.Round.Did && e.Round.Skipped {
			f.fault("skipped", fault.Fault{What: "a round was done or was skipped, not both", Want: "one of the two"})
		}
	case record.OfPacket:
		p := &e.Packet
		p.Lot, _ = read(f, "lot", text(MaxText))
		p.UseBy = said(f, "use_by", resources.ParseDate)
		p.Strength, _ = read(f, "strength", amount)
		p.Holds, _ = read(f, "holds", amount)
	}
}

// said reads a value of which it counts whether it was given.
func said[T any](f *fields, key string, parse func(string) (T, error)) record.Said[T] {
	if v, ok := read(f, key, parse); ok {
		return record.Say(v)
	}
	return record.Said[T]{}
}

// batch reads what is said of a batch.
func (r *reader) batch(f *fields, b *record.BatchFacts) {
	b.Began, _ = read(f, "began", fault.Name)
	b.Did, _ = read(f, "did", fault.Name)
	b.NotYet, _ = read(f, "not_yet", fault.Name)
	if b.NotYet != "" && (b.NotYet == b.Did || b.NotYet == b.Began) {
		f.fault("not_yet", fault.Fault{What: "this stage is said to have begun in the same entry", Got: fault.Clip(b.NotYet), Want: "one of the two"})
	}
	b.Look = said(f, "look", fault.Above0(resources.ParseMinutes))
	b.Litres = said(f, "litres", fault.Above0(resources.ParseVolume))
	b.Pot, _ = read(f, "pot", fault.Name)
	if d, ok := f.inner("drew"); ok && d.need("supply") && d.need("day") {
		var draw record.Draw
		draw.Supply, _ = read(&d, "supply", fault.Name)
		draw.Day, _ = read(&d, "day", resources.ParseDate)
		b.Drew = record.Say(draw)
	}
	if s, ok := f.inner("stands"); ok && s.need("place") {
		var stand record.Stand
		stand.Place, _ = read(&s, "place", fault.Name)
		stand.Shelf, _ = read(&s, "shelf", fault.Name)
		b.Stands = record.Say(stand)
	}
	b.Pieces = said(f, "pieces", fault.Whole(0, MaxPieces))
	b.Gone = said(f, "gone", fault.Whole(1, MaxPieces))
	b.Why, _ = read(f, "why", text(MaxText))
	b.Weight = said(f, "weight", fault.Above0(resources.ParseMass))
	b.Lost = f.isTrue("lost")
	b.Measured = r.measured(f)
	for _, l := range f.each("lots") {
		if l.need("what") && l.need("lot") {
			var p record.Packet
			p.What, _ = read(&l, "what", fault.Name)
			p.Lot, _ = read(&l, "lot", text(MaxText))
			b.Lots = append(b.Lots, p)
		}
	}
}

// measured reads readings, each as it was written.
func (r *reader) measured(f *fields) (all []record.Measure) {
	for _, m := range f.each("measured") {
		if m.need("what") && m.need("is") {
			var one record.Measure
			one.What, _ = read(&m, "what", fault.Name)
			one.Is, _ = read(&m, "is", text(MaxText))
			all = append(all, one)
		}
	}
	return all
}

// target reads what is said of a cheese of a target.
func (r *reader) target(f *fields, t *record.TargetFacts) {
	t.Took = said(f, "took", fault.Whole(0, MaxPieces))
	t.Back = said(f, "back", fault.Whole(0, MaxPieces)) // 0: none came back
	t.Resell = f.isTrue("resell")
	t.SoldOut = said(f, "sold_out", resources.ParseClock)
	t.To, _ = read(f, "to", fault.Name)
	if n, ok := f.got["of"]; ok {
		t.Of = r.fromLots(f, n)
	}
	sum := 0
	for _, l := range t.Of {
		sum += l.Pieces
	}
	if t.Took.Given && len(t.Of) > 0 && sum != t.Took.Value {
		f.fault("of", fault.Fault{What: fmt.Sprintf("this adds up to %d pieces, and %d were taken", sum, t.Took.Value), Want: "numbers that add up"})
	}
}

// fromLots reads how many pieces came from which batch; the keys are lots.
func (r *reader) fromLots(f *fields, n node) (all []record.FromLot) {
	if n.kind != braces || len(n.pairs) == 0 || len(n.pairs) > MaxList {
		f.fault("of", fault.Fault{What: "each batch with its pieces is wanted here", Got: fault.Clip(n.text), Want: "of: " + exampleOf("of")})
		return nil
	}
	seen := map[string]bool{}
	for _, p := range n.pairs {
		if seen[p.key] {
			r.fault(p.at, fault.Fault{What: "of: this batch is named twice", Got: fault.Clip(p.key)})
		}
		seen[p.key] = true
		lot, err := fault.Name(p.key)
		if err != nil {
			one := fault.OfQuantity(err)
			one.What = "of: " + one.What
			r.fault(p.at, one)
		}
		if pieces, ok := readNode(f, "of", p.value, fault.Whole(1, MaxPieces)); ok {
			all = append(all, record.FromLot{Lot: lot, Pieces: pieces})
		}
	}
	return all
}

// stretch reads a time that begins with the entry: true, or braces that say when it ends.
func (r *reader) stretch(f *fields, key string, at resources.Moment) record.Said[record.Stretch] {
	s := record.Stretch{From: at}
	n, ok := f.got[key]
	if !ok {
		return record.Said[record.Stretch]{}
	}
	if n.kind != braces {
		if !f.isTrue(key) {
			return record.Said[record.Stretch]{}
		}
		return record.Say(s)
	}
	in, _ := f.inner(key)
	if !in.need("until") {
		return record.Said[record.Stretch]{}
	}
	if m, ok := read(&in, "from", r.edge(false)); ok {
		s.From = m
	}
	s.Until = said(&in, "until", r.edge(true))
	if s.Until.Given && s.Until.Value <= s.From {
		in.fault("until", fault.Fault{What: "this is not after the time begins", Got: fault.Clip(in.got["until"].text), Want: "a later moment"})
	}
	return record.Say(s)
}
