package calendar

import (
	"math/bits"
	"sort"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/coldroom"
)

// placeFill is how full one cold place is over time: steps by their moments, the
// first of which holds from the beginning of time.
type placeFill struct {
	place *resources.ColdPlace
	floor int64 // of all shelves together, in square micrometres; 0 for a counted place
	steps []fillStep
}

// fillStep is what a place holds from one moment to the next step.
type fillStep struct {
	from  resources.Moment
	boxes int
	taken int64 // floor under boxes, in square micrometres: those that stand on the shelf itself
	open  int64 // what can be used: floor of the open shelves, or boxes of a counted place
}

// load is how full the step is as a fraction used/of. Nothing in a closed place
// is 0/1; something in it is more than full.
func (f *placeFill) load(s fillStep) (used, of int64) {
	used, of = s.taken, s.open
	if !f.place.Measured() {
		used = int64(s.boxes)
	}
	if of <= 0 {
		if used == 0 {
			return 0, 1
		}
		return used + 1, used
	}
	return used, of
}

// fuller reports whether step a is fuller than step b of the same place.
func (f *placeFill) fuller(a, b fillStep) bool { return f.fullerThan(a, f, b) }

// fullerThan reports whether step a is fuller than step b of another place. The
// products of two floors need more than 64 bits.
func (f *placeFill) fullerThan(a fillStep, g *placeFill, b fillStep) bool {
	ua, oa := f.load(a)
	ub, ob := g.load(b)
	hi, lo := bits.Mul64(uint64(ua), uint64(ob))
	hi2, lo2 := bits.Mul64(uint64(ub), uint64(oa))
	return hi > hi2 || (hi == hi2 && lo > lo2)
}

// percent is the step's load, rounded up so that only a place with room left
// shows less than 100.
func (f *placeFill) percent(s fillStep) int {
	used, of := f.load(s)
	return int((used*100 + of - 1) / of)
}

// over reports whether the step holds more than it can.
func (f *placeFill) over(s fillStep) bool {
	used, of := f.load(s)
	return used > of
}

// fillOf works out each cold place's steps from where the plan stands boxes.
func fillOf(p *schedule.Problem, plan *schedule.Plan) []placeFill {
	o := coldroom.Of(p, plan)
	fills := make([]placeFill, len(p.Kitchen.Cold))
	for i := range p.Kitchen.Cold {
		place := &p.Kitchen.Cold[i]
		fills[i] = newFill(o, place, func(s schedule.Standing) bool { return s.Place == place.Name })
	}
	return fills
}

// newFill works out the steps of a place, or of a part of one, from the boxes that
// stand in it.
func newFill(o *coldroom.Occupancy, place *resources.ColdPlace, in func(schedule.Standing) bool) placeFill {
	var moves []fillMove
	for i := range o.Stays {
		moves = appendMoves(moves, &o.Stays[i], in)
	}
	return placeFill{place, floorOf(place), stepsOf(place, moves)}
}

// fillMove is boxes that come (or go, negative) at a moment.
type fillMove struct {
	at    resources.Moment
	boxes int
	taken int64
}

func appendMoves(moves []fillMove, stay *coldroom.Stay, in func(schedule.Standing) bool) []fillMove {
	for _, b := range stay.Boxes {
		if !in(b) {
			continue
		}
		come := fillMove{at: stay.Span.From, boxes: 1}
		if b.Layer <= 1 {
			come.taken = int64(b.Width) * int64(b.Depth)
		}
		moves = append(moves, come, fillMove{stay.Span.Until, -1, -come.taken})
	}
	return moves
}

// stepsOf adds moves up, with a further step wherever a shelf or the place is
// closed or opened again.
func stepsOf(place *resources.ColdPlace, moves []fillMove) []fillStep {
	for _, s := range closings(place) {
		moves = append(moves, fillMove{at: s.From}, fillMove{at: s.Until})
	}
	sort.SliceStable(moves, func(i, j int) bool { return moves[i].at < moves[j].at })
	steps := []fillStep{{from: beginning, open: openAt(place, beginning)}}
	for _, m := range moves {
		if last := &steps[len(steps)-1]; last.from != m.at {
			steps = append(steps, fillStep{m.at, last.boxes, last.taken, openAt(place, m.at)})
		}
		last := &steps[len(steps)-1]
		last.boxes += m.boxes
		last.taken += m.taken
	}
	return steps
}

// beginning is before every moment of a plan.
const beginning = resources.Moment(-1 << 62)

func closings(place *resources.ColdPlace) []resources.Span {
	spans := append([]resources.Span(nil), place.Taken...)
	for _, s := range place.Shelves {
		spans = append(spans, s.Taken...)
	}
	return spans
}

// openAt is what can be used of a place at a moment.
func openAt(place *resources.ColdPlace, m resources.Moment) int64 {
	if coldroom.Taken(place.Taken, m) {
		return 0
	}
	if !place.Measured() {
		return int64(place.Boxes)
	}
	var open int64
	for _, s := range place.Shelves {
		if !coldroom.Taken(s.Taken, m) {
			open += int64(s.Size.Width) * int64(s.Size.Depth)
		}
	}
	return open
}

func floorOf(place *resources.ColdPlace) int64 {
	var floor int64
	for _, s := range place.Shelves {
		floor += int64(s.Size.Width) * int64(s.Size.Depth)
	}
	return floor
}

// tightest is the fullest step of a span, the earliest of equal ones, with its
// start moved into the span. At equal load the one with more boxes counts.
func (f *placeFill) tightest(span resources.Span) fillStep {
	i := sort.Search(len(f.steps), func(i int) bool { return f.steps[i].from > span.From }) - 1
	best := f.steps[max(i, 0)]
	best.from = max(best.from, span.From)
	for _, s := range f.steps[max(i, 0)+1:] {
		if s.from >= span.Until {
			break
		}
		if f.fuller(s, best) || (!f.fuller(best, s) && s.boxes > best.boxes) {
			best = s
		}
	}
	return best
}
