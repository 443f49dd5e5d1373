package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// checkTakes: the new place may have the cheese, has room for it, is open when it comes, and is the
// first that surely does: of those that are open for as long as it may stand there, if there is one.
func (h *hearing) checkTakes(x *sitter) {
	to := h.cold(x.at)
	if to == nil || !slices.Contains(x.places, x.at) {
		h.failCarry("carry-place", x, "got it carried to %q, want one of %q", x.at, x.places)
		return
	}
	if text := h.crowdedAt(x, to); text != "" {
		h.failCarry("carry-room", x, "%s", text)
	}
	for _, open := range []resources.Span{x.openFor(), {From: x.moved, Until: x.moved + 1}} {
		isOpen := closedDuring(to, x.boxes, open) == ""
		for _, place := range x.places {
			if place == x.at && isOpen {
				return
			}
			if h.surelyTakes(x, place, open) {
				h.failCarry("carry-place", x, "got it carried to the %s, want it in the %s, which is listed first or open for longer, and takes it", x.at, place)
				return
			}
		}
	}
	h.failCarry("carry-place", x, "got it carried to the %s, want one that is open at %s", x.at, h.when(x.moved))
}

// beside lists the boxes of all else that stands in a place at some moment while a new place is kept
// for cheese: of what was there, and of what is carried before it.
func (h *hearing) beside(x *sitter, sure bool) []pile {
	var out []pile
	before := true
	for _, o := range h.sitters {
		if o == x {
			before = false
			continue
		}
		there := resources.Span{From: o.since, Until: o.until}
		if o.until <= o.since {
			there.Until = forever
		}
		moved := o.closing != nil && (o.carry != nil || o.at != o.place.Name)
		put := func(boxes []schedule.Standing, span resources.Span) {
			if !span.Overlaps(x.kept()) && !sure {
				return
			}
			for _, p := range pilesOf(boxes) {
				p.kind = o.kind
				out = append(out, p)
			}
		}
		if !moved || o.later() || !before {
			put(o.stood(), there)
		}
		if moved && (before || sure) {
			put(o.boxes, o.kept())
		}
	}
	return out
}

// crowdedAt says what is in the way of cheese in its new place; "" for nothing.
func (h *hearing) crowdedAt(x *sitter, to *resources.ColdPlace) string {
	others := h.beside(x, false)
	if !to.Measured() {
		n := x.count
		for _, o := range others {
			if o.place == to.Name {
				n += len(o.layers)
			}
		}
		if n > to.Boxes {
			return "got more boxes in the " + to.Name + " than it holds"
		}
		return ""
	}
	for _, p := range pilesOf(x.boxes) {
		p.kind, p.stay = x.kind, resources.Span{From: 0, Until: 1}
		n := len(p.layers)
		for _, o := range others {
			o.stay = p.stay
			switch {
			case !p.clashes(o):
			case !h.shares(p, o):
				return "got boxes on the shelf " + p.shelf + " where others stand"
			default:
				n += len(o.layers)
			}
		}
		if n > h.mostIn(p) {
			return "got more boxes on one another on the shelf " + p.shelf + " than it is high for"
		}
	}
	return ""
}

// surelyTakes reports whether a place that is open has room for cheese beside all else, if each box is
// put where it finds some: on others, or in a corner.
func (h *hearing) surelyTakes(x *sitter, name string, open resources.Span) bool {
	place := h.cold(name)
	if place == nil || closedDuring(place, nil, open) != "" {
		return false
	}
	others := h.beside(x, true)
	untold := 0 // boxes of which it is not told that they are there
	for _, o := range h.sitters {
		if o != x && (o.at == name && len(o.boxes) == 0 || o.place == place && len(o.stood()) == 0 || o.closing != nil && o.carry == nil && slices.Contains(o.places, name)) {
			untold += o.count
		}
	}
	if !place.Measured() {
		n := x.count + untold
		for _, o := range others {
			if o.place == name {
				n += len(o.layers)
			}
		}
		return n <= place.Boxes
	}
	if untold > 0 {
		return false
	}
	box := h.boxNamed(x.kind)
	if box == nil {
		return false
	}
	left := x.count
	for _, s := range place.Shelves {
		if closedDuring(place, []schedule.Standing{{Shelf: s.Name}}, open) == "" {
			var there []pile
			for _, o := range others {
				if o.place == name && o.shelf == s.Name {
					there = append(there, o)
				}
			}
			left -= h.shelfTakes(s, box, there)
		}
	}
	return left <= 0
}

// shelfTakes is how many boxes of a kind find room on a shelf beside others, put one after another.
func (h *hearing) shelfTakes(s resources.Shelf, box *resources.Box, there []pile) int {
	layers := high(s.Size.Height, box)
	if layers == 0 || box.Size.Width <= 0 || box.Size.Depth <= 0 {
		return 0
	}
	n := 0
	for i, p := range there { // room left on spots, each once
		sum, first, shared := 0, true, box.Stack == resources.StackKind && p.kind == box.Name
		for k, o := range there {
			if o.sameSpot(p) && o.kind == p.kind {
				sum += len(o.layers)
				first = first && k >= i
			} else if p.x < o.x+o.width && o.x < p.x+p.width && p.y < o.y+o.depth && o.y < p.y+p.depth {
				shared = false
			}
		}
		if shared && first {
			n += max(layers-sum, 0)
		}
	}
	for {
		p, ok := cornerFor(s, box, there)
		if !ok {
			return n
		}
		there = append(slices.Clip(there), p)
		n += layers
	}
}

// cornerFor is a spot on a shelf that is free, in a corner of the shelf or of what stands there.
func cornerFor(s resources.Shelf, box *resources.Box, there []pile) (pile, bool) {
	xs, ys := []resources.Micrometres{0}, []resources.Micrometres{0}
	for _, o := range there {
		xs, ys = append(xs, o.x+o.width), append(ys, o.y+o.depth)
	}
	for _, turned := range []bool{false, true} {
		w, d := box.Size.Width, box.Size.Depth
		if turned {
			w, d = d, w
		}
		for _, y := range ys {
			for _, x := range xs {
				p := pile{x: x, y: y, width: w, depth: d}
				inWay := func(o pile) bool {
					return p.x < o.x+o.width && o.x < p.x+p.width && p.y < o.y+o.depth && o.y < p.y+p.depth
				}
				if x+w <= s.Size.Width && y+d <= s.Size.Depth && !slices.ContainsFunc(there, inWay) {
					return p, true
				}
			}
		}
	}
	return pile{}, false
}
