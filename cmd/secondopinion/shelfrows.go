package main

import (
	"fmt"
	"slices"

	"ripeby/cmd/internal/generalsolver"
	"ripeby/resources"
)

// spaceRows are the shelves of all measured places, in whole measures of the boxes'
// sides, and the columns of boxes that may stand on them.
type spaceRows struct {
	side                   resources.Micrometres // the common measure
	shelfPlace, wide, deep []int
	layers                 [][]int // by kind of box and shelf
	shares                 []int   // by kind of box: 1 where boxes of several stays stand on one another
	boxWide, boxDeep       []int
	columnOf, columnBox    []int
	closings               []closing
}

// closing is a time in which a shelf, from 0, is taken.
type closing struct {
	shelf int
	span  resources.Span
}

// setSpace states the shelves. Boxes that are pushed left and front as far as they
// go stand at sums of their sides, so positions in the common measure of all sides
// are enough.
func (s *statement) setSpace() error {
	x, k := &s.space, &s.p.Kitchen
	side := resources.Micrometres(0)
	for _, b := range k.Boxes {
		side = gcd(gcd(side, b.Size.Width), b.Size.Depth)
	}
	side = max(side, 1)
	x.side = side
	for _, b := range k.Boxes {
		x.boxWide = append(x.boxWide, int(b.Size.Width/side))
		x.boxDeep = append(x.boxDeep, int(b.Size.Depth/side))
		x.layers = append(x.layers, nil)
		shares := 0
		if b.Stack == resources.StackKind {
			shares = 1
		}
		x.shares = append(x.shares, shares)
	}
	for c, place := range k.Cold {
		for _, shelf := range place.Shelves {
			for _, t := range shelf.Taken {
				x.closings = append(x.closings, closing{len(x.wide), t})
			}
			x.shelfPlace = append(x.shelfPlace, c)
			x.wide = append(x.wide, int(shelf.Size.Width/side))
			x.deep = append(x.deep, int(shelf.Size.Depth/side))
			for b, box := range k.Boxes {
				n := 0
				if box.Size.Height > 0 {
					n = int(shelf.Size.Height / box.Size.Height)
				}
				if box.Stack == resources.StackNo {
					n = min(n, 1)
				}
				x.layers[b] = append(x.layers[b], n)
			}
		}
	}
	return s.setColumns()
}

// setColumns gives every stay that may be on shelves as many columns as its boxes may need.
func (s *statement) setColumns() error {
	x := &s.space
	add := func(stay, box, n int, places []int) {
		if slices.ContainsFunc(places, func(c int) bool { return s.p.Kitchen.Cold[c].Measured() }) {
			for range s.columnsFor(box, n, places) {
				x.columnOf, x.columnBox = append(x.columnOf, stay), append(x.columnBox, box)
			}
		}
	}
	for i, t := range s.stays {
		add(i, t.box, t.most, t.places)
	}
	for i, t := range s.stock {
		if t.place >= 0 {
			add(len(s.stays)+i, t.kind, t.boxes, []int{t.place})
		}
	}
	if n := len(x.columnOf); n > maxColumns {
		return &refusal{"many boxes on shelves", fmt.Sprintf("%d stacks, at most %d are stated", n, maxColumns)}
	}
	return nil
}

// columnsFor is the most columns that n boxes may need: where they can be stacked on
// every shelf that takes them at all, as many a column as the lowest allows; one each where others
// may have left room for no more in each spot.
func (s *statement) columnsFor(box, n int, places []int) int {
	lowest := 0
	for i, c := range s.space.shelfPlace {
		if l := s.space.layers[box][i]; slices.Contains(places, c) && l > 0 && (lowest == 0 || l < lowest) {
			lowest = l
		}
	}
	if s.space.shares[box] > 0 && lowest > 0 {
		return n
	}
	return up(n, lowest)
}

func (s *statement) writeSpace(w *generalsolver.Values) {
	w.Note("shelves, in the common measure of the boxes' sides, and columns of boxes")
	x := &s.space
	w.Number("shelves", len(x.wide))
	w.Number("kinds", len(x.boxWide))
	w.Number("columns", len(x.columnOf))
	w.List("shelf_place", from1(x.shelfPlace))
	w.List("shelf_wide", x.wide)
	w.List("shelf_deep", x.deep)
	w.Table("layers", "1..kinds, 1..shelves", x.layers)
	w.List("shares", x.shares)
	w.List("box_wide", x.boxWide)
	w.List("box_deep", x.boxDeep)
	w.List("column_of", from1(x.columnOf))
	w.List("column_box", from1(x.columnBox))
	var shelf, from, until []int
	for _, c := range x.closings {
		shelf, from, until = append(shelf, c.shelf+1), append(from, s.at(c.span.From)), append(until, s.at(c.span.Until))
	}
	w.Number("shelf_closings", len(shelf))
	w.List("shelf_closed", shelf)
	w.List("shelf_closed_from", from)
	w.List("shelf_closed_until", until)
}

// up is a/b rounded up; 0 where b is none.
func up(a, b int) int {
	if b <= 0 {
		return 0
	}
	return (a + b - 1) / b
}
