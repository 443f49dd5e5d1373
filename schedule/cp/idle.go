package cp

// window is what a set of demands asks of one job that serves them all: its last
// work ends in [readyMin, readyMax] and its last delivery is at end.
type window struct {
	readyMin, readyMax, end int
}

// windowOf joins the demands; the last lag's limits are those of the mode.
func (m *Model) windowOf(family int, shares []Share) window {
	w := window{readyMin: -Infinite, readyMax: Infinite, end: -Infinite}
	for _, sh := range shares {
		d := &m.Demands[sh.Demand]
		w.readyMin = max(w.readyMin, d.Due-m.Families[family].Keeps)
		w.readyMax = min(w.readyMax, d.Due-d.Ahead)
		w.end = max(w.end, d.Due)
	}
	return w
}

// limited narrows the window by the last lag of a mode.
func (w window) limited(mode *Mode) window {
	lag := lastLag(mode)
	w.readyMax = min(w.readyMax, w.end-lag.Least)
	w.readyMin = max(w.readyMin, w.end-lag.Most)
	return w
}

func lastLag(mode *Mode) *Lag { return &mode.Acts[len(mode.Acts)-1].Lag }

func lastWork(mode *Mode) int { return mode.Acts[len(mode.Acts)-1].Work }

// query makes the question of placing a new job in a window.
func (s *schedule) query(family, mode int, w window) *query {
	f := &s.m.Families[family]
	md := &f.Modes[mode]
	w = w.limited(md)
	return &query{mode: md, readyMin: w.readyMin, readyMax: w.readyMax, end: w.end, supply: f.Supply}
}

type idleKey struct {
	family, mode, later int
	w                   window
}

type idleValue struct {
	ok     bool
	bother int64
	early  int64
}

// idle is the best placing of one job that has the kitchen to itself: nothing
// that is placed beside it can make it better. Answers are kept.
func (s *schedule) idle(family, mode int, w window) idleValue { return s.idleLater(family, mode, 0, w) }

// idleLater is idle with a last delivery that the last lag's least may take to be
// so much later.
func (s *schedule) idleLater(family, mode, later int, w window) idleValue {
	key := idleKey{family, mode, later, w}
	if v, known := s.prep.idle[key]; known {
		return v
	}
	empty := s.prep.empty(s.m)
	before := empty.spent
	q := empty.query(family, mode, w)
	q.relaxed = true
	q.readyMax = min(w.readyMax, w.end+later-lastLag(q.mode).Least)
	if s.prep.closes || s.crowds(family) {
		// Where places close for a time, or do not hold all boxes of a job, exchanging
		// deliveries between jobs may lengthen a stay; the relaxation lets go of the store.
		q.end, q.endLeast = nowhere, 0
	}
	var v idleValue
	if j, ok := empty.place(q); ok {
		v = idleValue{true, j.Bother, -int64(j.Starts[0] - s.m.From)}
	}
	s.spent += empty.spent - before
	s.prep.idle[key] = v
	return v
}

// crowds reports whether some job of a family has more boxes at its last delivery than a
// space that it may stand in holds: it can be there only if they leave at once.
func (s *schedule) crowds(family int) bool {
	known, asked := s.prep.crowded[family]
	if asked {
		return known
	}
	empty := s.prep.empty(s.m)
	before := empty.spent
	for k := range s.m.Families[family].Modes {
		mode := &s.m.Families[family].Modes[k]
		for r := range mode.Stays {
			stay := &mode.Stays[r]
			for _, space := range stay.Spaces {
				if _, ok := empty.stand(space, stay.Kind, stay.Boxes, false, s.m.From, s.m.Horizon); !ok && stay.Last == len(mode.Acts)-1 {
					known = true
				}
			}
		}
	}
	empty.spent = before
	s.prep.crowded[family] = known
	return known
}

// empty is the kitchen with nothing in it.
func (p *prepared) empty(m *Model) *schedule {
	if p.bare == nil {
		bare := emptySchedule(m, p)
		p.bare = &bare
	}
	return p.bare
}

// closesAnywhere reports whether some space is closed for a time.
func closesAnywhere(m *Model) bool {
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
