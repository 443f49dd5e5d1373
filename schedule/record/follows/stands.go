package follows

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/record"
)

// standsAt takes over where a batch is said to stand, but of what was carried since. Where the plan
// before was to have it carried there, it is taken to stand as that has it.
func (f *follower) standsAt(x *batch, e *record.Entry) {
	said := e.Batch.Stands.Value
	for i := range x.batch.Stages {
		t := &x.batch.Stages[i]
		if x.recipe.Stages[i].At.Kind == schedule.AtRoom || t.Carried > e.At {
			continue
		}
		if t.At != said.Place {
			t.At, t.BoxesAt = said.Place, nil
			if e := f.p.Earlier; e != nil {
				if was := e.Batch(x.id).Stage(t.Stage); was != nil && was.At == said.Place {
					t.BoxesAt = was.BoxesAt
				}
			}
		}
		elsewhere := func(b schedule.Standing) bool { return b.Shelf != said.Shelf }
		if said.Shelf != "" && (len(t.BoxesAt) == 0 || slices.ContainsFunc(t.BoxesAt, elsewhere)) {
			t.BoxesAt = f.onShelf(said, needs.BoxOf(x.recipe, &x.recipe.Stages[i]), x.batch.Pieces)
		}
	}
}

// onShelf puts boxes on a shelf, in rows from its left front corner, as nobody said where on it they
// are; nil where they do not go on it so.
func (f *follower) onShelf(at record.Stand, box *schedule.Boxing, pieces int) []schedule.Standing {
	k := &f.p.Kitchen
	place := slices.IndexFunc(k.Cold, func(c resources.ColdPlace) bool { return c.Name == at.Place })
	if place < 0 || box == nil {
		return nil
	}
	shelf := slices.IndexFunc(k.Cold[place].Shelves, func(s resources.Shelf) bool { return s.Name == at.Shelf })
	kind := slices.IndexFunc(k.Boxes, func(b resources.Box) bool { return b.Name == box.Name })
	if shelf < 0 || kind < 0 {
		return nil
	}
	room, size, n := k.Cold[place].Shelves[shelf].Size, k.Boxes[kind].Size, needs.Boxes(box, pieces)
	if size.Width <= 0 || size.Depth <= 0 || size.Height <= 0 {
		return nil
	}
	layers := int(room.Height / size.Height)
	if k.Boxes[kind].Stack == resources.StackNo {
		layers = min(layers, 1)
	}
	for _, side := range [][2]resources.Micrometres{{size.Width, size.Depth}, {size.Depth, size.Width}} {
		across := int(room.Width / side[0])
		if across*int(room.Depth/side[1])*layers < n {
			continue
		}
		out := make([]schedule.Standing, n)
		for i := range out {
			spot := i / layers
			out[i] = schedule.Standing{Place: at.Place, Shelf: at.Shelf, X: resources.Micrometres(spot%across) * side[0], Y: resources.Micrometres(spot/across) * side[1],
				Width: side[0], Depth: side[1], Layer: i%layers + 1}
		}
		return out
	}
	return nil
}
