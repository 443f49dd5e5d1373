package chain

import "ripeby/schedule/cp/problem"

// Query makes the question of placing a new job in a window.
func (s *Schedule) Query(family, mode int, w problem.Window) *query {
	f := &s.Model.Families[family]
	md := &f.Modes[mode]
	w = w.Limited(md)
	return &query{Mode: md, readyMin: w.ReadyMin, readyMax: w.ReadyMax, end: w.End, supply: f.Supply}
}

type idleKey struct {
	family, mode, later int
	w                   problem.Window
}

// IdleValue is what the best placing of a job alone comes to.
type IdleValue struct {
	OK      bool
	Penalty int64
	Early   int64
}

// Idle is the best placing of one job that has the kitchen to itself: nothing
// that is placed beside it can make it better. Answers are kept.
func (s *Schedule) Idle(family, mode int, w problem.Window) IdleValue {
	return s.IdleLater(family, mode, 0, w)
}

// IdleLater is idle with a last delivery that the last lag's least may take to be
// so much later.
func (s *Schedule) IdleLater(family, mode, later int, w problem.Window) IdleValue {
	key := idleKey{family, mode, later, w}
	if v, known := s.Prep.idle[key]; known {
		return v
	}
	empty := s.Prep.Empty(s.Model)
	before := empty.Spent
	q := empty.Query(family, mode, w)
	q.relaxed = true
	q.readyMax = min(w.ReadyMax, w.End+later-problem.LastLag(q.Mode).Least)
	if s.Prep.closes || s.crowds(family) {
		// Where places close for a time, or do not hold all boxes of a job, exchanging
		// deliveries between jobs may lengthen a stay; the relaxation lets go of the store.
		q.end, q.endLeast = problem.Nowhere, 0
	}
	var v IdleValue
	if j, ok := empty.Place(q); ok {
		v = IdleValue{true, j.Penalty, -int64(j.Starts[0] - s.Model.From)}
	}
	s.Spent += empty.Spent - before
	s.Prep.idle[key] = v
	return v
}

// crowds reports whether some job of a family has more boxes at its last delivery than a
// space that it may stand in holds: it can be there only if they leave at once.
func (s *Schedule) crowds(family int) bool {
	known, asked := s.Prep.crowded[family]
	if asked {
		return known
	}
	empty := s.Prep.Empty(s.Model)
	before := empty.Spent
	for k := range s.Model.Families[family].Modes {
		mode := &s.Model.Families[family].Modes[k]
		for r := range mode.Stays {
			stay := &mode.Stays[r]
			for _, space := range stay.Spaces {
				if _, ok := empty.Stand(space, stay.Kind, stay.Boxes, false, s.Model.From, s.Model.Horizon); !ok && stay.Last == len(mode.Acts)-1 {
					known = true
				}
			}
		}
	}
	empty.Spent = before
	s.Prep.crowded[family] = known
	return known
}

// Empty is the kitchen with nothing in it.
func (p *Prepared) Empty(m *problem.Model) *Schedule {
	if p.bare == nil {
		bare := EmptySchedule(m, p)
		p.bare = &bare
	}
	return p.bare
}

// closesAnywhere reports whether some space is closed for a time.
func closesAnywhere(m *problem.Model) bool {
	for i := range m.Spaces {
		if len(m.Spaces[i].Closed) > 0 {
			return true
		}
		for f := range m.Spaces[i].Floors {
			if len(m.Spaces[i].Floors[f].Closed) > 0 {
				return true
			}
		}
	}
	return false
}
