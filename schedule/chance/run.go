package chance

import (
	"math"
	"slices"

	"ripeby/resources"
	"ripeby/schedule/settime"
)

// lookEvery is how long after a look that found a hold not to be over it is looked at again, as `not_yet` has it
// where nothing else is said.
const lookEvery = 2 * resources.Hour

// draws are the draws of one time through: a standard normal number for each hold that scatters, and a number
// from 0 to 1 for each batch.
type draws struct {
	holds []float64
	lost  []float64
}

// went is how a plan went, one time through.
type went struct {
	packed []resources.Moment // of each batch, when packing was over; never where it was not
	blame  []blame            // of each batch
}

// Why says what made work late.
type Why int

// What makes work late.
const (
	InTime Why = iota
	NotOver
	NoHands
	NoKit
	OldMilk
	WasLost
)

// blame is what made a batch late first: the stage that came late and why. For NotOver it is the stage whose hold
// was not over.
type blame struct {
	stage int
	why   Why
}

// runner counts a plan through; its room is used again each time.
type runner struct {
	*state
	start  [][]resources.Moment // of each batch and stage, as it went; never where it did not
	booked [][]booking
	lost   []bool
	went   went
}

func (s *state) runner() *runner {
	r := &runner{state: s, start: make([][]resources.Moment, len(s.batches)), booked: make([][]booking, len(s.planned)), lost: make([]bool, len(s.batches))}
	for i := range s.batches {
		r.start[i] = make([]resources.Moment, len(s.batches[i].stages))
	}
	r.went.packed, r.went.blame = make([]resources.Moment, len(s.batches)), make([]blame, len(s.batches))
	return r
}

// run counts the plan through once. lostRate is the chance that a batch is lost. What it gives holds until the
// next time.
func (r *runner) run(d draws, lostRate float64) *went {
	for i := range r.planned {
		r.booked[i] = append(r.booked[i][:0], r.planned[i]...)
	}
	for i := range r.batches {
		r.went.packed[i], r.went.blame[i], r.lost[i] = never, blame{}, r.batches[i].new && d.lost[i] < lostRate
		for k := range r.start[i] {
			r.start[i][k] = never
		}
	}
	for _, t := range r.order {
		r.do(t, d, lostRate)
	}
	for i := range r.batches {
		if r.lost[i] { // nobody knows before: it kept its kit and hands
			r.went.blame[i] = blame{0, WasLost}
		}
		last := len(r.batches[i].stages) - 1
		if at := r.start[i][last]; at != never && !r.lost[i] {
			r.went.packed[i] = at.Add(r.batches[i].stages[last].work)
		}
	}
	return &r.went
}

// do has one stage of a batch happen.
func (r *runner) do(t task, d draws, lostRate float64) {
	b, x := &r.batches[t.batch], r.at(t)
	if x.begun {
		r.start[t.batch][t.stage] = x.start
		return
	}
	at, why := x.start, InTime
	if t.stage > 0 {
		before := &b.stages[t.stage-1]
		began := r.start[t.batch][t.stage-1]
		if began == never {
			r.gone(t)
			return
		}
		held := began.Add(before.work)
		at = max(at, held.Add(before.least))
		if before.ready > 0 {
			over := held.Add(r.over(before, d))
			for at < over { // who comes to look finds that it is not, and comes again
				why = NotOver
				if at = at.Add(lookEvery); at < over {
					at = r.nextHours(x, at)
				}
			}
		}
	}
	if free := r.kitFree(t, at); free > at {
		at, why = free, NoKit
	}
	who := x.by
	if x.work > 0 {
		var found resources.Moment
		found, who = r.hands(t, x, at)
		if found == never {
			r.blames(t, NoHands)
			r.gone(t)
			return
		}
		if found > at && why == InTime {
			why = NoHands
		}
		at = found
	}
	if t.stage == 0 && at > b.latest {
		r.blames(t, OldMilk)
		r.gone(t)
		return
	}
	if at > x.start {
		r.blames(t, why)
	}
	r.start[t.batch][t.stage] = at
	r.book(t, x, at, who)
}

// blames notes what made a batch late first.
func (r *runner) blames(t task, why Why) {
	if b := &r.went.blame[t.batch]; b.why == InTime && why != InTime {
		*b = blame{t.stage, why}
		if why == NotOver {
			b.stage--
		}
	}
}

// gone gives up a stage, and the time that was kept for it.
func (r *runner) gone(t task) {
	x := r.at(t)
	if x.by >= 0 {
		r.booked[x.by] = slices.DeleteFunc(r.booked[x.by], func(b booking) bool { return b.of == t })
	}
}

// over is how long a hold takes this time, in whole minutes, rounded up.
func (r *runner) over(x *stage, d draws) resources.Minutes {
	if x.draw < 0 {
		return max(x.ready, x.unready)
	}
	z := d.holds[x.draw]
	if x.unready > 0 { // given that it was not over then
		return settime.Above(float64(x.ready), x.sd, float64(x.unready), math.Erfc(z/math.Sqrt2)/2)
	}
	return r.length(x, z)
}

