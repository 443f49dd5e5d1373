package planner_test

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// closedNumbers is the first number of a tiny kitchen in which cheese stands where it is, or comes to
// be, closed.
const closedNumbers = 4_000_000

// closedKitchen draws the kitchen of such a number: the first of its dice that can be listed whole and
// in which something is to be carried. In turn they are like any other, planned again, with something
// overdue, and planned again when something was to be carried before. Those passed over are counted.
func closedKitchen(seed uint64, number int) (e *everyPlan, passed int) {
	d := &dice{Rand: rand.New(rand.NewPCG(seed, uint64(number))), tight: sides}
	for ; ; passed++ {
		most := int64(0)
		switch number / 5 % 4 {
		case 0:
			d.draw()
		case 1:
			if d.draw(); !d.planBefore() {
				continue
			}
		case 2:
			if most = -1; d.overdueKitchen(number%2 == 0, true) == nil || notYet(d.p) {
				continue
			}
		default:
			if d.draw(); !d.closeSome() || !d.planBefore() || len(d.p.Earlier.Carries) == 0 {
				continue
			}
		}
		if number/5%4 < 3 && !d.closeSome() {
			continue
		}
		e, ok := listLate(d.p, most)
		if !ok || !slices.ContainsFunc(e.sitters, func(x *everySitter) bool { return x.shut }) {
			continue
		}
		if _, ok := e.solve([sides]bool{}); ok {
			return e, passed
		}
	}
}

// closeSome closes a place in which something stands, now or for some hours soon, and has all of
// the boxes that there are counted in the others; it reports whether there is one.
func (d *dice) closeSome() bool {
	e := newEveryWorld(d.p)
	if len(e.sitters) == 0 {
		return false
	}
	x := oneOf(d, e.sitters...)
	c := e.placeNamed(x.at)
	from := d.p.From.Add(minutes(30 * oneOf(d, -d.n(0, 20), 0, d.n(0, 12), d.n(0, 40))))
	c.Taken = append(slices.Clone(c.Taken), resources.Span{From: from, Until: from.Add(minutes(30 * d.n(2, 96)))})
	if len(d.p.Kitchen.Cold) < 2 {
		d.p.Kitchen.Cold = append(d.p.Kitchen.Cold, resources.ColdPlace{Name: "cellar", Temperature: c.Temperature, Boxes: d.n(1, 3)})
		for r := range d.p.Recipes {
			all := d.chance(70) // what goes on by itself is where it was
			for i := range d.p.Recipes[r].Stages {
				if at := &d.p.Recipes[r].Stages[i].At; all && at.Kind == schedule.AtPlace {
					*at = schedule.At{Kind: schedule.AtRange, Low: c.Temperature - 1000, High: c.Temperature + 1000}
				}
			}
		}
	}
	return true
}

// carries reports whether the best plan carries something.
func (e *everyPlan) carries(x *everySitter) bool {
	if x.to == "" || !x.shut {
		return false
	}
	return slices.ContainsFunc(e.plan().Carries, func(c schedule.Carry) bool { return c.Batch == x.name || x.entry >= 0 && c.Stock == x.entry })
}

// everySitter is cheese that stands in the cold at the planning start: its boxes, since when, and until
// when if nothing of it is late. Where that is closed meanwhile it is to be carried to another place,
// if one takes it, and its new place is kept free for it.
type everySitter struct {
	under, entry int // of what is under way, of stock; -1 for none
	name, stage  string
	first, last  int // stages of the stay
	running      int
	box          string
	count        int
	at           string
	fit          []string // places that it may be in
	since, until resources.Moment
	goes         resources.Moment // by the plan before, if that is still to come; else until

	shut  bool // where it stands is closed, and somebody is there before it is open again
	moved resources.Moment
	to    string // "" where nothing takes it
	who   int
	start resources.Moment

	spots    []everyPile // where it stands, if that is known; nil else
	homeless bool        // it stands nowhere by the measures given
}

// for good is when nothing that is asked about is there any more.
const forGood = resources.Moment(1) << 40

// there is when it may be where it stands.
func (x *everySitter) there() resources.Span { return x.after(x.since) }

// after is the same from a moment on.
func (x *everySitter) after(from resources.Moment) resources.Span {
	if x.until <= x.since {
		return resources.Span{From: from, Until: forGood}
	}
	return resources.Span{From: from, Until: x.until}
}

