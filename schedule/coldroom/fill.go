package coldroom

import (
	"math/bits"
	"sort"

	"ripeby/resources"
	"ripeby/schedule"
)

// Fill is how full one cold place is over time: steps by their moments, the
// first of which holds from the beginning of time.
type Fill struct {
	Place *resources.ColdPlace
	Floor int64 // of all shelves together, in square micrometres; 0 for a counted place
	steps []FillStep
}

// FillStep is what a place holds from one moment to the next step.
type FillStep struct {
	From  resources.Moment
	Boxes int
	Taken int64 // floor under boxes, in square micrometres: each spot counts once, whatever stands in it
	Open  int64 // what can be used: floor of the open shelves, or boxes of a counted place
}

// load is how full the step is as a fraction used/of. Nothing in a closed place
// is 0/1; something in it is more than full.
func (f *Fill) load(s FillStep) (used, of int64) {
	used, of = s.Taken, s.Open
	if !f.Place.Measured() {
		used = int64(s.Boxes)
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
func (f *Fill) fuller(a, b FillStep) bool { return f.FullerThan(a, f, b) }

// FullerThan reports whether step a is fuller than step b of another place. The
// products of two floors need more than 64 bits.
func (f *Fill) FullerThan(a FillStep, g *Fill, b FillStep) bool {
	ua, oa := f.load(a)
	ub, ob := g.load(b)
	hi, lo := bits.Mul64(uint64(ua), uint64(ob))
	hi2, lo2 := bits.Mul64(uint64(ub), uint64(oa))
	return hi > hi2 || (hi == hi2 && lo > lo2)
}

// Percent is the step's load, rounded up so that only a place with room left
// shows less than 100.
func (f *Fill) Percent(s FillStep) int {
	used, of := f.load(s)
	return int((used*100 + of - 1) / of)
}

// Over reports whether the step holds more than it can.
func (f *Fill) Over(s FillStep) bool {
	used, of := f.load(s)
	return used > of
}

// Fills works out each cold place's steps from where the plan stands boxes.
func Fills(p *schedule.Problem, plan *schedule.Plan) []Fill {
	o := Of(p, plan)
	fills := make([]Fill, len(p.Kitchen.Cold))
	for i := range p.Kitchen.Cold {
		place := &p.Kitchen.Cold[i]
		fills[i] = o.Fill(place, func(s schedule.Standing) bool { return s.Place == place.Name })
	}
	return fills
}

// Fill works out the steps of a place, or of a part of one, from the boxes that
// stand in it.
func (o *Occupancy) Fill(place *resources.ColdPlace, in func(schedule.Standing) bool) Fill {
	var moves []fillMove
	for i := range o.Stays {
		moves = appendMoves(moves, &o.Stays[i], in)
	}
	return Fill{place, floorOf(place), stepsOf(place, moves)}
}

// fillMove is boxes that come (or go, negative) at a moment, to or from one spot.
type fillMove struct {
	at    resources.Moment
	boxes int
	spot  schedule.Standing // without a layer; of no width where nothing is counted but a step
}

func appendMoves(moves []fillMove, stay *Stay, in func(schedule.Standing) bool) []fillMove {
	for _, b := range stay.Boxes {
		if !in(b) {
			continue
		}
		b.Layer = 0
		moves = append(moves, fillMove{stay.Span.From, 1, b}, fillMove{stay.Span.Until, -1, b})
	}
	return moves
}

// stepsOf adds moves up, with a further step wherever a shelf or the place is
// closed or opened again.
func stepsOf(place *resources.ColdPlace, moves []fillMove) []FillStep {
	for _, s := range Closings(place) {
		moves = append(moves, fillMove{at: s.From}, fillMove{at: s.Until})
	}
	sort.SliceStable(moves, func(i, j int) bool { return moves[i].at < moves[j].at })
	steps := []FillStep{{From: beginning, Open: openAt(place, beginning)}}
	standing := map[schedule.Standing]int{}
	for _, m := range moves {
		if last := &steps[len(steps)-1]; last.From != m.at {
			steps = append(steps, FillStep{m.at, last.Boxes, last.Taken, openAt(place, m.at)})
		}
		last := &steps[len(steps)-1]
		last.Boxes += m.boxes
		was := standing[m.spot] > 0
		standing[m.spot] += m.boxes
		if is := standing[m.spot] > 0; is != was {
			floor := int64(m.spot.Width) * int64(m.spot.Depth)
			if was {
				floor = -floor
			}
			last.Taken += floor
		}
	}
	return steps
}

// beginning is before every moment of a plan.
const beginning = resources.Moment(-1 << 62)

// Closings are the times at which a place, or one of its shelves, is taken.
func Closings(place *resources.ColdPlace) []resources.Span {
	spans := append([]resources.Span(nil), place.Taken...)
	for _, s := range place.Shelves {
		spans = append(spans, s.Taken...)
	}
	return spans
}

// openAt is what can be used of a place at a moment.
func openAt(place *resources.ColdPlace, m resources.Moment) int64 {
	if Taken(place.Taken, m) {
		return 0
	}
	if !place.Measured() {
		return int64(place.Boxes)
	}
	var open int64
	for _, s := range place.Shelves {
		if !Taken(s.Taken, m) {
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

// Tightest is the fullest step of a span, the earliest of equal ones, with its
// start moved into the span. At equal load the one with more boxes counts.
func (f *Fill) Tightest(span resources.Span) FillStep {
	i := sort.Search(len(f.steps), func(i int) bool { return f.steps[i].From > span.From }) - 1
	best := f.steps[max(i, 0)]
	best.From = max(best.From, span.From)
	for _, s := range f.steps[max(i, 0)+1:] {
		if s.From >= span.Until {
			break
		}
		if f.fuller(s, best) || (!f.fuller(best, s) && s.Boxes > best.Boxes) {
			best = s
		}
	}
	return best
}
