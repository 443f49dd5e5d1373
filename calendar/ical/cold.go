package ical

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"ripeby/calendar/note"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// wholeDays is a span of whole local days, both included.
type wholeDays struct{ first, last resources.Date }

// stayEvents gives one event per stay in a cold place, over every local day on
// which it takes space there.
func stayEvents(plan *schedule.Plan, w wording, opt Options) []event {
	var events []event
	for k := range plan.Batches {
		b := &plan.Batches[k]
		for i := range b.Stages {
			t := &b.Stages[i]
			n, ok := note.OfStay(plan, b, i)
			if !ok {
				continue
			}
			e := w.stay(n)
			e.uid = uidOf("stay", b.ID, t.Stage)
			e.sequence, e.revised = t.StaySequence, stampOf(plan, t.StayRevised)
			e.sheet = opt.sheetOf(b.ID)
			events = append(events, e)
		}
	}
	notes, noteOf := note.OfStock(plan)
	for k, n := range notes {
		s := &plan.Stock[slices.Index(noteOf, k)]
		e := w.stay(n)
		e.uid = uidOf("stock", s.Cheese, s.Packed.In(time.UTC).Format(time.RFC3339))
		e.sequence, e.revised = s.Sequence, stampOf(plan, s.Revised)
		events = append(events, e)
	}
	return events
}

// stay is all of a stay's event but who it is. Days are those of the kitchen's own
// calendar, and the last is that of the last minute in the place: what is taken out
// at midnight does not stay on the day that begins.
func (w wording) stay(n note.Stay) event {
	last := max(n.Until-1, n.From)
	return event{
		start: n.From, end: n.Until,
		days:        &wholeDays{n.From.DateIn(w.zone), last.DateIn(w.zone)},
		summary:     fmt.Sprintf("%s: %s", words.Capital(w.stayAt(n)), w.stayWhat(n)),
		description: w.stayText(n),
		location:    w.stayAt(n),
		categories:  []string{"Cold place", n.Cheese},
		colour:      coldColour,
	}
}

// stayWhat tells what stands there, in a few words.
func (w wording) stayWhat(n note.Stay) string {
	boxes := 0
	for _, b := range n.Boxes {
		boxes += b.Boxes
	}
	switch boxes {
	case 0:
		return clean(n.Cheese) + ", " + w.pieces(n.Pieces)
	case 1:
		return clean(n.Cheese) + ", 1 box"
	}
	return fmt.Sprintf("%s, %d boxes", clean(n.Cheese), boxes)
}

// stayText is what the event tells when it is opened, one line a fact.
func (w wording) stayText(n note.Stay) []string {
	var lines []string
	if n.Batch == "" {
		lines = append(lines, fmt.Sprintf("Stock, %s: %s, packed %s", clean(n.Cheese), w.pieces(n.Pieces), w.moment(n.Packed)))
	} else {
		lines = append(lines, fmt.Sprintf("Batch %s, %s: %s", clean(n.Batch), clean(n.Cheese), w.pieces(n.Pieces)),
			fmt.Sprintf("In: %s, for %s", w.moment(n.From), clean(n.Stage)))
	}
	if n.Before != "" {
		lines = append(lines, fmt.Sprintf("Carried: %s, out of the %s", w.moment(n.Carried), w.place(n.Before)))
	}
	lines = append(lines, "Out: "+w.moment(n.Until))
	for _, place := range stayPlaces(n) {
		var here []note.ShelfCount
		for _, b := range n.Boxes {
			if b.Place == place {
				here = append(here, b)
			}
		}
		lines = append(lines, "Where: "+w.placeAndShelves(place, here))
	}
	return lines
}

// stayAt names the places in one line.
func (w wording) stayAt(n note.Stay) string {
	var places []string
	for _, p := range stayPlaces(n) {
		places = append(places, w.place(p))
	}
	return strings.Join(places, ", ")
}

// stayPlaces is where the boxes stand: one place, but stock may stand in several.
func stayPlaces(n note.Stay) []string {
	places := []string{n.At}
	for _, b := range n.Boxes {
		if !slices.Contains(places, b.Place) {
			places = append(places, b.Place)
		}
	}
	return places
}
