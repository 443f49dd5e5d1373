package judge

import (
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// A stuck batch goes no further because within the patience no later moment exists for it
// at all. That is doubted where it certainly could go on beside the other begun batches as
// they are: what is planned anew would give way to it. Two ways are looked at. It may wait
// until all others are gone but those that are stuck themselves, which keep what they have
// for good; or it may go on at once with what no other ever has.

// checkStuck: a batch said to be stuck has no way on that is certain.
func checkStuck(h *hearing) {
	for _, l := range h.lots {
		if l.sound && l.stuck && (h.goesOn(l, h.othersGone(l)) || h.goesOn(l, h.othersThere(l))) {
			h.failLot("stuck-unfounded", l, "got a batch that goes no further, want its next stages: there are hours and kit for them")
		}
	}
}

// beside is what others leave to a batch: the moment from which it takes anything anew, and
// what they keep.
type beside struct {
	after resources.Moment
	held  map[string]int // of each thing
	boxes map[string]int // in each place
	taken map[[2]string]bool
}

// keeps adds a thing that is kept, or boxes where they stand.
func (b *beside) keeps(uses []schedule.Occupied, boxes []schedule.Standing) {
	for _, u := range uses {
		b.held[u.Thing] += u.Count
	}
	for _, s := range boxes {
		b.boxes[s.Place]++
		b.taken[[2]string{s.Place, s.Shelf}] = true
	}
}

// othersGone is what is left to a batch when stock and the other begun batches have gone:
// the stuck ones still keep their kit and their place.
func (h *hearing) othersGone(l *lot) beside {
	b := beside{h.from, map[string]int{}, map[string]int{}, map[[2]string]bool{}}
	for i := range h.plan.Stock {
		kind, _ := h.stockBoxes(i)
		_, clean, _ := h.owned(kind)
		b.after = max(b.after, h.plan.Stock[i].Ends.Add(clean))
	}
	for _, x := range h.sitters {
		if x.lot != l && x.closing != nil {
			b.after = max(b.after, x.until)
		}
	}
	for _, o := range h.others(l) {
		for i := range o.batch.Stages {
			t := &o.batch.Stages[i]
			for _, u := range t.Uses {
				if h.keptForever(o, i, u.Thing) {
					b.keeps([]schedule.Occupied{u}, nil)
				} else {
					b.after = max(b.after, u.CleanUntil)
				}
			}
			if o.endless(i) {
				b.keeps(nil, t.BoxesAt)
			} else {
				b.after = max(b.after, t.Ends)
			}
		}
	}
	return b
}

// othersThere is what stock and the other begun batches never have.
func (h *hearing) othersThere(l *lot) beside {
	b := beside{h.from, map[string]int{}, map[string]int{}, map[[2]string]bool{}}
	for i := range h.plan.Stock {
		kind, count := h.stockBoxes(i)
		b.keeps([]schedule.Occupied{{Thing: kind, Count: count}}, h.plan.Stock[i].BoxesAt)
	}
	for i := range h.plan.Carries {
		b.keeps(nil, h.plan.Carries[i].Stood)
	}
	for _, o := range h.others(l) {
		for i := range o.batch.Stages {
			b.keeps(o.batch.Stages[i].Uses, o.batch.Stages[i].BoxesAt)
		}
	}
	return b
}

// others are the begun batches beside one.
func (h *hearing) others(l *lot) []*lot {
	return slices.DeleteFunc(slices.Clone(h.lots), func(o *lot) bool { return o == l || !o.sound || o.past == nil })
}

// goesOn reports whether the rest of a stuck batch can certainly be done beside the others.
// It works with spans of possible starts, both ends included: lengths and limits are whole
// grid steps, so the spans stay on the grid.
func (h *hearing) goesOn(l *lot, b beside) bool {
	if !h.ownsRest(l, b) {
		return false
	}
	latest := h.latestStarts(l)
	all := resources.Minutes(0)
	for k := l.begun; k < len(latest); k++ {
		all += h.workOf(l, k)
	}
	done := l.work(l.begun - 1).Until
	least, _ := limits(l.recipe, l.begun-1, h.step)
	starts := []resources.Span{{From: max(h.from, done.Add(least)), Until: latest[l.begun]}}
	if h.follows(l, l.begun) {
		starts[0].Until = min(starts[0].Until, h.longest(l, l.begun-1, done))
	}
	for k := l.begun; k < len(latest); k++ {
		if !h.follows(l, k) {
			starts = meet(starts, []resources.Span{{From: b.after, Until: latest[k]}})
		}
		work := h.workOf(l, k)
		starts = h.onGrid(meet(starts, h.possible(l, k, work, all, latest[k])))
		least, most := h.always(l, k)
		for n, s := range starts {
			s = resources.Span{From: s.From.Add(work + least), Until: s.Until.Add(work + most)}
			if k+1 < len(latest) && !h.follows(l, k+1) { // late, if need be; those before it may last as long as they can
				s.Until = latest[k+1]
			}
			starts[n] = s
		}
	}
	return len(starts) > 0
}

// possible lists when the work of stage k may start by somebody's hours, rounds and work on
// what has begun; any time when there is no work. Who has a most per day is certain to be
// within it only on a day without such work and with room for all that the batch still needs.
func (h *hearing) possible(l *lot, k int, work, all resources.Minutes, until resources.Moment) []resources.Span {
	if work == 0 {
		return []resources.Span{{From: h.from, Until: until}}
	}
	may := l.recipe.Stages[k].Who
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
		if p.MostPerDay >= 0 && all+h.roundLength() > p.MostPerDay {
			continue
		}
		kept := h.busy(i, p.MostPerDay >= 0)
		for _, b := range append(append(h.lookBlocks(), h.carryBlocks()...), rounds...) {
			if b.person == i {
				kept = append(kept, b.span)
			}
		}
		for _, s := range without(p.free, kept) {
			if s.Length() >= work {
				out = append(out, resources.Span{From: s.From, Until: s.Until - resources.Moment(work)})
			}
		}
	}
	return out
}