// later reports whether it stands there for some time before that is closed.
func (x *everySitter) later() bool { return x.moved > x.since }

// everyOccupied is boxes in a place for a time.
type everyOccupied struct {
	place string
	count int
	span  resources.Span
	of    *everySitter
}

// allCarries finds what is carried where, and takes the time for it from who does it.
func (e *everyWorld) allCarries() {
	for i := range e.under {
		if x := e.sitterOf(i); x != nil {
			e.sitters = append(e.sitters, x)
		}
	}
	slices.SortStableFunc(e.sitters, func(a, b *everySitter) int { return cmp.Compare(a.name, b.name) })
	for i := range e.p.Stock {
		if x := e.stockSitter(i); x != nil {
			e.sitters = append(e.sitters, x)
		}
	}
	var there []everyOccupied
	for _, x := range e.sitters {
		there = append(there, everyOccupied{x.at, x.count, x.there(), x})
	}
	for _, x := range e.sitters {
		c := e.placeNamed(x.at)
		e.doubtful(c, x)
		for _, s := range resources.Merge(c.Taken) {
			if from := max(s.From, x.since); !x.shut && from < s.Until && from < max(x.goes, x.since+1) {
				x.moved = from
				x.who, x.start = e.firstFree(from)
				x.shut = x.who >= 0 && x.start < s.Until
				break
			}
		}
		if !x.shut {
			continue
		}
		others := slices.DeleteFunc(slices.Clone(there), func(o everyOccupied) bool { return o.of == x && !x.later() })
		for _, open := range []resources.Span{{From: x.moved, Until: max(x.until, x.moved+1)}, {From: x.moved, Until: x.moved + 1}} {
			for _, place := range x.fit {
				if x.to == "" && e.takes(x, place, open, others) {
					x.to = place
				}
			}
		}
		if x.to != "" {
			there = append(others, everyOccupied{x.to, x.count, x.after(x.moved), x})
			e.free[x.who] = resources.Subtract(e.free[x.who], []resources.Span{{From: x.start, Until: x.start.Add(resources.CeilLength(5, e.step))}})
		}
	}
}

func (e *everyWorld) placeNamed(name string) *resources.ColdPlace {
	return &e.p.Kitchen.Cold[slices.IndexFunc(e.p.Kitchen.Cold, func(c resources.ColdPlace) bool { return c.Name == name })]
}

// doubtful says that it cannot be listed what is carried: where only some shelves are open, and not
// all boxes surely stand on those.
func (e *everyWorld) doubtful(c *resources.ColdPlace, x *everySitter) {
	closes := func(s resources.Shelf) bool { return slices.ContainsFunc(s.Taken, x.there().Overlaps) }
	if !slices.ContainsFunc(c.Shelves, closes) {
		return
	}
	alone := !slices.ContainsFunc(e.sitters, func(o *everySitter) bool { return o != x && o.at == x.at })
	e.unsure = e.unsure || !alone || !e.fitsIn(c, x, x.there())
}

// fitsIn reports whether the boxes go on the shelves that are open all through a span.
func (e *everyWorld) fitsIn(c *resources.ColdPlace, x *everySitter, open resources.Span) bool {
	k := &e.p.Kitchen
	s := everyStay{place: slices.IndexFunc(k.Cold, func(o resources.ColdPlace) bool { return o.Name == c.Name }), boxes: x.count, from: 0, until: 1}
	s.box = slices.IndexFunc(k.Boxes, func(b resources.Box) bool { return b.Name == x.box })
	for i, shelf := range c.Shelves {
		if !slices.ContainsFunc(shelf.Taken, open.Overlaps) {
			s.open |= 1 << i
		}
	}
	return newEveryShelf(k).stand([]everyStay{s})
}

// takes reports whether a place that is open has room beside what is there.
func (e *everyWorld) takes(x *everySitter, place string, open resources.Span, others []everyOccupied) bool {
	c, kept := e.placeNamed(place), x.after(x.moved)
	if slices.ContainsFunc(c.Taken, open.Overlaps) {
		return false
	}
	beside := slices.DeleteFunc(slices.Clone(others), func(o everyOccupied) bool { return o.place != place || !o.span.Overlaps(kept) })
	if c.Measured() {
		if len(beside) > 0 || slices.ContainsFunc(c.Shelves, func(s resources.Shelf) bool { return len(s.Taken) > 0 }) {
			e.unsure = true // where those stand is not told
		}
		return e.fitsIn(c, x, open)
	}
	for _, at := range append(beside, everyOccupied{span: kept}) {
		n, now := x.count, max(at.span.From, kept.From)
		for _, o := range beside {
			if o.span.From <= now && now < o.span.Until {
				n += o.count
			}
		}
		if n > c.Boxes {
			return false
		}
	}
	return true
}

