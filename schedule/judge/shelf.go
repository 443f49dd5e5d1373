package judge

import (
	"cmp"
	"fmt"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// pile is the boxes of one stay that stand square on one another, and how long.
type pile struct {
	place, shelf string
	x, y         resources.Micrometres
	width, depth resources.Micrometres
	layers       []int // sorted
	kind         string
	stay         resources.Span
	comes        bool // then; else it goes on with the stage before
	planned      bool
	batch, stage string
}

// clashes reports whether two piles need the same space at the same time.
func (p pile) clashes(o pile) bool {
	return p.place == o.place && p.shelf == o.shelf && p.stay.Overlaps(o.stay) &&
		p.x < o.x+o.width && o.x < p.x+p.width && p.y < o.y+o.depth && o.y < p.y+p.depth
}

// pilesOf sorts standings into piles: the same corner and the same sides.
func pilesOf(boxes []schedule.Standing) []pile {
	var out []pile
	for _, s := range sortedStandings(boxes) {
		n := len(out)
		if n > 0 {
			if p := &out[n-1]; p.place == s.Place && p.shelf == s.Shelf && p.x == s.X && p.y == s.Y && p.width == s.Width && p.depth == s.Depth {
				p.layers = append(p.layers, s.Layer)
				continue
			}
		}
		out = append(out, pile{place: s.Place, shelf: s.Shelf, x: s.X, y: s.Y, width: s.Width, depth: s.Depth, layers: []int{s.Layer}})
	}
	return out
}

// compareStandings orders standings by shelf, corner, sides and layer.
func compareStandings(a, b schedule.Standing) int {
	return cmp.Or(cmp.Compare(a.Place, b.Place), cmp.Compare(a.Shelf, b.Shelf), cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y),
		cmp.Compare(a.Width, b.Width), cmp.Compare(a.Depth, b.Depth), cmp.Compare(a.Layer, b.Layer))
}

// piles lists all piles on measured shelves, stock's first.
func (h *hearing) piles() []pile {
	var out []pile
	add := func(boxes []schedule.Standing, like pile) {
		for _, p := range pilesOf(boxes) {
			if c := h.cold(p.place); c != nil && c.Measured() && like.stay.From < like.stay.Until {
				p.kind, p.stay, p.comes, p.planned, p.batch, p.stage = like.kind, like.stay, like.comes, like.planned, like.batch, like.stage
				out = append(out, p)
			}
		}
	}
	for i := range h.plan.Stock {
		kind, _ := h.stockBoxes(i)
		for _, s := range h.stockNow(i) {
			add(s.boxes, pile{kind: kind, stay: s.span, comes: s.comes, batch: "stock", stage: h.plan.Stock[i].Cheese})
		}
	}
	for _, l := range h.lots {
		for i := 0; l.sound && i < len(l.batch.Stages); i++ {
			t, kind := &l.batch.Stages[i], ""
			if b := l.boxing(i); b != nil {
				kind = b.Name
			}
			for _, s := range h.seatsOf(l, i) {
				add(s.boxes, pile{kind: kind, stay: s.span, comes: s.comes, planned: l.stayPlanned(i), batch: l.batch.ID, stage: t.Stage})
			}
		}
	}
	return out
}

// checkBoxes: a stage that holds at a cold place says where each of its boxes
// stands: inside a shelf of that place, the box's sides either way round, no higher than
// the shelf, each in a layer of its own. Elsewhere no box stands.
// Boxes of a begun stay that fit nowhere are left out with a warning; those of one
// that is over may be.
func checkBoxes(h *hearing) {
	for _, l := range h.lots {
		if !l.sound {
			continue
		}
		for i := range l.batch.Stages {
			t := &l.batch.Stages[i]
			place, want := h.cold(t.At), 0
			if place != nil && t.Hold > 0 {
				want = l.boxes(i)
			}
			if got := len(t.BoxesAt); got != want {
				excused := !l.stayPlanned(i) && got == 0 && (t.Ends <= h.from || h.warned("boxes-do-not-fit"))
				if !excused {
					h.failStage("boxes-count", l, i, t.At, "got %d boxes in place, want %d", got, want)
				}
				continue
			}
			if want > 0 {
				for _, text := range h.faults(t.BoxesAt, place, l.boxing(i).Name) {
					h.failStage("box-place", l, i, t.At, "%s", text)
				}
			}
		}
	}
}

// faults says what is wrong with the positions of boxes of one kind in a place.
func (h *hearing) faults(boxes []schedule.Standing, place *resources.ColdPlace, kind string) []string {
	var out []string
	box := h.boxNamed(kind)
	if box == nil {
		box = &resources.Box{}
	}
	for _, s := range boxes {
		if text := misplaced(s, place, box); text != "" {
			out = append(out, text)
		}
	}
	if len(out) > 0 || !place.Measured() {
		return out
	}
	piles := pilesOf(boxes)
	for k, p := range piles {
		for n, got := range p.layers {
			if box.Stack != resources.StackKind && got != n+1 {
				out = append(out, fmt.Sprintf("got layer %d where layer %d should be, want stacks without a gap", got, n+1))
				break
			}
			if n > 0 && got == p.layers[n-1] {
				out = append(out, fmt.Sprintf("got layer %d twice, want each box in its own", got))
				break
			}
		}
		p.stay = resources.Span{From: 0, Until: 1}
		for _, o := range piles[:k] {
			o.stay = p.stay
			if p.clashes(o) {
				out = append(out, fmt.Sprintf("got boxes on shelf %s that overlap and do not stand square, want each its own space", p.shelf))
			}
		}
	}
	return out
}

// misplaced says what is wrong with one box's position; "" when nothing is.
func misplaced(s schedule.Standing, place *resources.ColdPlace, kind *resources.Box) string {
	if s.Place != place.Name {
		return fmt.Sprintf("got a box at %q, want %q", s.Place, place.Name)
	}
	if !place.Measured() {
		if s.Shelf != "" || s.Layer != 0 || s.X != 0 || s.Y != 0 {
			return fmt.Sprintf("got a position in %s, want none: it is counted in boxes", place.Name)
		}
		return ""
	}
	at := slices.IndexFunc(place.Shelves, func(x resources.Shelf) bool { return x.Name == s.Shelf })
	if at < 0 {
		return fmt.Sprintf("got shelf %q, want one of %s", s.Shelf, place.Name)
	}
	size, box := place.Shelves[at].Size, kind.Size
	along := s.Width == box.Width && s.Depth == box.Depth
	across := s.Width == box.Depth && s.Depth == box.Width
	switch {
	case box.Width <= 0 || box.Depth <= 0 || box.Height <= 0:
		return "got a box without a size on a shelf, want a size or a counted place"
	case !along && !across:
		return fmt.Sprintf("got sides of %d x %d µm, want %d x %d either way round", s.Width, s.Depth, box.Width, box.Depth)
	case s.X < 0 || s.Y < 0 || s.X > size.Width-s.Width || s.Y > size.Depth-s.Depth:
		return fmt.Sprintf("got a box at %d, %d µm of shelf %s, want it inside %d x %d", s.X, s.Y, s.Shelf, size.Width, size.Depth)
	case s.Layer < 1 || s.Layer > high(size.Height, kind):
		return fmt.Sprintf("got layer %d on shelf %s, want 1 to %d", s.Layer, s.Shelf, high(size.Height, kind))
	}
	return ""
}
