package calendar

import (
	"math"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/resources"
	"ripeby/schedule"
)

// What a place holds, minute by minute, against a count that looks at one moment
// only and shares no code with the steps.
func TestFillAgreesWithLookingAtEachMoment(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	zone := p.Kitchen.Zone
	p.Kitchen.Cold[0].Shelves[1].Taken = []resources.Span{{From: sample.At(zone, "2027-03-17 12:00"), Until: sample.At(zone, "2027-03-18 00:00")}}
	fills := fillOf(p, plan)
	for d := 13; d <= 29; d++ {
		day := resources.Date{Year: 2027, Month: 3, Day: d}.Span(zone)
		for i, place := range p.Kitchen.Cold {
			bestLoad, bestBoxes, bestAt := -1.0, 0, resources.Moment(0)
			for m := day.From; m < day.Until; m++ {
				boxes, load := lookAt(plan, &place, m)
				if load > bestLoad || (load == bestLoad && boxes > bestBoxes) {
					bestLoad, bestBoxes, bestAt = load, boxes, m
				}
			}
			got := fills[i].tightest(day)
			if got.boxes != bestBoxes || got.from != bestAt {
				t.Errorf("%s on %d March: got %d boxes at %v, want %d at %v", place.Name, d,
					got.boxes, got.from.In(zone), bestBoxes, bestAt.In(zone))
			}
			if want := int(math.Ceil(bestLoad*100 - 1e-9)); fills[i].percent(got) != want {
				t.Errorf("%s on %d March: got %d %%, want %d", place.Name, d, fills[i].percent(got), want)
			}
		}
	}
}

// lookAt counts the boxes in a place at a moment and how full it is.
func lookAt(plan *schedule.Plan, place *resources.ColdPlace, m resources.Moment) (boxes int, load float64) {
	var floor, open float64
	count := func(from, until resources.Moment, stand []schedule.Standing) {
		for _, s := range stand {
			if s.Place == place.Name && from <= m && m < until {
				boxes++
				if s.Layer == 1 {
					floor += float64(s.Width) * float64(s.Depth)
				}
			}
		}
	}
	for _, b := range plan.Batches {
		for _, t := range b.Stages {
			count(t.Start.Add(t.Work), t.Ends, t.BoxesAt)
		}
	}
	for _, s := range plan.Stock {
		count(s.Packed, s.Ends, s.BoxesAt)
	}
	if len(place.Shelves) == 0 {
		return boxes, float64(boxes) / float64(place.Boxes)
	}
	for _, s := range place.Shelves {
		closed := false
		for _, c := range s.Taken {
			closed = closed || c.From <= m && m < c.Until
		}
		if !closed {
			open += float64(s.Size.Width) * float64(s.Size.Depth)
		}
	}
	return boxes, floor / open
}

func TestFillText(t *testing.T) {
	measured := &placeFill{place: &resources.ColdPlace{Shelves: make([]resources.Shelf, 1)}}
	counted := &placeFill{place: &resources.ColdPlace{Boxes: 12}}
	for _, c := range []struct {
		name string
		f    *placeFill
		in   fillStep
		want string
	}{
		{"empty", counted, fillStep{open: 12}, "empty"},
		{"closed", counted, fillStep{}, "closed"},
		{"some", counted, fillStep{boxes: 9, open: 12}, "9 of 12 boxes"},
		{"full", counted, fillStep{boxes: 12, open: 12}, "12 of 12 boxes"},
		{"too full", counted, fillStep{boxes: 13, open: 12}, "13 of 12 boxes, TOO FULL"},
		{"in a closed place", counted, fillStep{boxes: 1}, "1 of 0 boxes, TOO FULL"},
		{"one box", measured, fillStep{boxes: 1, taken: 1, open: 3}, "1 box, 34 % of floor"},
		{"nearly full", measured, fillStep{boxes: 7, taken: 999, open: 1000}, "7 boxes, 100 % of floor"},
		{"too full", measured, fillStep{boxes: 7, taken: 1001, open: 1000}, "7 boxes, 101 % of floor, TOO FULL"},
		{"all shelves closed", measured, fillStep{boxes: 2, taken: 5}, "2 boxes, TOO FULL"},
	} {
		if got := unglue(fillText(c.f, c.in)); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// Floors of 3 m by 3 m: their products do not fit 64 bits.
func TestFullerComparesExactly(t *testing.T) {
	const floor = 9_000_000_000_000
	f := &placeFill{place: &resources.ColdPlace{Shelves: make([]resources.Shelf, 1)}}
	a, b := fillStep{taken: floor - 1, open: floor}, fillStep{taken: floor - 2, open: floor - 1}
	if !f.fuller(a, b) || f.fuller(b, a) || f.fuller(a, a) {
		t.Error("(n-1)/n must be more than (n-2)/(n-1)")
	}
}