// firstFree is who can carry something first from a moment on, and when.
func (e *everyWorld) firstFree(from resources.Moment) (int, resources.Moment) {
	long := resources.CeilLength(5, e.step)
	for at := resources.CeilTo(from, e.step); at < from.Add(21*resources.Day) && at < e.there; at = at.Add(e.step) {
		for who := range e.p.Kitchen.People {
			if span := (resources.Span{From: at, Until: at.Add(long)}); e.mayWork(who, span) && !e.busyWithBegun(who, span) {
				return who, at
			}
		}
	}
	return -1, 0
}

// busyWithBegun reports whether somebody does work then that has begun.
func (e *everyWorld) busyWithBegun(who int, span resources.Span) bool {
	for i := range e.under {
		l := e.begunLister(&e.under[i])
		for k, start := range l.fixed {
			work := resources.Span{From: start, Until: start.Add(workMinutes(&l.r.Stages[k], l.litres, l.pieces, l.step))}
			if !work.Empty() && work.Overlaps(span) && l.hands(k, work)[0] == who {
				return true
			}
		}
	}
	return false
}

// sitterOf is what stands of a batch under way; nil for nothing.
func (e *everyWorld) sitterOf(i int) *everySitter {
	u := &e.under[i]
	l := e.begunLister(u)
	k := len(l.fixed) - 1
	box := boxingAt(l.r, k)
	if l.r.Stages[k].At.Kind == schedule.AtRoom || box == nil || l.pieces == 0 {
		return nil
	}
	x := &everySitter{under: i, entry: -1, name: u.ID, stage: l.r.Stages[k].Name, running: k, box: box.Name, count: filled(box, l.pieces)}
	goesOn := func(i int) bool {
		_, most := l.limits(l.r.Stages[i-1].Hold)
		return l.r.Stages[i].Hands == nil && most > 0
	}
	first, last := k, k
	for first > 0 && goesOn(first) {
		first--
	}
	for last+1 < len(l.r.Stages) && goesOn(last+1) {
		last++
	}
	x.fit = coldIn(&e.p.Kitchen, l.r.Stages[first].At)
	for i := first; i <= last; i++ {
		x.fit = slices.DeleteFunc(x.fit, func(place string) bool { return !slices.Contains(coldIn(&e.p.Kitchen, l.r.Stages[i].At), place) })
	}
	at := u.stoodAt(k, true, coldIn(&e.p.Kitchen, l.r.Stages[k].At))
	if len(at) == 0 {
		return nil
	}
	x.at = at[0]
	done := func(i int) resources.Moment {
		return l.fixed[i].Add(workMinutes(&l.r.Stages[i], l.litres, l.pieces, l.step))
	}
	x.since, x.until = max(e.from, done(first)), done(k)
	x.first, x.last = first, last
	for i := k; i <= last; i++ {
		_, most := l.limits(l.r.Stages[i].Hold)
		if i == len(l.r.Stages)-1 {
			if l.r.Stages[i].Hold == nil {
				most = l.r.Keeps
			}
			most = min(most, l.r.Keeps)
		}
		x.until = x.until.Add(most)
	}
	x.goes = x.until
	if t := e.p.Earlier.Batch(u.ID).Stage(l.r.Stages[last].Name); t != nil && t.Ends >= e.from {
		x.goes = min(x.goes, t.Ends)
	}
	return x
}

