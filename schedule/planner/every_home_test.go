package planner_test

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// allHomes finds where the boxes stand that stand on shelves now: first those of which the earlier plan
// tells, then the others, and last what is still in hand; stock before batches, those in the order of their
// makes. What finds no room beside those before it stands nowhere. Boxes that are in hand, and were to go
// where others still are, keep their spots.
func (e *everyWorld) allHomes() {
	var all []*everySitter
	spots := map[*everySitter][]everyPile{}
	for _, x := range e.sitters {
		if e.placeNamed(x.at).Measured() && (x.to == "" || x.later()) {
			all, spots[x] = append(all, x), e.spotsBefore(x)
		}
	}
	turn := func(x *everySitter) int {
		switch {
		case spots[x] != nil:
			return 0
		case x.under >= 0 && x.since > e.from:
			return 2
		}
		return 1
	}
	begun := func(x *everySitter) resources.Moment {
		if x.under < 0 {
			return -never
		}
		return e.under[x.under].Stages[0].Start
	}
	slices.SortStableFunc(all, func(a, b *everySitter) int {
		return cmp.Or(cmp.Compare(turn(a), turn(b)), cmp.Compare(begun(a), begun(b)))
	})
	var there []everyStay
	for _, x := range all {
		there = e.home(x, there, spots[x])
	}
}

// home finds where one stands beside others.
func (e *everyWorld) home(x *everySitter, there []everyStay, spots []everyPile) []everyStay {
	s := e.stayNow(x)
	s.at = spots
	together := func() bool { return newEveryShelf(&e.p.Kitchen).stand(append(slices.Clip(there), s)) }
	switch {
	case spots != nil && (x.since > e.from || together()):
		x.spots = spots
	default:
		s.at = nil
		x.homeless = !together()
	}
	if x.homeless || !together() {
		return there
	}
	return append(there, s)
}

// stayNow is where a sitter is as if it were there at the planning start, all shelves open.
func (e *everyWorld) stayNow(x *everySitter) everyStay {
	k := &e.p.Kitchen
	place := slices.IndexFunc(k.Cold, func(c resources.ColdPlace) bool { return c.Name == x.at })
	box := slices.IndexFunc(k.Boxes, func(b resources.Box) bool { return b.Name == x.box })
	return everyStay{place: place, box: box, boxes: x.count, from: e.from, until: e.from + 1, open: 1<<len(k.Cold[place].Shelves) - 1, now: true}
}

// boxesBefore is where the earlier plan has a sitter's boxes in its place; nil where it has not.
func (e *everyWorld) boxesBefore(x *everySitter) []schedule.Standing {
	var boxes []schedule.Standing
	if x.under >= 0 {
		if was := e.under[x.under].earlier; was != nil && x.running < len(was.Stages) {
			boxes = was.Stages[x.running].BoxesAt
		}
	} else if went := e.p.Went(); went != nil {
		s := &e.p.Stock[x.entry]
		for i := range went.Stock {
			if o := &went.Stock[i]; o.Cheese == s.Cheese && o.Packed == s.Packed && o.At == s.At {
				boxes = o.BoxesAt
				break
			}
		}
	}
	if len(boxes) < x.count || slices.ContainsFunc(boxes, func(b schedule.Standing) bool { return b.Place != x.at }) {
		return nil
	}
	return boxes[:x.count]
}

// spotsBefore is the same by spots, on shelves.
func (e *everyWorld) spotsBefore(x *everySitter) []everyPile {
	c := e.placeNamed(x.at)
	var out []everyPile
	for _, b := range e.boxesBefore(x) {
		p := everyPile{shelf: slices.IndexFunc(c.Shelves, func(s resources.Shelf) bool { return s.Name == b.Shelf }), x: b.X, y: b.Y, w: b.Width, d: b.Depth}
		if p.shelf < 0 {
			return nil
		}
		at := slices.IndexFunc(out, func(o everyPile) bool { return o.shelf == p.shelf && o.square(p) })
		if at < 0 {
			at = len(out)
			out = append(out, p)
		}
		out[at].layers++
	}
	return out
}

// standsAt gives the stay of what stands in a place its spots, and none where it stands nowhere.
func (x *everySitter) standsAt(place string, stays []everyStay) []everyStay {
	switch {
	case x == nil || place != x.at || len(stays) == 0:
		return stays
	case x.homeless:
		return nil
	}
	stays[0].at = x.spots
	return stays
}
