package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// A stuck batch goes no further because no later moment exists for it at all. Its
// rest is tried here in a kitchen of its own: only people's hours, the rounds and
// the holds' limits count, and the kitchen must own what the rest needs. If the
// rest can be done there, nothing but another batch stands in the way, and that
// goes away in time, unless it is stuck itself.

// patience is how long after the planning start, the batch's own holds apart, a
// moment for the rest of a stuck batch is looked for.
const patience = 60 * resources.Day

// checkStuck: of the batches said to be stuck, one at least has no way on by
// itself; the others may wait for what that one holds.
func checkStuck(h *hearing) {
	var free []*lot
	for _, l := range h.lots {
		if l.sound && l.stuck {
			if !h.goesOn(l) {
				return
			}
			free = append(free, l)
		}
	}
	for _, l := range free {
		if h.heldUp(l) {
			continue // each of them waits for what another holds
		}
		h.failLot("stuck-unfounded", l, "got a batch that goes no further, want its next stages: there are hours and kit for them")
	}
}

// heldUp reports whether the rest of a stuck batch needs kit that other stuck
// batches hold for good.
func (h *hearing) heldUp(l *lot) bool {
	held := map[string]int{}
	for _, o := range h.lots {
		for i := 0; o != l && o.sound && o.stuck && i < len(o.batch.Stages); i++ {
			for _, u := range o.batch.Stages[i].Uses {
				if h.keptForever(o, i, u.Thing) {
					held[u.Thing] += u.Count
				}
			}
		}
	}
	own := runs(l.recipe, len(l.recipe.Stages))
	for _, x := range own {
		// What the batch gives back only when this run has begun is not there for it.
		inHand := 0
		for _, y := range own {
			if y.first < l.begun && y.last == x.first-1 && slices.Equal(h.names(l, y), h.names(l, x)) {
				inHand += h.count(l, y)
			}
		}
		left := slices.ContainsFunc(h.names(l, x), func(thing string) bool {
			have, _, ok := h.owned(thing)
			return ok && have-held[thing]-inHand >= h.count(l, x)
		})
		if x.first >= l.begun && h.count(l, x) > 0 && !left {
			return true
		}
	}
	return false
}

// goesOn reports whether the rest of a stuck batch can certainly be done when the
// kitchen has nothing else to do. It works with spans of possible starts, both ends
// included: lengths and limits are whole grid steps, so the spans stay on the grid.
func (h *hearing) goesOn(l *lot) bool {
	if !h.ownsRest(l) {
		return false
	}
	i := l.begun - 1
	running := &l.batch.Stages[i]
	least, _ := limits(l.recipe, i, h.step)
	until := h.from.Add(patience)
	for k := l.begun; k < len(l.recipe.Stages); k++ {
		_, most := limits(l.recipe, k, h.step)
		until = until.Add(most + workLength(l.recipe, k, l.batch.Litres, l.batch.Pieces, h.step))
	}
	until = min(until, h.from.Add(Reach))
	all := resources.Minutes(0)
	for k := l.begun; k < len(l.recipe.Stages); k++ {
		all += workLength(l.recipe, k, l.batch.Litres, l.batch.Pieces, h.step)
	}
	starts := []resources.Span{{From: max(h.from, running.Start.Add(running.Work+least)), Until: until}}
	for k := l.begun; k < len(l.recipe.Stages); k++ {
		work := workLength(l.recipe, k, l.batch.Litres, l.batch.Pieces, h.step)
		starts = h.onGrid(meet(starts, h.possible(l.recipe.Stages[k].Who, work, all, until)))
		least, most := limits(l.recipe, k, h.step)
		for n := range starts {
			starts[n].From = starts[n].From.Add(work + least)
			starts[n].Until = starts[n].Until.Add(work + most)
		}
	}
	return len(starts) > 0
}

