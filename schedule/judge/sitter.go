package judge

import (
	"slices"
	"strings"

	"ripeby/resources"
	"ripeby/schedule"
)

// sitter is cheese that stands in the cold at the planning start: the boxes of a begun batch's running
// stage, or of an entry of stock. Where it stands is closed while closing is not nil.
type sitter struct {
	lot    *lot // nil for stock
	stage  int  // that runs
	stock  int  // -1 for a batch
	name   string
	cheese string
	kind   string
	count  int
	place  *resources.ColdPlace // where it stands
	at     string               // where the plan has it
	boxes  []schedule.Standing  // and its boxes
	known  []schedule.Standing  // its boxes by the plan before; nil where that does not tell
	places []string             // where it may be carried to
	since  resources.Moment     // it stands there, not before the planning start
	until  resources.Moment     // if all its holds last as long as they may
	goes   resources.Moment     // by the plan before, if that is still to come; else until
	ends   resources.Moment     // by the plan
	carry  *schedule.Carry      // that the plan lists

	closing *resources.Span
	moved   resources.Moment // it is to stand elsewhere from then on
}

// sitting lists what stands in the cold, batches by id, then stock as it is listed.
func (h *hearing) sitting() []*sitter {
	var out []*sitter
	for _, l := range h.lots {
		if l.sound && l.past != nil && l.begun > 0 {
			if x := h.sitterIn(l); x != nil {
				out = append(out, x)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b *sitter) int { return strings.Compare(a.lot.batch.ID, b.lot.batch.ID) })
	for i := range h.plan.Stock {
		if x := h.sitterOfStock(i); x != nil {
			out = append(out, x)
		}
	}
	for _, x := range out {
		for i := range h.plan.Carries {
			if c := &h.plan.Carries[i]; x.lot != nil && c.Batch == x.lot.batch.ID || x.lot == nil && c.OfStock() && c.Stock == x.stock {
				x.carry = c
			}
		}
		h.close(x)
	}
	return out
}

// sitterIn is the boxes of a batch's running stage; nil for none.
func (h *hearing) sitterIn(l *lot) *sitter {
	k := l.begun - 1
	t, box := &l.batch.Stages[k], l.boxing(k)
	if l.recipe.Stages[k].At.Kind == schedule.AtRoom || box == nil || l.boxes(k) == 0 {
		return nil
	}
	x := &sitter{lot: l, stage: k, stock: -1, name: l.batch.ID, cheese: l.batch.Cheese, kind: box.Name, count: l.boxes(k), at: t.At, boxes: t.BoxesAt}
	first, last := k, k
	for first > 0 && l.restsOn(first) {
		first--
	}
	for last+1 < len(l.recipe.Stages) && l.restsOn(last+1) {
		last++
	}
	for _, place := range h.places(l.recipe.Stages[first].At) {
		ok := true
		for i := first; i <= last; i++ {
			ok = ok && slices.Contains(h.places(l.recipe.Stages[i].At), place)
		}
		if ok {
			x.places = append(x.places, place)
		}
	}
	was := h.wentTask(l, k)
	from := ""
	switch {
	case l.past.at != "" && h.cold(l.past.at) != nil:
		from = l.past.at
	case was != nil && h.cold(was.At) != nil:
		from = was.At
	case len(x.places) > 0:
		from = x.places[0]
	}
	if x.place = h.cold(from); x.place == nil {
		return nil
	}
	if was != nil && was.At == from {
		x.known = was.BoxesAt
	}
	x.since = max(h.from, l.work(first).Until)
	x.until = l.work(k).Until
	for i := k; i <= last; i++ {
		x.until = x.until.Add(h.heldLongest(l, i))
	}
	for i := k; i <= last && i < len(l.batch.Stages); i++ {
		x.ends = l.stay(i).Until
	}
	x.goes = x.until
	if e := h.problem.Earlier; e != nil {
		if t := e.Batch(l.batch.ID).Stage(l.recipe.Stages[last].Name); t != nil && t.Ends >= h.from && t.Ends < x.goes {
			x.goes = t.Ends
		}
	}
	return x
}

// restsOn reports whether stage i goes on by itself with the stay before it.
func (l *lot) restsOn(i int) bool {
	w := l.recipe.Stages[i].Hands
	return l.waits(i-1) && (w == nil || w.Fixed == 0 && w.PerLitre == 0 && w.PerPiece == 0)
}

// heldLongest is how long the hold of stage i may last; the store after packing as long as the cheese
// keeps.
func (h *hearing) heldLongest(l *lot, i int) resources.Minutes {
	_, most := limits(l.recipe, i, h.step)
	switch {
	case l.last(i) && l.recipe.Stages[i].Hold == nil:
		return l.recipe.Keeps
	case l.last(i):
		return min(most, l.recipe.Keeps)
	}
	return most
}

// sitterOfStock is an entry of stock that keeps and stands in the cold; nil for any other.
func (h *hearing) sitterOfStock(i int) *sitter {
	kind, count := h.stockBoxes(i)
	if i >= len(h.problem.Stock) || kind == "" || count == 0 {
		return nil
	}
	s, use := &h.problem.Stock[i], &h.plan.Stock[i]
	r := h.problem.Recipe(s.Cheese)
	place := h.cold(s.At)
	if place == nil || s.Packed.Add(r.Keeps) < h.from {
		return nil
	}
	x := &sitter{stock: i, name: s.Cheese, cheese: s.Cheese, kind: kind, count: count, place: place, at: use.At, boxes: use.BoxesAt,
		since: max(h.from, s.Packed), until: s.Packed.Add(r.Keeps), ends: use.Ends}
	if at := r.Stages[len(r.Stages)-1].At; at.Kind != schedule.AtRoom {
		x.places = h.places(at)
	}
	x.goes = x.until
	if e := h.problem.Earlier; e != nil {
		for k := range e.Stock {
			if o := &e.Stock[k]; o.Cheese == s.Cheese && o.Packed == s.Packed && o.WrittenAt() == s.WrittenAt() && o.Ends >= h.from {
				x.goes = min(x.until, o.Ends)
			}
		}
	}
	if h.lived != nil {
		for k := range h.lived.Stock {
			if o := &h.lived.Stock[k]; o.Cheese == s.Cheese && o.Packed == s.Packed && o.At == s.At {
				x.known = o.BoxesAt
			}
		}
	}
	return x
}

// close finds the first closing of where cheese stands while it may stand there: of the place, or of
// a shelf with boxes of it.
func (h *hearing) close(x *sitter) {
	heed := func(closed []resources.Span) {
		for _, c := range merged(slices.Clone(closed)) {
			from := max(c.From, x.since)
			if from < c.Until && from < max(x.goes, x.since+1) && (x.closing == nil || from < x.moved) {
				x.closing, x.moved = &c, from
			}
		}
	}
	onShelves := func(boxes []schedule.Standing) {
		for _, s := range x.place.Shelves {
			if slices.ContainsFunc(boxes, func(b schedule.Standing) bool { return b.Place == x.place.Name && b.Shelf == s.Name }) {
				heed(s.Taken)
			}
		}
	}
	heed(x.place.Taken)
	onShelves(x.stood())
	if x.closing == nil && x.carry == nil && x.lot != nil && len(x.known) == x.count && h.couldStand(x.lot, x.stage, x.known, h.begunPiles()) {
		// What goes on before somebody could carry it is on another shelf without a carry.
		if onShelves(x.known); x.later() {
			x.closing = nil
		}
	}
}

// stood is where its boxes stand until they are carried, as far as the plan tells.
func (x *sitter) stood() []schedule.Standing {
	switch {
	case x.carry != nil:
		return x.carry.Stood
	case x.at == x.place.Name:
		return x.boxes
	}
	return nil
}

// later reports whether where it stands comes to be closed after the planning start.
func (x *sitter) later() bool { return x.moved > x.since }

// kept is when its new place is kept free for it.
func (x *sitter) kept() resources.Span {
	if x.until <= x.since {
		return resources.Span{From: x.moved, Until: forever}
	}
	return resources.Span{From: x.moved, Until: x.until}
}

// sitterOf is what stands of a batch; nil for nothing.
func (h *hearing) sitterOf(l *lot) *sitter {
	for _, x := range h.sitters {
		if x.lot == l {
			return x
		}
	}
	return nil
}

// stockSitter is what stands of an entry of stock; nil for nothing.
func (h *hearing) stockSitter(i int) *sitter {
	for _, x := range h.sitters {
		if x.lot == nil && x.stock == i {
			return x
		}
	}
	return nil
}

// carryOf is the carry of a batch; nil for none.
func (h *hearing) carryOf(l *lot) *schedule.Carry {
	if x := h.sitterOf(l); x != nil {
		return x.carry
	}
	return nil
}

// seat is boxes that stand somewhere for a time.
type seat struct {
	boxes []schedule.Standing
	span  resources.Span
	comes bool // then; else it goes on with the stage before
}

// in is how many of the boxes stand in a place.
func (s seat) in(place string) int {
	n := 0
	for _, b := range s.boxes {
		if b.Place == place {
			n++
		}
	}
	return n
}

// seatsOf is where the boxes of a stage stand. What is carried because of a later closing keeps its
// spot for as long as it is there, and its new one from the closing on for as long as it may be
// needed.
func (h *hearing) seatsOf(l *lot, i int) []seat {
	usual := seat{l.batch.Stages[i].BoxesAt, l.stay(i), l.stood(i) < 0}
	x := h.sitterOf(l)
	if x == nil || i < x.stage || l.head(i) > x.stage {
		return []seat{usual}
	}
	if x.carry != nil && x.later() {
		if i > x.stage {
			return nil
		}
		return []seat{{x.carry.Stood, resources.Span{From: usual.span.From, Until: x.ends}, usual.comes}, {usual.boxes, x.kept(), true}}
	}
	if i == x.stage && x.closing != nil && (x.carry != nil || x.at != x.place.Name) {
		usual.span.From, usual.comes = x.since, true
	}
	return []seat{usual}
}

// seats is where the boxes of an entry of stock stand.
func (x *sitter) seats(h *hearing) []seat {
	usual := seat{x.boxes, h.stockStay(x.stock), true}
	switch {
	case x.carry != nil && x.later():
		return []seat{{x.carry.Stood, usual.span, true}, {x.boxes, x.kept(), true}}
	case x.closing != nil && (x.carry != nil || x.at != x.place.Name):
		usual.span.From = x.since
	}
	return []seat{usual}
}
