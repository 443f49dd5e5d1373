package coldroom

import (
	"fmt"
	"strings"

	"ripeby/resources"
	"ripeby/resources/shelf"
	"ripeby/schedule"
)

// room is one cold place under a question.
type room struct {
	a       *asking
	place   *resources.ColdPlace
	shelves []board       // of a measured place: those that are asked
	counts  []countedStay // of a counted place
}

// board is one shelf and all that the plan ever stands on it.
type board struct {
	shelf *resources.Shelf
	piles []timedPile
	known map[string]capacity // by the piles that are in the way
}

type timedPile struct {
	at    shelf.Placed
	span  resources.Span
	kind  string
	boxes int
}

// countedStay is boxes in a place that is counted in them.
type countedStay struct {
	boxes int
	span  resources.Span
}

// capacity is how many piles a shelf has room for: at least stand, where they are
// in at, and at most most.
type capacity struct {
	stand, most int
	at          []shelf.Placed
}

// fitting is the answer for one place and one span.
type fitting struct {
	answer shelf.Answer
	boxes  []schedule.Standing
}

func newBoard(o *Occupancy, place *resources.ColdPlace, s *resources.Shelf) board {
	b := board{shelf: s, known: map[string]capacity{}}
	for i := range o.Stays {
		for _, p := range pilesOf(i, o.Stays[i].Boxes, place.Name, s.Name) {
			b.piles = append(b.piles, timedPile{
				shelf.Placed{X: int64(p.X), Y: int64(p.Y), W: int64(p.Width), D: int64(p.Depth)}, o.Stays[i].Span, o.Stays[i].Kind, p.Boxes})
		}
	}
	return b
}

// count notes what a counted place holds over time.
func (r *room) count(o *Occupancy) {
	if r.place.Measured() {
		return
	}
	for i := range o.Stays {
		for _, p := range pilesOf(i, o.Stays[i].Boxes, r.place.Name, "") {
			r.counts = append(r.counts, countedStay{p.Boxes, o.Stays[i].Span})
		}
	}
}

// fits answers for one span.
func (r *room) fits(span resources.Span) fitting {
	if meetsAny(r.place.Taken, span) {
		return fitting{answer: shelf.No}
	}
	if !r.place.Measured() {
		return r.fitsCount(span)
	}
	left, most := r.a.q.Count, 0
	var spread []schedule.Standing
	for i := range r.shelves {
		layers := r.a.stacked(r.shelves[i].layers(r.a.q.Box))
		if layers == 0 || meetsAny(r.shelves[i].shelf.Taken, span) {
			continue
		}
		tops := r.shelves[i].tops(r.a, span, layers)
		c := r.shelves[i].capacity(r.a, span, layers)
		if boxes := r.stack(i, tops, c, layers, r.a.q.Count); len(boxes) == r.a.q.Count {
			return fitting{shelf.Yes, boxes} // one shelf has room for all
		}
		boxes := r.stack(i, tops, c, layers, left)
		spread, left, most = append(spread, boxes...), left-len(boxes), most+c.most*layers
		for _, t := range tops {
			most += t.room
		}
	}
	switch {
	case left == 0:
		return fitting{shelf.Yes, spread}
	case most < r.a.q.Count:
		return fitting{answer: shelf.No}
	}
	return fitting{answer: shelf.Unknown}
}

// fitsCount answers for a place that is counted in boxes. The number that stands
// there grows only where a stay begins.
func (r *room) fitsCount(span resources.Span) fitting {
	at := []resources.Moment{span.From}
	for _, c := range r.counts {
		if span.From < c.span.From && c.span.From < span.Until {
			at = append(at, c.span.From)
		}
	}
	for _, m := range at {
		n := r.a.q.Count
		for _, c := range r.counts {
			if c.span.From <= m && m < c.span.Until {
				n += c.boxes
			}
		}
		if n > r.place.Boxes {
			return fitting{answer: shelf.No}
		}
	}
	boxes := make([]schedule.Standing, r.a.q.Count)
	for i := range boxes {
		boxes[i].Place = r.place.Name
	}
	return fitting{shelf.Yes, boxes}
}

// layers is how many such boxes stand on one another on the shelf; 0 when one is too
// high, or has no size.
func (b *board) layers(box resources.Size) int {
	if box.Width <= 0 || box.Depth <= 0 || box.Height <= 0 {
		return 0
	}
	return int(b.shelf.Size.Height / box.Height)
}

// capacity finds how many piles, of those that are asked for, have room beside the
// plan's for a whole span.
func (b *board) capacity(a *asking, span resources.Span, layers int) capacity {
	var walls []shelf.Placed
	var name strings.Builder
	for i, p := range b.piles {
		if p.span.Overlaps(span) {
			walls = append(walls, p.at)
			fmt.Fprintf(&name, "%d ", i)
		}
	}
	if c, ok := b.known[name.String()]; ok {
		return c
	}
	floor := shelf.Rect{W: int64(b.shelf.Size.Width), D: int64(b.shelf.Size.Depth)}
	box := shelf.Rect{W: int64(a.q.Box.Width), D: int64(a.q.Box.Depth)}
	want := (a.q.Count + layers - 1) / layers
	if area := box.W * box.D; floor.W <= shelf.Longest && floor.D <= shelf.Longest && box.W <= floor.W+floor.D && box.D <= floor.W+floor.D {
		want = int(min(int64(want), floor.W*floor.D/area+1)) // more have not even the area
	}
	// stand piles have room and too is more than have; what was given up lies between.
	c, too := capacity{most: want}, want+1
	for next := want; next > c.stand; next = (c.stand + too) / 2 {
		at, answer, spent := shelf.Fit(floor, walls, equalBoxes(box, next), min(a.left, shelf.DefaultBudget))
		a.left, a.spent = a.left-spent, a.spent+spent
		switch answer {
		case shelf.Yes:
			c.stand, c.at = next, at
			continue
		case shelf.No:
			c.most = next - 1
		}
		too = next
	}
	b.known[name.String()] = c
	return c
}

func equalBoxes(box shelf.Rect, n int) []shelf.Rect {
	boxes := make([]shelf.Rect, n)
	for i := range boxes {
		boxes[i] = box
	}
	return boxes
}

// stack puts at most most boxes on a shelf: on what stands there, then on piles of their own, one
// after another.
func (r *room) stack(i int, tops []top, c capacity, layers, most int) []schedule.Standing {
	var out []schedule.Standing
	put := func(p shelf.Placed, below, room int) {
		for layer := below + 1; layer <= below+room && len(out) < most; layer++ {
			out = append(out, schedule.Standing{Place: r.place.Name, Shelf: r.shelves[i].shelf.Name,
				X: resources.Micrometres(p.X), Y: resources.Micrometres(p.Y),
				Width: resources.Micrometres(p.W), Depth: resources.Micrometres(p.D), Layer: layer})
		}
	}
	for _, t := range tops {
		put(t.at, t.below, t.room)
	}
	for _, p := range c.at {
		put(p, 0, layers)
	}
	return out
}
