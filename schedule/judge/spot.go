package judge

import (
	"cmp"
	"fmt"
	"slices"

	"ripeby/resources"
)

// A spot is where boxes stand square on one another: a corner of a shelf and two sides. It is in
// use while a box stands there. Boxes of one kind may share it, whatever batches they are of, where
// the kitchen lets that kind stack so; what leaves from below is lifted out, and the others come
// down.
//
//	shelf height  ┌───────────────────────────┐
//	              │            │ C │ C │      │
//	  one spot    │    │ B │ B │ B │ B │      │   at any moment no more than fit
//	              │ A │ A │ A │ A │           │
//	              └───────────────────────────┘ time
//
// C comes to stand on two boxes, in layer 3, and once A has left it is in layer 2. The layer that a
// plan tells is the one of the moment at which a box comes.

// high is how many boxes of a kind stand on one another below a height.
func high(height resources.Micrometres, kind *resources.Box) int {
	switch {
	case kind.Size.Height <= 0 || height < kind.Size.Height:
		return 0
	case kind.Stack == resources.StackNo:
		return 1
	}
	return int(height / kind.Size.Height)
}

// sameSpot reports whether two piles stand in one spot.
func (p pile) sameSpot(o pile) bool {
	return p.place == o.place && p.shelf == o.shelf && p.x == o.x && p.y == o.y && p.width == o.width && p.depth == o.depth
}

// shares reports whether two piles may stand in one spot at a time.
func (h *hearing) shares(p, o pile) bool {
	return p.sameSpot(o) && p.kind == o.kind && h.stacksByKind(p.kind)
}

// stacksByKind reports whether boxes of a kind stand on any others of it.
func (h *hearing) stacksByKind(kind string) bool {
	box := h.boxNamed(kind)
	return box != nil && box.Stack == resources.StackKind
}

// mostIn is how many boxes a pile's spot takes, as high as the shelf allows.
func (h *hearing) mostIn(p pile) int {
	place, box := h.cold(p.place), h.boxNamed(p.kind)
	if place == nil || box == nil {
		return 0
	}
	at := slices.IndexFunc(place.Shelves, func(s resources.Shelf) bool { return s.Name == p.shelf })
	if at < 0 {
		return 0
	}
	return high(place.Shelves[at].Size.Height, box)
}

// sameStay reports whether two piles are of one stage's boxes.
func (p pile) sameStay(o pile) bool {
	return p.batch == o.batch && p.stage == o.stage && p.stay == o.stay
}

// checkShelves: spots that are in use at one moment do not overlap; a spot that several stays
// share holds one kind that may, no higher than the shelf; and what comes stands on what is there.
// Piles are swept by time, so that only those that meet are compared.
func checkShelves(h *hearing) {
	all := h.piles()
	slices.SortStableFunc(all, func(a, b pile) int { return cmp.Compare(a.stay.From, b.stay.From) })
	var open []pile
	for i, p := range all {
		open = slices.DeleteFunc(open, func(o pile) bool { return o.stay.Until <= p.stay.From })
		for _, o := range open {
			if (o.planned || p.planned) && !p.sameStay(o) && p.clashes(o) && !h.shares(p, o) {
				h.failPile("shelf-overlap", p, "got boxes where those of %s %s stand until %s, want each its own space", o.batch, o.stage, h.when(o.stay.Until))
			}
		}
		open = append(open, p)
		if i+1 == len(all) || all[i+1].stay.From > p.stay.From {
			h.checkSpots(open, p.stay.From)
		}
	}
}

// checkSpots sees to the spots to which something comes at a moment, with all that stands there
// then.
func (h *hearing) checkSpots(standing []pile, now resources.Moment) {
	for i, p := range standing {
		if p.stay.From < now || !h.stacksByKind(p.kind) {
			continue // of the others no two stays share a spot
		}
		boxes, below, planned := 0, 0, false
		var coming []pile
		for _, o := range standing {
			if !o.sameSpot(p) || o.kind != p.kind {
				continue
			}
			boxes, planned = boxes+len(o.layers), planned || o.planned
			if o.stay.From < now || !o.comes {
				below += len(o.layers)
			} else {
				coming = append(coming, o)
			}
		}
		first := !slices.ContainsFunc(standing[:i], func(o pile) bool { return o.stay.From == now && o.sameSpot(p) })
		if most := h.mostIn(p); planned && first && boxes > most && most > 0 {
			h.failPile("spot-over", p, "got %d boxes on one another, want at most %d", boxes, most)
		}
		if p.comes && now >= h.from {
			h.checkLayers(p, coming, below, boxes)
		}
	}
}

// checkLayers: boxes that come to a spot stand above those that are there, those that come at one
// moment in any order.
func (h *hearing) checkLayers(p pile, coming []pile, below, boxes int) {
	for _, layer := range p.layers {
		if layer >= 1 && (layer <= below || layer > boxes) {
			h.failPile("box-layer", p, "got layer %d, want %d to %d: %d boxes stand there", layer, below+1, boxes, below)
			return
		}
		for _, o := range coming {
			if !o.sameStay(p) && slices.Contains(o.layers, layer) {
				h.failPile("box-layer", p, "got layer %d, in which a box of %s %s comes to stand, want each in its own", layer, o.batch, o.stage)
				return
			}
		}
	}
}

// failPile notes a breach of boxes that come to stand somewhere.
func (h *hearing) failPile(rule string, p pile, format string, args ...any) {
	h.found = append(h.found, Violation{Rule: rule, Batch: p.batch, Stage: p.stage, Thing: p.shelf, At: p.stay.From, Text: fmt.Sprintf(format, args...)})
}
