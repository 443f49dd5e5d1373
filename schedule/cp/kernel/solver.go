package kernel

// Solver holds the variables, the constraints and all that has been learned.
type Solver struct {
	low  []int32 // lower bound of each view
	last []int32 // latest trail entry of each view, -1 for the root bound
	root []int32 // lower bound of each view with no decision

	trail  []entry
	levels []levelMark
	arena  []Lit // reasons given literal by literal
	head   int   // first trail entry not yet propagated
	unsat  bool  // contradictory with no decision

	arcs    []arc
	arcsOf  [][]int32
	watches []waiting
	clauses []clause
	learned []int32
	freed   []int32 // numbers of clauses that were dropped

	props  []prop
	wakes  [][]waking
	queues [priorities]queue

	conflict []Lit // premises, all true, that cannot be together
	need     []int32
	present  []bool
	touched  []View
	members  []member
	question int32 // trail entry of the member in question
	pending  []Lit
	verdicts []verdict

	core   []Lit
	atoms  atoms
	best   []int32 // values of the latest solution, nil for none
	guide  []int32 // the same, kept when variables are added
	order  []View  // branching order of the model; see Prefer
	branch func(*Solver) (Lit, bool)
	limits limits

	audit *Audit

	// Counted says how much was done.
	Counted Counters
}

// Counters count work; the same on every machine.
type Counters struct {
	Conflicts, Decisions, Bounds, Clauses, Wakes, Restarts int64
	Looks                                                  int64 // of propagators that look through tables of their own
}

// New is a solver without variables.
func New() *Solver {
	s := &Solver{}
	s.limits = firstLimits()
	return s
}

const unset = -1 << 31

// NewVar adds a variable with bounds. With low above high no value is left, and
// the constraints are contradictory. It ends decisions in force, and forgets the
// latest solution, which has no value for it; the search still stays near that.
func (s *Solver) NewVar(low, high int32) Var {
	s.backTo(0)
	s.best = nil
	s.unsat = s.unsat || low > high
	x := Var(len(s.low) / 2)
	for _, v := range []int32{low, -high} {
		s.low = append(s.low, v)
		s.root = append(s.root, v)
		s.last = append(s.last, -1)
		s.need = append(s.need, unset)
		s.present = append(s.present, false)
		s.arcsOf = append(s.arcsOf, nil)
		s.watches = append(s.watches, waiting{})
		s.wakes = append(s.wakes, nil)
	}
	return x
}

// Low is the lower bound of a view now.
func (s *Solver) Low(b View) int32 { return s.low[b] }

// Min is the variable's lower bound now.
func (s *Solver) Min(x Var) int32 { return s.low[2*x] }

// Max is the variable's upper bound now.
func (s *Solver) Max(x Var) int32 { return -s.low[2*x+1] }

// Fixed reports whether the variable has one value left.
func (s *Solver) Fixed(x Var) bool { return s.low[2*x] == -s.low[2*x+1] }

// True reports whether the literal holds now.
func (s *Solver) True(l Lit) bool { return s.low[l.B] >= l.V }

// False reports whether the literal's negation holds now.
func (s *Solver) False(l Lit) bool { return s.low[l.B^1] >= 1-l.V }

// Level is the number of decisions in force.
func (s *Solver) Level() int { return len(s.levels) }

// Prefer gives the views by which to branch where nothing has been learned: the
// one with the least lower bound goes to it first.
func (s *Solver) Prefer(order []View) { s.order = append(s.order[:0], order...) }

// Value is the variable's value in the latest solution found; 0 where none was
// found since the last variable was added.
func (s *Solver) Value(x Var) int32 {
	if int(2*x) >= len(s.best) {
		return 0
	}
	return s.best[2*x]
}

// member is a literal of the set of a conflict, by the entry that made it true.
type member struct {
	at int32
	b  View
}

// Vars is the number of variables.
func (s *Solver) Vars() int { return len(s.low) / 2 }

// Guide gives a value for every variable near which to search, as if a solution
// with them had been found. They need not be one.
func (s *Solver) Guide(values []int32) {
	s.best = s.best[:0]
	for _, v := range values {
		s.best = append(s.best, v, -v)
	}
	s.guide = append(s.guide[:0], s.best...)
	s.recall()
}

// Branch has f choose decisions where nothing has been learned; it reports false
// when nothing that matters is open, and the bounds are then taken as a solution.
func (s *Solver) Branch(f func(s *Solver) (Lit, bool)) { s.branch = f }
