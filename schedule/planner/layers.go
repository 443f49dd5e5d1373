package planner

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/needs"
)

// The engine knows spots and how many boxes are in them; a plan tells each box's layer: how many
// stand in its spot when it comes, plus one. Boxes that have come before the planning start keep the
// layer that they were told, for what they came to stand on may have left the plan.

// comes is the boxes of one stay, or of stock, with the lists that tell of them.
type comes struct {
	from, until resources.Moment
	told        [][]schedule.Standing // each stage's
	earlier     []schedule.Standing   // as the earlier plan told of them
}

// addLayers tells the layers of boxes in spots that others may share, in the order in which they
// come: stock first, then as the plan has them.
func (pl *Stated) addLayers(plan *schedule.Plan, r *problem.Result) {
	var all []comes
	carried := pl.carriesIn(r)
	for s, i := range pl.stocks {
		use := &plan.Stock[i]
		if st := &pl.model.Stocks[s]; st.Space >= 0 && pl.model.Kinds[st.Kind].Stack == problem.OnKind {
			x := comes{min(use.Packed, pl.p.From-1), use.Ends, [][]schedule.Standing{use.BoxesAt}, pl.stockWas(i)}
			all = append(all, x.asCarried(plan, carried, -1, s)...)
		}
	}
	for i := range r.Jobs {
		all = append(all, pl.comings(&plan.Batches[i], &r.Jobs[i], plan, carried)...)
	}
	all = slices.DeleteFunc(all, func(x comes) bool { return !onShelf(x.told[0]) })
	slices.SortStableFunc(all, func(a, b comes) int { return cmp.Compare(a.from, b.from) })
	for i := range all {
		x := &all[i]
		if x.from < pl.p.From && x.asTold() {
			continue
		}
		above := map[schedule.Standing]int{}
		for k, s := range x.told[0] {
			at := spotOf(s)
			above[at]++
			layer := above[at] + boxesBelow(all[:i], x.from, at)
			for _, told := range x.told {
				told[k].Layer = layer
			}
		}
	}
	for i := range plan.Batches {
		if b := &plan.Batches[i]; b.Begun {
			pl.dropCrowded(b)
		}
	}
}

// dropCrowded leaves out where boxes of a batch under way were to stand, if others that should have been
// gone stand there so high that they do not go on top.
func (pl *Stated) dropCrowded(b *schedule.Batch) {
	r := pl.p.Recipe(b.Cheese)
	for i := range b.Stages {
		t := &b.Stages[i]
		if !slices.ContainsFunc(t.BoxesAt, func(s schedule.Standing) bool { return pl.tooHigh(s, needs.BoxOf(r, &r.Stages[i])) }) {
			continue
		}
		t.BoxesAt = nil
		pl.note("boxes-do-not-fit", max(pl.p.From, t.Start.Add(t.Work)), "The boxes of %s (%s) were to stand in the %s where others still do. Put them where there is room, and say where: ripeby record stands.",
			b.ID, b.Cheese, t.At)
	}
}

// tooHigh reports whether a box stands higher than its shelf is.
func (pl *Stated) tooHigh(s schedule.Standing, box *schedule.Boxing) bool {
	space, floor := pl.floorOf(&s)
	return box != nil && floor >= 0 && int64(s.Layer)*pl.model.Kinds[pl.kindOf[box.Name]].Height > pl.model.Spaces[space].Floors[floor].Height
}

// comings are the stays of a batch that are on shelves.
func (pl *Stated) comings(b *schedule.Batch, j *problem.Job, plan *schedule.Plan, carried []toldCarry) []comes {
	c, mode := pl.chainOf(j), pl.engineMode(j)
	var u *underWay
	if j.Begun >= 0 {
		u = pl.under[j.Begun]
	}
	var out []comes
	for r, s := range c.stays {
		from, until, ok := j.Occupies(mode, mode.Stays[r].Occupied())
		if !ok || pl.model.Kinds[mode.Stays[r].Kind].Stack != problem.OnKind {
			continue
		}
		x := comes{from: pl.clock.moment(from), until: pl.clock.moment(until)}
		for i := range b.Stages {
			if over := u != nil && u.isOver(c, i); s.first <= c.actOf[i] && c.actOf[i] <= s.last && len(b.Stages[i].BoxesAt) > 0 && !over {
				x.told = append(x.told, b.Stages[i].BoxesAt)
				if u != nil && u.earlier != nil && i < len(u.earlier.Stages) {
					x.earlier = u.earlier.Stages[i].BoxesAt
				}
			}
		}
		switch {
		case len(x.told) == 0:
		case u != nil && r == pl.model.Begun[j.Begun].RunningStay():
			out = append(out, x.asCarried(plan, carried, j.Begun, -1)...)
		default:
			out = append(out, x)
		}
	}
	return out
}

// asCarried is boxes that may be carried: in their new place they come when they are, and before
// that they are where they stood.
func (x comes) asCarried(plan *schedule.Plan, carried []toldCarry, begun, stock int) []comes {
	for i := range carried {
		t := &carried[i]
		if t.begun != begun || t.stock != stock || !t.isMade() || t.isLater() && !t.isCarried() {
			continue
		}
		there := comes{from: t.moved, until: max(x.until, t.moved), told: x.told}
		if !t.isLater() {
			return []comes{there}
		}
		x.told = nil
		for k := range plan.Carries {
			if c := &plan.Carries[k]; c.Batch == t.Batch && c.Stock == t.Stock {
				x.told = append(x.told, c.Stood)
			}
		}
		return []comes{x, there}
	}
	return []comes{x}
}

// onShelf reports whether boxes stand on shelves: where they are counted none has a layer.
func onShelf(boxes []schedule.Standing) bool { return len(boxes) > 0 && boxes[0].Shelf != "" }

// isOver reports whether a stage is over of which the boxes stand elsewhere by now, or are no more.
func (u *underWay) isOver(c *chain, stage int) bool {
	return stage < len(u.starts)-1 && (u.moves || c.actOf[stage] != c.actOf[len(u.starts)-1])
}

// asTold gives boxes the layers that the earlier plan told, where it had them in the same spots.
func (x *comes) asTold() bool {
	n := len(x.told[0])
	if n > len(x.earlier) {
		return false
	}
	was, now := slices.Clone(x.earlier[:n]), slices.Clone(x.told[0])
	slices.SortFunc(was, compareBoxes)
	slices.SortFunc(now, compareBoxes)
	for i := range was {
		if spotOf(was[i]) != spotOf(now[i]) || was[i].Layer < 1 || i > 0 && was[i] == was[i-1] {
			return false
		}
	}
	for _, told := range x.told {
		copy(told, x.earlier)
	}
	return true
}

// compareBoxes orders boxes by spot, from the bottom.
func compareBoxes(a, b schedule.Standing) int {
	return cmp.Or(cmp.Compare(a.Place, b.Place), cmp.Compare(a.Shelf, b.Shelf), cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X),
		cmp.Compare(a.Width, b.Width), cmp.Compare(a.Depth, b.Depth), cmp.Compare(a.Layer, b.Layer))
}

// boxesBelow is how many boxes of stays that have come by a moment stand in a spot then.
func boxesBelow(come []comes, at resources.Moment, spot schedule.Standing) int {
	n := 0
	for _, o := range come {
		if at >= o.until {
			continue
		}
		for _, s := range o.told[0] {
			if spotOf(s) == spot {
				n++
			}
		}
	}
	return n
}

// spotOf is where a box stands, whatever its layer.
func spotOf(s schedule.Standing) schedule.Standing {
	s.Layer = 0
	return s
}