// possible lists when work of the length may start by somebody's hours and rounds;
// any time when there is no work. Who has a most per day is certain to be within
// it only when it has room for all that the batch still needs.
func (h *hearing) possible(may []string, work, all resources.Minutes, until resources.Moment) []resources.Span {
	if work == 0 {
		return []resources.Span{{From: h.from, Until: until}}
	}
	var out []resources.Span
	first, last := dayIn(h.from, h.zone)-3, dayIn(until, h.zone)+3
	far := &hearing{kitchen: h.kitchen, zone: h.zone}
	for i := range h.kitchen.People {
		p := &h.kitchen.People[i]
		far.people = append(far.people, person{Person: p, free: without(windows(h.zone, p.Hours, first, last), p.Away)})
	}
	rounds := far.roundBlocks(first, last)
	for i, p := range far.people {
		if len(may) > 0 && !slices.Contains(may, p.Name) {
			continue
		}
		var kept []resources.Span
		for _, b := range rounds {
			if b.person == i {
				kept = append(kept, b.span)
			}
		}
		if p.MostPerDay >= 0 && all+h.roundLength() > p.MostPerDay {
			continue
		}
		for _, s := range without(p.free, kept) {
			if s.Length() >= work {
				out = append(out, resources.Span{From: s.From, Until: s.Until - resources.Moment(work)})
			}
		}
	}
	return out
}

func (h *hearing) roundLength() resources.Minutes {
	if h.kitchen.Round == nil {
		return 0
	}
	return h.kitchen.Round.For
}

// meet gives what spans of both lists share, both ends included.
func meet(a, b []resources.Span) []resources.Span {
	var out []resources.Span
	for _, x := range a {
		for _, y := range b {
			if s := (resources.Span{From: max(x.From, y.From), Until: min(x.Until, y.Until)}); s.From <= s.Until {
				out = append(out, s)
			}
		}
	}
	return out
}

// onGrid narrows spans to the grid moments in them and joins those that overlap.
func (h *hearing) onGrid(spans []resources.Span) []resources.Span {
	step := resources.Moment(h.step)
	var out []resources.Span
	slices.SortFunc(spans, func(a, b resources.Span) int { return int(a.From - b.From) })
	for _, s := range spans {
		s.From, s.Until = (s.From+step-1)/step*step, s.Until/step*step
		switch n := len(out); {
		case s.From > s.Until:
		case n > 0 && s.From <= out[n-1].Until+step:
			out[n-1].Until = max(out[n-1].Until, s.Until)
		default:
			out = append(out, s)
		}
	}
	return out
}

// ownsRest reports whether the kitchen certainly has the kit and the space that the
// rest of a stuck batch needs. Where it is not certain the batch has a case.
func (h *hearing) ownsRest(l *lot) bool {
	used := map[string]int{}
	for _, x := range runs(l.recipe, len(l.recipe.Stages)) {
		if x.last < l.begun-1 {
			continue
		}
		// One run of a thing may still be in hand, or being cleaned, when the next
		// begins: only what is enough for all of them is certain.
		for _, thing := range h.names(l, x) {
			used[thing] += h.count(l, x)
			if have, _, ok := h.owned(thing); ok && used[thing] > have {
				return false
			}
		}
		if x.last < l.begun {
			continue
		}
		enough := slices.ContainsFunc(h.names(l, x), func(thing string) bool {
			have, _, ok := h.owned(thing)
			return ok && have >= h.count(l, x)
		})
		if !enough {
			return false
		}
	}
	for i := l.begun; i < len(l.recipe.Stages); i++ {
		at := l.recipe.Stages[i].At
		fits := slices.ContainsFunc(h.places(at), func(place string) bool {
			return at.Kind == schedule.AtRoom || h.certainRoom(place, l.boxing(i)) >= l.boxes(i)
		})
		if !fits {
			return false
		}
	}
	return true
}

// certainRoom is how many boxes a place that is never closed takes at least: rows
// and columns of boxes that stand the same way.
func (h *hearing) certainRoom(name string, kind *schedule.Boxing) int {
	place := h.cold(name)
	if place == nil || kind == nil || len(place.Taken) > 0 {
		return 0
	}
	if !place.Measured() {
		return place.Boxes
	}
	box := h.boxNamed(kind.Name)
	if box == nil || box.Size.Width <= 0 || box.Size.Depth <= 0 || box.Size.Height <= 0 {
		return 0
	}
	n, b := int64(0), box.Size
	for _, s := range place.Shelves {
		if len(s.Taken) == 0 {
			along := int64(s.Size.Width/b.Width) * int64(s.Size.Depth/b.Depth)
			across := int64(s.Size.Width/b.Depth) * int64(s.Size.Depth/b.Width)
			n += max(along, across) * int64(s.Size.Height/b.Height)
		}
	}
	return int(n)
}
