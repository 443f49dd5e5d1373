package coldroom

import (
	"slices"

	"ripeby/resources"
	"ripeby/resources/shelf"
)

// top is a pile of the plan's on which boxes that are asked for may stand: so many below when they
// come, and room for so many all their time.
type top struct {
	at          shelf.Placed
	below, room int
}

// stacking is what the boxes asked for may stand on.
func (a *asking) stacking() resources.Stacking {
	for i := range a.kitchen.Boxes {
		if b := &a.kitchen.Boxes[i]; b.Name == a.q.Kind {
			return b.Stack
		}
	}
	return resources.StackBatch
}

// stacked is how many of the boxes asked for may stand on one another, of so many that the shelf is
// high for.
func (a *asking) stacked(layers int) int {
	if a.stacking() == resources.StackNo {
		return min(layers, 1)
	}
	return layers
}

// tops lists the piles of a shelf on which boxes of the kind asked for may stand for a whole span: in
// their spot nothing but such boxes stands in that time, and never as many as the shelf is high for.
func (b *board) tops(a *asking, span resources.Span, layers int) []top {
	if a.stacking() != resources.StackKind {
		return nil
	}
	var out []top
	for i, p := range b.piles {
		if !p.span.Overlaps(span) || slices.ContainsFunc(out, func(t top) bool { return t.at == p.at }) {
			continue
		}
		if t := (top{p.at, b.boxesAt(p.at, span.From), layers - b.mostAt(a, i, span, layers)}); t.room > 0 {
			out = append(out, t)
		}
	}
	return out
}

// mostAt is the most boxes that are in a pile's spot at one moment of a span; all layers where
// something else stands there.
func (b *board) mostAt(a *asking, i int, span resources.Span, layers int) int {
	at, box := b.piles[i].at, a.q.Box
	along := at.W == int64(box.Width) && at.D == int64(box.Depth)
	across := at.W == int64(box.Depth) && at.D == int64(box.Width)
	if !along && !across {
		return layers
	}
	most := 0
	for _, o := range b.piles {
		if !o.span.Overlaps(span) || o.at.X >= at.X+at.W || at.X >= o.at.X+o.at.W || o.at.Y >= at.Y+at.D || at.Y >= o.at.Y+o.at.D {
			continue
		}
		if o.at != at || o.kind != a.q.Kind {
			return layers
		}
		most = max(most, b.boxesAt(at, max(o.span.From, span.From)))
	}
	return most
}

// boxesAt is how many boxes are in a spot at a moment.
func (b *board) boxesAt(at shelf.Placed, m resources.Moment) int {
	n := 0
	for _, o := range b.piles {
		if o.at == at && o.span.From <= m && m < o.span.Until {
			n += o.boxes
		}
	}
	return n
}
