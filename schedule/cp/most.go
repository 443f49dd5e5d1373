package cp

// lookShare is the part of the work left that one look for a plan with more may take, and
// proofShare that which goes to the proof that there is none with one more still.
const (
	lookShare  = 16
	proofShare = 2
)

// More is as many units up to a number as a plan is found to give the demand while the
// others get no less than they do: what fits beside the plan at once, and from there on by
// strides that grow while there are plans and shrink when there is none. Refused is the
// least number that is known to be too many; 0 where none is.
func (q *Inquiry) More(units int) (more, refused int) {
	lo, hi := min(q.beside(), units), units
	for stride := 1; lo < hi; {
		n := min(lo+stride, hi)
		callOff := q.within(lookShare)
		is, _ := q.ask(n, q.none())
		callOff()
		if is == can {
			q.keep(q.r.found())
			lo = min(max(n, q.given(q.best)), units)
			stride *= 2
			continue
		}
		if is == cannot && q.surely(n) == cannot {
			refused = n
		}
		hi = n - 1
		stride = max((hi-lo+1)/2, 1)
	}
	return lo, refused
}

// Most is [Inquiry.More] with a proof, where the work allows one: known tells that the
// demand cannot get one unit more than that.
func (q *Inquiry) Most(units int) (most int, known bool) {
	most, refused := q.More(units)
	if most == units || refused == most+1 {
		return most, true
	}
	defer q.within(proofShare)()
	is, _ := q.ask(most+1, q.none())
	if is == can {
		q.keep(q.r.found())
		return min(q.given(q.best), units), false
	}
	return most, is == cannot && q.surely(most+1) == cannot
}

// Can reports whether the demand can get so many units while the others get no less than
// they do; known is false where the work allowed did not tell.
func (q *Inquiry) Can(units int) (is, known bool) {
	if q.beside() >= units {
		return true, true
	}
	switch is, _ := q.ask(units, q.none()); is {
	case can:
		q.keep(q.r.found())
		return true, true
	case cannot:
		return false, q.surely(units) == cannot
	}
	return false, false
}

// Best is the plan that gives the demand the most of those that were found; nil for none.
func (q *Inquiry) Best() *Result {
	if q.best == nil {
		return nil
	}
	return q.settled(q.best, q.none())
}

// keep notes a plan that gives the demand more than those before.
func (q *Inquiry) keep(s *state) {
	if q.best == nil || q.given(s) > q.given(q.best) {
		q.best = s
	}
}

// given is how many units a plan gives the demand, beyond what the plan in force does.
func (q *Inquiry) given(s *state) int { return q.r.plan.unmet[q.demand] - s.unmet[q.demand] }

// none marks no job.
func (q *Inquiry) none() []bool { return make([]bool, len(q.jobs)) }

// beside is how many units fit beside the plan in force when they are placed one job after
// another, and jobs of it grow.
func (q *Inquiry) beside() int {
	if q.also >= 0 {
		return 0
	}
	s := q.r.plan.besideFor(q.demand)
	if s == nil {
		return 0
	}
	if q.given(s) > 0 {
		q.keep(s)
	}
	return q.given(s)
}

// besideFor is the plan with as much for a demand as fits beside it; nil where something
// under way is late or stuck.
func (s *state) besideFor(demand int) *state {
	if s.outOfCourse() {
		return nil
	}
	n := newState(s.m, s.prep)
	n.spent = s.spent
	n.hold(s.homes, s.stocks, s.jobs)
	n.fill(s.m.Demands[demand].Family, []int{demand})
	s.spent = n.spent
	return n
}

// Beside places a demand's units one job after another beside the plan in force, the model's
// hints, and tells when the last of them is ready; not ok when it does not fit them all in,
// which is no proof that they do not fit.
func Beside(m *Model, demand int) (ready int, ok bool) {
	s := newState(m, prepare(m))
	s.settleHomes()
	if !s.asHinted(false) {
		return 0, false
	}
	n := s.besideFor(demand)
	if n == nil || n.unmet[demand] > 0 {
		return 0, false
	}
	return readyIn(n, demand), true
}
