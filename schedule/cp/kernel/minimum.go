package kernel

import "context"

// How work is shared out between looking for better solutions and for a better
// bound; found by trying.
const (
	firstTurn = 400_000 // counted work of the first turn
	turnsMore = 4       // each turn is longer than the last by one part in so many
	upPart    = 3       // for the bound one part in so many of what is for solutions
)

// Minimize finds a solution with the least value of x, calling found for each
// better one. Solved means that the last one found is proved least.
//
// It works from both ends by turns: any solution better than the last, and a
// solution with x at its lower bound, which where there is none rises by one. What
// is learned on either side serves the other.
func (s *Solver) Minimize(ctx context.Context, x Var, budget int64, found func(value int32)) Status {
	m := &minimum{s: s, x: x, end: s.Work() + budget, found: found}
	for turn := int64(firstTurn); ; turn += turn / turnsMore {
		if st, over := m.down(ctx, turn); over {
			return st
		}
		if st, over := m.up(ctx, turn/upPart); over {
			return st
		}
		if s.Work() >= m.end || ctx.Err() != nil {
			return Unknown
		}
	}
}

// minimum is one search for a least value.
type minimum struct {
	s     *Solver
	x     Var
	end   int64 // counted work
	some  bool  // a solution was found
	found func(int32)
}

// down looks for better solutions until a turn's work finds none; over with the
// answer when none is left.
func (m *minimum) down(ctx context.Context, turn int64) (Status, bool) {
	for {
		switch m.s.Search(ctx, min(turn, m.end-m.s.Work())) {
		case Unknown:
			return Unknown, false
		case Impossible:
			return m.last(), true
		}
		if !m.better() {
			return Solved, true
		}
	}
}

// up raises the lower bound until a turn's work does not.
func (m *minimum) up(ctx context.Context, turn int64) (Status, bool) {
	for m.s.Work() < m.end {
		low := m.s.Min(m.x)
		switch m.s.Search(ctx, min(turn, m.end-m.s.Work()), m.x.Le(low)) {
		case Unknown:
			return Unknown, false
		case Solved:
			m.better()
			return Solved, true
		}
		if len(m.s.Core()) == 0 || !m.s.AddClause(m.x.Ge(low+1)) {
			return m.last(), true
		}
	}
	return Unknown, false
}

// better takes a solution; false when there can be no better one.
func (m *minimum) better() bool {
	m.some = true
	v := m.s.Value(m.x)
	if m.found != nil {
		m.found(v)
	}
	return m.s.AddClause(m.x.Le(v - 1))
}

// last is the answer where nothing is left: the last solution is least.
func (m *minimum) last() Status {
	if m.some {
		return Solved
	}
	return Impossible
}