// stockSitter is an entry of stock that stands in the cold; nil for any other.
func (e *everyWorld) stockSitter(i int) *everySitter {
	s := &e.p.Stock[i]
	r := e.p.Recipe(s.Cheese)
	x := &everySitter{under: -1, entry: i, name: s.Cheese, count: s.Boxes, at: s.At, since: max(e.from, s.Packed), until: s.Packed.Add(r.Keeps)}
	for k := range r.Stages {
		if b := boxingAt(r, k); b != nil {
			x.box = b.Name
		}
	}
	if last := &r.Stages[len(r.Stages)-1]; last.At.Kind != schedule.AtRoom {
		x.fit = coldIn(&e.p.Kitchen, last.At)
	}
	if x.box == "" || x.count == 0 || s.At == "room" || x.until < e.from {
		return nil
	}
	x.goes = x.until
	if e.p.Earlier != nil {
		for _, o := range e.p.Earlier.Stock {
			if o.Cheese == s.Cheese && o.Packed == s.Packed && o.WrittenAt() == s.WrittenAt() && o.Ends >= e.from {
				x.goes = min(x.until, o.Ends)
			}
		}
	}
	return x
}

// sitter is what stands of a batch under way or of stock; nil for nothing.
func (e *everyWorld) sitter(under, entry int) *everySitter {
	for _, x := range e.sitters {
		if x.under == under && x.entry == entry {
			return x
		}
	}
	return nil
}

// mine is what stands of the lister's batch.
func (l *lister) mine() *everySitter {
	for i := range l.under {
		if l.begun != nil && l.under[i].ID == l.begun.ID {
			return l.sitter(i, -1)
		}
	}
	return nil
}

// kept is the place that is kept free for what may be carried there later.
func (e *everyWorld) kept(x *everySitter) ([]everyClaim, []everyStay) {
	if x == nil || x.to == "" || !x.later() {
		return nil, nil
	}
	claims, stays, _ := e.space(x.to, x.box, x.count, x.after(x.moved), x.running, false)
	for i := range stays {
		stays[i].carried = x.start
	}
	return claims, stays
}

// isCarried reports whether it is carried if it goes on or leaves then.
func (x *everySitter) isCarried(ends resources.Moment) bool {
	return x != nil && x.to != "" && ends > x.start
}

// carry writes a carry out.
func (e *everyPlan) carry(x *everySitter, stood []schedule.Standing) schedule.Carry {
	c := schedule.Carry{Stock: x.entry, Start: x.start, Minutes: resources.CeilLength(5, e.step), Who: e.p.Kitchen.People[x.who].Name,
		From: x.at, To: x.to, Since: x.moved, Stood: stood}
	if x.under >= 0 {
		c.Batch, c.Stage = x.name, x.stage
	}
	return c
}

// stoodBefore is where on shelves that are closed by now it stands, if that is known.
func (e *everyPlan) stoodBefore(x *everySitter) []schedule.Standing {
	if !e.placeNamed(x.at).Measured() {
		return nil
	}
	return e.boxesBefore(x)
}

// carryBatch writes out that the i-th chosen way's batch is carried, if it is.
func (e *everyPlan) carryBatch(out *schedule.Plan, i int, b *schedule.Batch, x *everySitter, stuck bool) {
	if x == nil || !x.shut {
		return
	}
	if x.to == "" {
		warn(out, "no-place", x.name)
		return
	}
	for k := x.first; k < x.running; k++ {
		b.Stages[k].At = x.at // it was there
		e.revise(&b.Stages[k], b.ID, k)
	}
	last := min(x.last, len(b.Stages)-1)
	if !stuck && !x.isCarried(b.Stages[last].Ends) {
		return
	}
	stood := e.stoodBefore(x)
	if x.later() {
		stood = e.boxesAt(i, x.running, x.at, x.count)
		for k := x.running; k <= last; k++ {
			b.Stages[k].At = x.to
			if b.Stages[k].Hold > 0 {
				b.Stages[k].BoxesAt = e.boxesAt(i, k, x.to, x.count)
			}
			e.revise(&b.Stages[k], b.ID, k)
		}
	}
	out.Carries = append(out.Carries, e.carry(x, stood))
}

// carryStock does the same for stock.
func (e *everyPlan) carryStock(out *schedule.Plan, i int, use *schedule.StockUse, x *everySitter) {
	switch {
	case x == nil || !x.shut:
	case x.to == "":
		warn(out, "no-place", x.name)
	case !x.later() || x.isCarried(use.Ends):
		var stood []schedule.Standing
		if x.later() {
			stood = e.boxesAt(i, x.running, x.at, x.count)
		}
		use.CarryTo(x.to)
		use.BoxesAt = e.boxesAt(i, x.running, x.to, x.count)
		if x.isCarried(use.Ends) {
			out.Carries = append(out.Carries, e.carry(x, stood))
		}
	}
}
