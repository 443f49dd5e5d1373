package coldroom

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// Pile is boxes of one stay that stand square on one another; in a place that is
// counted in boxes, all boxes of the stay there.
type Pile struct {
	Stay         int // of [Occupancy.Stays]
	X, Y         resources.Micrometres
	Width, Depth resources.Micrometres
	Boxes        int
	Below        int // boxes of other stays in the same spot on which they stand at the moment
	lowest       int // layer in which they came
}

// Piles gives what stands on a shelf at a moment, front to back, then left to right, and then from
// the bottom: what came first is lowest, for what leaves from below is lifted out and the others come
// down. Of what came at one moment the layers tell. The shelf of a place that is counted in boxes
// is "".
func (o *Occupancy) Piles(place, shelf string, m resources.Moment) []Pile {
	var out []Pile
	for i := range o.Stays {
		if s := &o.Stays[i]; s.Span.From <= m && m < s.Span.Until {
			out = append(out, pilesOf(i, s.Boxes, place, shelf)...)
		}
	}
	slices.SortStableFunc(out, func(a, b Pile) int {
		return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X), cmp.Compare(o.Stays[a.Stay].Span.From, o.Stays[b.Stay].Span.From), cmp.Compare(a.lowest, b.lowest))
	})
	for i := 1; i < len(out) && shelf != ""; i++ {
		if a, b := &out[i-1], &out[i]; a.X == b.X && a.Y == b.Y && a.Width == b.Width && a.Depth == b.Depth {
			b.Below = a.Below + a.Boxes
		}
	}
	return out
}

// pilesOf puts those boxes of a stay together that stand on one shelf with the same
// corner and the same sides.
func pilesOf(stay int, boxes []schedule.Standing, place, shelf string) []Pile {
	var out []Pile
	for _, b := range boxes {
		if b.Place != place || b.Shelf != shelf {
			continue
		}
		p := Pile{Stay: stay, X: b.X, Y: b.Y, Width: b.Width, Depth: b.Depth, Boxes: 1, lowest: b.Layer}
		same := func(q Pile) bool {
			return q.X == p.X && q.Y == p.Y && q.Width == p.Width && q.Depth == p.Depth
		}
		if i := slices.IndexFunc(out, same); i >= 0 {
			out[i].Boxes++
			out[i].lowest = min(out[i].lowest, b.Layer)
			continue
		}
		out = append(out, p)
	}
	return out
}

// Elsewhere lists what the kitchen has no place or no shelf of that name for, though
// boxes stand there within the span: it was changed after the plan was made.
func (o *Occupancy) Elsewhere(span resources.Span) []string {
	var out []string
	for i := range o.Stays {
		if !o.Stays[i].Span.Overlaps(span) {
			continue
		}
		for _, b := range o.Stays[i].Boxes {
			name := b.Place
			if b.Shelf != "" {
				name += ", " + b.Shelf
			}
			if !o.has(b.Place, b.Shelf) && !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

// has reports whether the kitchen has such a shelf, or such a counted place.
func (o *Occupancy) has(place, shelf string) bool {
	return slices.ContainsFunc(o.Kitchen.Cold, func(c resources.ColdPlace) bool {
		if c.Name != place {
			return false
		}
		if !c.Measured() {
			return shelf == ""
		}
		return slices.ContainsFunc(c.Shelves, func(s resources.Shelf) bool { return s.Name == shelf })
	})
}

// Taken reports whether a list of closings has one at the moment.
func Taken(closings []resources.Span, m resources.Moment) bool {
	return meetsAny(closings, resources.Span{From: m, Until: m + 1})
}

// meetsAny reports whether one of a list of closings shares a moment with a span.
func meetsAny(closings []resources.Span, span resources.Span) bool {
	return slices.ContainsFunc(closings, func(c resources.Span) bool { return !c.Empty() && c.Overlaps(span) })
}
