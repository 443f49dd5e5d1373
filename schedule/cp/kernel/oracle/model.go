package oracle

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"ripeby/schedule/cp/kernel"
)

// Model is variables with their bounds, and rules over them. Variable i is
// kernel.Var(i).
type Model struct {
	Low, High []int32
	Rules     []Rule
}

// Rule is a constraint: its text, its statement to a solver and its meaning for the
// values of all variables.
type Rule struct {
	Text  string
	Add   func(s *kernel.Solver)
	Holds func(v []int32) bool
}

// Variable adds a variable to the model.
func (m *Model) Variable(low, high int32) kernel.Var {
	m.Low, m.High = append(m.Low, low), append(m.High, high)
	return kernel.Var(len(m.Low) - 1)
}

// Add adds a rule to the model.
func (m *Model) Add(r Rule) { m.Rules = append(m.Rules, r) }

// Literal is some literal over the model's variables, seldom one that is decided.
func (m *Model) Literal(r *rand.Rand) kernel.Lit {
	x := r.IntN(len(m.Low))
	v := m.Low[x] + int32(r.IntN(int(m.High[x]-m.Low[x])+2))
	if r.IntN(2) == 0 {
		return kernel.Var(x).Ge(v)
	}
	return kernel.Var(x).Le(v - 1)
}

// Clauses adds up to most clauses of two or three literals, to make conflicts.
func (m *Model) Clauses(r *rand.Rand, most int) {
	for range r.IntN(most + 1) {
		var c []kernel.Lit
		for range 2 + r.IntN(2) {
			c = append(c, m.Literal(r))
		}
		m.Clause(c...)
	}
}

// Clause adds a clause.
func (m *Model) Clause(c ...kernel.Lit) {
	m.Add(Rule{
		Text:  fmt.Sprint("clause ", c),
		Add:   func(s *kernel.Solver) { s.AddClause(c...) },
		Holds: func(v []int32) bool { return AnyTrue(c, v) },
	})
}

// ValueOf is a view's value where the variables have the values v.
func ValueOf(b kernel.View, v []int32) int32 {
	x := b.Var()
	if b == x.Down() {
		return -v[x]
	}
	return v[x]
}

// True reports whether a literal is true where the variables have the values v.
func True(l kernel.Lit, v []int32) bool { return ValueOf(l.B, v) >= l.V }

// AllTrue reports whether all literals are true of the values v.
func AllTrue(lits []kernel.Lit, v []int32) bool {
	return !slices.ContainsFunc(lits, func(l kernel.Lit) bool { return !True(l, v) })
}

// AnyTrue reports whether one of the literals is true of the values v.
func AnyTrue(lits []kernel.Lit, v []int32) bool {
	return slices.ContainsFunc(lits, func(l kernel.Lit) bool { return True(l, v) })
}

// Holds reports whether every rule holds of the values v.
func (m *Model) Holds(v []int32) bool {
	for _, r := range m.Rules {
		if !r.Holds(v) {
			return false
		}
	}
	return true
}

// Solutions tries every assignment.
func (m *Model) Solutions() [][]int32 {
	var out [][]int32
	v := slices.Clone(m.Low)
	for {
		if m.Holds(v) {
			out = append(out, slices.Clone(v))
		}
		i := 0
		for ; i < len(v); i++ {
			if v[i]++; v[i] <= m.High[i] {
				break
			}
			v[i] = m.Low[i]
		}
		if i == len(v) {
			return out
		}
	}
}

// Solver is a new solver with the model stated to it.
func (m *Model) Solver() *kernel.Solver {
	s := kernel.New()
	m.State(s)
	return s
}

// State states the model to a solver that has no variables yet.
func (m *Model) State(s *kernel.Solver) {
	for i := range m.Low {
		s.NewVar(m.Low[i], m.High[i])
	}
	for _, r := range m.Rules {
		r.Add(s)
	}
}

// Values gives the values of the model's variables in the latest solution.
func (m *Model) Values(s *kernel.Solver) []int32 {
	v := make([]int32, len(m.Low))
	for i := range v {
		v[i] = s.Value(kernel.Var(i))
	}
	return v
}

// String writes the model with its rules, one a line.
func (m *Model) String() string {
	out := fmt.Sprintf("low %v high %v", m.Low, m.High)
	for _, r := range m.Rules {
		out += "\n" + r.Text
	}
	return out
}