// busy is a person's work on what has begun; the whole day of it where days count.
func (h *hearing) busy(who int, days bool) []resources.Span {
	var out []resources.Span
	for _, x := range h.pieces() {
		if x.person != who || x.lot.past == nil {
			continue
		}
		out = append(out, x.span)
		if d := dayIn(x.span.From, h.zone); days {
			out = append(out, resources.Span{From: wallClock(h.zone, d, 0), Until: wallClock(h.zone, d+1, 0)})
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
	var out []resources.Span
	slices.SortFunc(spans, func(a, b resources.Span) int { return int(a.From - b.From) })
	for _, s := range spans {
		s.From, s.Until = h.gridAfter(s.From), h.gridBefore(s.Until)
		switch n := len(out); {
		case s.From > s.Until:
		case n > 0 && s.From <= out[n-1].Until.Add(h.step):
			out[n-1].Until = max(out[n-1].Until, s.Until)
		default:
			out = append(out, s)
		}
	}
	return out
}

// ownsRest reports whether the kitchen certainly has the kit and the space that the rest of
// a stuck batch needs, beside what others keep. Where it is not certain the batch has a case.
func (h *hearing) ownsRest(l *lot, b beside) bool {
	used := map[string]int{}
	for _, x := range runs(l.recipe, len(l.recipe.Stages)) {
		if x.last < l.begun-1 {
			continue
		}
		// One run of a thing may still be in hand, or being cleaned, when the next
		// begins: only what is enough for all of them is certain.
		enough := false
		for _, thing := range h.names(l, x) {
			used[thing] += h.count(l, x)
			have, _, ok := h.owned(thing)
			if ok && used[thing]+b.held[thing] > have {
				if len(h.names(l, x)) == 1 {
					return false
				}
				continue
			}
			enough = enough || ok
		}
		if x.first >= l.begun && h.count(l, x) > 0 && !enough {
			return false
		}
	}
	for i := l.begun; i < len(l.recipe.Stages); i++ {
		at := l.recipe.Stages[i].At
		fits := slices.ContainsFunc(h.places(at), func(place string) bool {
			return at.Kind == schedule.AtRoom || h.certainRoom(place, l.boxing(i), b) >= l.boxes(i)
		})
		if !fits {
			return false
		}
	}
	return true
}

// certainRoom is how many boxes a place that is never closed takes at least, beside those
// that others keep there: on a shelf without any, rows and columns of boxes that stand the
// same way.
func (h *hearing) certainRoom(name string, kind *schedule.Boxing, b beside) int {
	place := h.cold(name)
	if place == nil || kind == nil || len(place.Taken) > 0 {
		return 0
	}
	if !place.Measured() {
		return place.Boxes - b.boxes[name]
	}
	box := h.boxNamed(kind.Name)
	if box == nil || box.Size.Width <= 0 || box.Size.Depth <= 0 || box.Size.Height <= 0 {
		return 0
	}
	n, size := int64(0), box.Size
	for _, s := range place.Shelves {
		if len(s.Taken) == 0 && !b.taken[[2]string{name, s.Name}] {
			along := int64(s.Size.Width/size.Width) * int64(s.Size.Depth/size.Depth)
			across := int64(s.Size.Width/size.Depth) * int64(s.Size.Depth/size.Width)
			n += max(along, across) * int64(high(s.Size.Height, box))
		}
	}
	return int(n)
}
