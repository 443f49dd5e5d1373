package explain

import (
	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
)

// QuickLook and LongLook are the parts of the work left that one look for a plan with more
// may take, and proofShare that which goes to the proof that there is none with one more.
const (
	QuickLook  = 8
	LongLook   = 3
	proofShare = 2
	mostShare  = 2 // of all of it: the rest is for the reason
)

// More is as many units up to a number as a plan is found to give the demand while the
// others get no less than they do: what fits beside the plan at once, and from there on by
// strides that grow while there are plans and shrink when there is none. Refused is the
// least number that is known to be too many; 0 where none is. Each look takes no more than
// one part in so many of the work that is left, but for the proof that there is no such plan
// of a long one, see [Inquiry.surely]; what was looked for in vain is not again.
func (q *Inquiry) More(units int, look int64) (more, refused int) {
	lo, hi := min(q.beside(), units), units
	if q.vain > lo {
		hi = min(hi, q.vain-1)
	}
	if q.refused > 0 {
		hi = min(hi, q.refused-1)
	}
	for stride := 1; lo < hi; {
		n := min(lo+stride, hi)
		callOff := q.within(look)
		is := q.ask(n, q.none())
		callOff()
		if is == kernel.Solved {
			q.keep(q.r.found())
			lo = min(max(n, q.found()), units)
			stride *= 2
			continue
		}
		if is == kernel.Impossible && q.surely(n) == kernel.Impossible {
			q.refused = n
		}
		q.vain, hi = n, n-1
		stride = max((hi-lo+1)/2, 1)
	}
	return lo, q.refused
}

// Most is a quick [Inquiry.More] with a proof, where the work allows one: then refused is
// one more than that. A plan with more that is found instead is where it goes on from.
func (q *Inquiry) Most(units int) (most, refused int) {
	defer q.within(mostShare)()
	for {
		most, refused = q.More(units, QuickLook)
		if most == units || refused == most+1 {
			return most, refused
		}
		callOff := q.within(proofShare)
		is := q.ask(most+1, q.none())
		callOff()
		if is == kernel.Impossible && q.surely(most+1) == kernel.Impossible {
			q.refused = most + 1
		}
		if is != kernel.Solved {
			return most, q.refused
		}
		q.keep(q.r.found())
	}
}

// Best is the plan that gives the demand the most of those that were found, or one that gives as much and
// moves less of what was told for the settled time; nil for none.
func (q *Inquiry) Best() *problem.Result {
	if q.best == nil {
		return nil
	}
	q.calmly(q.found())
	q.calm = nil
	return q.settled(q.best, q.none())
}

// keep notes a plan that gives the demand more than those before.
func (q *Inquiry) keep(s *search.Plan) {
	if q.given(s) > q.found() {
		q.best = s
	}
}

// found is the most that a plan was found for.
func (q *Inquiry) found() int {
	if q.best == nil {
		return 0
	}
	return q.given(q.best)
}

// given is how many units a plan gives the demand, beyond what the plan in force does.
func (q *Inquiry) given(s *search.Plan) int { return q.r.plan.Unmet[q.demand] - s.Unmet[q.demand] }

// none marks no job.
func (q *Inquiry) none() []bool { return make([]bool, len(q.jobs)) }

// beside is how many units a plan was found for, no less than fit beside the plan in force
// when they are placed one job after another, and jobs of it grow.
func (q *Inquiry) beside() int {
	if !q.placed && q.also < 0 {
		if s := besideFor(q.r.plan, q.demand); s != nil {
			q.keep(s)
		}
	}
	q.placed = true
	return q.found()
}

// besideFor is the plan with as much for a demand as fits beside it; nil where it is not known
// of every box where it stands.
func besideFor(s *search.Plan, demand int) *search.Plan {
	if !s.KnowsBoxes() {
		return nil
	}
	f := s.Model.Demands[demand].Family
	var best *search.Plan
	for _, newFirst := range []bool{false, true} { // a job that grows may hold what a new one needs
		n := s.Emptied(s.Model)
		n.Hold(s.Homes, s.Stocks, s.Jobs)
		for newFirst && n.Unmet[demand] > 0 && n.StartNew(f, demand) {
		}
		n.Fill(f, []int{demand})
		s.Spent += n.Spent / placedShare
		if late := s.Cost().Late; n.Cost().Late > late {
			continue
		}
		if best == nil || n.Unmet[demand] < best.Unmet[demand] {
			best = n
		}
	}
	return best
}

// placedShare: one part in so many of the work of placing counts beside that of asking, whose
// units take as much longer.
const placedShare = 8

// Beside reports whether a demand's units all fit beside the plan in force, the model's hints,
// when they are placed one job after another; that they do not is no proof that they cannot.
func Beside(m *problem.Model, demand int) bool {
	s := search.Begin(m)
	if !asHinted(s, false) {
		return false
	}
	n := besideFor(s, demand)
	return n != nil && n.Unmet[demand] == 0
}
