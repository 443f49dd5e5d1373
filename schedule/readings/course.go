package readings

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule/record"
)

// Room is how the room in which cheese is made is called among places. No cold place has that name.
const Room = record.Room

// Quarter is how far apart readings of one place are kept: of each quarter of an hour the first.
const Quarter resources.Minutes = 15

// Gap is how long no reading may come before it is told, and drawn, as a gap: three quarters of an hour, so
// that a single one that was lost on its way is none.
const Gap = 3 * Quarter

// Window is over how long readings are shown.
const Window = 7 * resources.Day

// Reading is a temperature at a moment.
type Reading struct {
	At resources.Moment
	Is resources.MilliCelsius
}

// Course is what is known of the temperature of one place over a span of time.
type Course struct {
	Span resources.Span
	Runs [][]Reading      // of the thermometer, by time; between two runs is a gap
	Gaps []resources.Span // longer than Gap, with those at both ends of Span
	Told []Reading        // what people measured, by time
}

// Of gives the course of readings over a span, in whatever order they come. Those outside it are left out.
func Of(span resources.Span, thermometer, told []Reading) Course {
	c := Course{Span: span, Told: Within(span, told)}
	last := span.From
	for i, r := range Within(span, thermometer) {
		gap := r.At.Sub(last) > Gap
		if gap {
			c.Gaps = append(c.Gaps, resources.Span{From: last, Until: r.At})
		}
		if i == 0 || gap {
			c.Runs = append(c.Runs, nil)
		}
		run := &c.Runs[len(c.Runs)-1]
		*run = append(*run, r)
		last = r.At
	}
	if span.Until.Sub(last) > Gap {
		c.Gaps = append(c.Gaps, resources.Span{From: last, Until: span.Until})
	}
	return c
}

// Within are the readings of a span by time; of one moment in the order in which they came.
func Within(span resources.Span, all []Reading) []Reading {
	some := slices.DeleteFunc(slices.Clone(all), func(r Reading) bool { return r.At < span.From || r.At >= span.Until })
	slices.SortStableFunc(some, func(a, b Reading) int { return cmp.Compare(a.At, b.At) })
	return some
}

// Empty reports whether nothing at all is known.
func (c *Course) Empty() bool { return len(c.Runs) == 0 && len(c.Told) == 0 }

// All are the thermometer's readings, by time.
func (c *Course) All() []Reading { return slices.Concat(c.Runs...) }

// Coldest is the reading of a list, at least one, with the least temperature,
// the earliest of equals.
func Coldest(all []Reading) Reading {
	return slices.MinFunc(all, func(a, b Reading) int { return cmp.Compare(a.Is, b.Is) })
}

// Warmest is likewise the one with the greatest.
func Warmest(all []Reading) Reading {
	return slices.MaxFunc(all, func(a, b Reading) int { return cmp.Compare(a.Is, b.Is) })
}

// Places are the places of a kitchen of which there may be readings: its cold places, and the room.
func Places(k *resources.Kitchen) (names []string) {
	for _, c := range k.Cold {
		names = append(names, c.Name)
	}
	return append(names, Room)
}
