package coldroom

import (
	"math"
	"testing"
	_ "time/tzdata" // the tests mean the same on a machine without zone data

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
	fills := Fills(p, plan)
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
			got := fills[i].Tightest(day)
			if got.Boxes != bestBoxes || got.From != bestAt {
				t.Errorf("%s on %d March: got %d boxes at %v, want %d at %v", place.Name, d,
					got.Boxes, got.From.In(zone), bestBoxes, bestAt.In(zone))
			}
			if want := int(math.Ceil(bestLoad*100 - 1e-9)); fills[i].Percent(got) != want {
				t.Errorf("%s on %d March: got %d %%, want %d", place.Name, d, fills[i].Percent(got), want)
			}
		}
	}
}

// lookAt counts the boxes in a place at a moment and how full it is.
func lookAt(plan *schedule.Plan, place *resources.ColdPlace, m resources.Moment) (boxes int, load float64) {
	var floor, open float64
	spots := map[schedule.Standing]bool{}
	count := func(from, until resources.Moment, stand []schedule.Standing) {
		for _, s := range stand {
			if s.Place == place.Name && from <= m && m < until {
				boxes++
				if s.Layer = 0; !spots[s] {
					spots[s] = true
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

// Floors of 3 m by 3 m: their products do not fit 64 bits.
func TestFullerComparesExactly(t *testing.T) {
	const floor = 9_000_000_000_000
	f := &Fill{Place: &resources.ColdPlace{Shelves: make([]resources.Shelf, 1)}}
	a, b := FillStep{Taken: floor - 1, Open: floor}, FillStep{Taken: floor - 2, Open: floor - 1}
	if !f.fuller(a, b) || f.fuller(b, a) || f.fuller(a, a) {
		t.Error("(n-1)/n must be more than (n-2)/(n-1)")
	}
}