// logNormal is a length by its median and by the scatter of its logarithm.
func logNormal(x *stage, z float64) resources.Minutes {
	return resources.Minutes(math.Ceil(float64(x.ready) * math.Exp(x.sd*z)))
}

// grid is the earliest planning moment from one on.
func (r *runner) grid(at resources.Moment) resources.Moment { return resources.CeilTo(at, r.step) }

// nextHours is the earliest moment from one on in the hours of somebody who may do a stage's work.
func (r *runner) nextHours(x *stage, at resources.Moment) resources.Moment {
	best := never
	for _, who := range x.who {
		for _, s := range from(r.free[who], at) {
			if m := r.grid(max(at, s.From)); m < s.Until {
				best = min(best, m)
				break
			}
		}
	}
	return best
}

// from are the spans that do not end before a moment.
func from(spans []resources.Span, at resources.Moment) []resources.Span {
	i, _ := slices.BinarySearchFunc(spans, at, func(s resources.Span, at resources.Moment) int {
		if s.Until > at {
			return 1
		}
		return -1
	})
	return spans[i:]
}

// hands is when from a moment on somebody who may do a stage's work has time for it, and who: the person of the
// plan before others, the one that is free first before both; never where nobody has.
func (r *runner) hands(t task, x *stage, at resources.Moment) (resources.Moment, int) {
	best, who := never, -1
	try := func(person int) {
		if m := r.gap(t, person, at, x.work); m < best {
			best, who = m, person
		}
	}
	if x.by >= 0 {
		if try(x.by); best == at {
			return best, who
		}
	}
	for _, person := range x.who {
		if person != x.by {
			try(person)
		}
	}
	return best, who
}

// gap is the earliest planning moment from one on at which a person has so many minutes free.
func (r *runner) gap(t task, person int, at resources.Moment, work resources.Minutes) resources.Moment {
	if at == never {
		return never
	}
	booked := r.booked[person]
	for _, s := range from(r.free[person], at) {
		m := max(at, s.From)
		if m != r.at(t).start { // as planned may be off the grid
			m = r.grid(m)
		}
		for i := after(booked, m); i < len(booked) && booked[i].from < m.Add(work) && m.Add(work) <= s.Until; i++ {
			if b := &booked[i]; b.of != t && b.until > m {
				m = r.grid(b.until)
			}
		}
		if m.Add(work) <= s.Until {
			return m
		}
	}
	return never
}

// after is the first of somebody's bookings that is not over by a moment: they are in order, and apart.
func after(booked []booking, at resources.Moment) int {
	i, _ := slices.BinarySearchFunc(booked, at, func(b booking, at resources.Moment) int {
		if b.until > at {
			return 1
		}
		return -1
	})
	return i
}

// book keeps somebody's time for a stage, in place of what was kept for it.
func (r *runner) book(t task, x *stage, at resources.Moment, who int) {
	if x.work == 0 || at == x.start && who == x.by {
		return
	}
	r.gone(t)
	if who < 0 {
		return
	}
	b := booking{at, at.Add(x.work), t}
	i, _ := slices.BinarySearchFunc(r.booked[who], b, func(a, b booking) int { return int(a.from - b.from) })
	r.booked[who] = slices.Insert(r.booked[who], i, b)
}

// kitFree is when from a moment on there is enough of all that a stage and what follows it keeps, by those batches
// that were to have it before.
func (r *runner) kitFree(t task, at resources.Moment) resources.Moment {
	for again := true; again; {
		again = false
		for i := range r.batches[t.batch].uses {
			u := &r.batches[t.batch].uses[i]
			if u.first != t.stage {
				continue
			}
			if m := r.enough(t.batch, u, at); m > at {
				at, again = m, true
			}
		}
	}
	return at
}

// enough is when from a moment on there are as many of a thing as a batch keeps.
func (r *runner) enough(batch int, of *use, at resources.Moment) resources.Moment {
	for {
		taken, next := 0, never
		for _, k := range r.kept[of.thing] {
			if k.batch == batch || k.from >= of.from {
				continue
			}
			if until := r.until(k.batch, k.use); until > at {
				taken += k.count
				next = min(next, until)
			}
		}
		if taken+of.count <= r.things[of.thing] || next == never {
			return at
		}
		at = next
	}
}

// until is when a thing that a batch keeps can be used again: as it went; else as planned, and as much later as the
// batch is by now.
func (r *runner) until(batch int, u *use) resources.Moment {
	late := resources.Minutes(0)
	of := r.batches[batch].stages
	for k := u.last; k >= u.first; k-- {
		at := r.start[batch][k]
		if at == never {
			continue
		}
		if k == u.last {
			return at.Add(of[k].work + u.clean)
		}
		late = max(0, at.Sub(of[k].start))
		break
	}
	return u.until.Add(late + u.clean)
}
