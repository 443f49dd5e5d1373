package kernel_test

import (
	"context"
	"slices"
	"testing"

	"ripeby/schedule/cp/kernel"
)

func ask(s *kernel.Solver, assume ...kernel.Lit) kernel.Status {
	return s.Search(context.Background(), budget, assume...)
}

func TestNoVariables(t *testing.T) {
	if got := ask(kernel.New()); got != kernel.Solved {
		t.Errorf("nothing to decide: got %v, want solved", got)
	}
}

func TestNoValueLeft(t *testing.T) {
	s := kernel.New()
	s.NewVar(3, 2)
	if got := ask(s); got != kernel.Impossible {
		t.Errorf("a variable of no value: got %v, want impossible", got)
	}
}

func TestNoBudget(t *testing.T) {
	s := kernel.New()
	s.NewVar(0, 9)
	if got := s.Search(context.Background(), 0); got != kernel.Unknown {
		t.Errorf("no work allowed: got %v, want unknown", got)
	}
	if got := ask(s); got != kernel.Solved {
		t.Errorf("asked again with a budget: got %v, want solved", got)
	}
}

func TestEndedContext(t *testing.T) {
	s := kernel.New()
	s.NewVar(0, 9)
	ctx, end := context.WithCancel(context.Background())
	end()
	if got := s.Search(ctx, budget); got != kernel.Unknown {
		t.Errorf("the context had ended: got %v, want unknown", got)
	}
}

func TestVariableAfterASolution(t *testing.T) {
	s := kernel.New()
	x := s.NewVar(4, 9)
	ask(s)
	if got := s.Value(x); got != 4 {
		t.Errorf("first solution: got %d, want 4", got)
	}
	y := s.NewVar(2, 5)
	s.AddArc(x, y, 1)
	if got := s.Value(y); got != 0 {
		t.Errorf("value before the next search: got %d, want 0", got)
	}
	if got := ask(s, y.Le(5)); got != kernel.Solved || s.Value(y) != 5 || s.Value(x) != 4 {
		t.Errorf("got %v x %d y %d, want solved 4 5", got, s.Value(x), s.Value(y))
	}
}

func TestAssumptionsAtTheEdge(t *testing.T) {
	s := kernel.New()
	x, y := s.NewVar(0, 9), s.NewVar(0, 9)
	s.AddArc(x, y, 3) // y >= x+3
	tests := []struct {
		name   string
		assume []kernel.Lit
		core   []kernel.Lit // nil when possible
	}{
		{"last that fits", []kernel.Lit{x.Ge(6)}, nil},
		{"first that does not", []kernel.Lit{x.Ge(7)}, []kernel.Lit{x.Ge(7)}},
		{"the same twice", []kernel.Lit{x.Ge(5), x.Ge(5)}, nil},
		{"weaker after stronger", []kernel.Lit{x.Ge(5), x.Ge(2)}, nil},
		{"against each other", []kernel.Lit{y.Ge(1), x.Ge(5), x.Le(4)}, []kernel.Lit{x.Le(4), x.Ge(5)}},
		{"by the arc", []kernel.Lit{y.Ge(1), y.Le(5), x.Ge(3)}, []kernel.Lit{x.Ge(3), y.Le(5)}},
		{"always false", []kernel.Lit{y.Ge(1), y.Le(2)}, []kernel.Lit{y.Le(2)}},
	}
	for _, tt := range tests {
		got := ask(s, tt.assume...)
		if (got == kernel.Solved) != (tt.core == nil) {
			t.Errorf("%s: got %v", tt.name, got)
		}
		if tt.core != nil && !slices.Equal(s.Core(), tt.core) {
			t.Errorf("%s: got core %v, want %v", tt.name, s.Core(), tt.core)
		}
	}
}

// A clause of one literal twice is that literal; one that is always true is none.
func TestOddClauses(t *testing.T) {
	s := kernel.New()
	x := s.NewVar(0, 9)
	s.AddClause(x.Ge(4), x.Ge(4))
	if got := s.Min(x); got != 4 {
		t.Errorf("a clause of x>=4 twice: got least x %d, want 4", got)
	}
	s.AddClause(x.Ge(6), x.Le(7))
	if got := ask(s, x.Ge(9)); got != kernel.Solved {
		t.Errorf("a clause that always holds: got %v, want solved", got)
	}
	if s.AddClause() || ask(s) != kernel.Impossible {
		t.Errorf("the empty clause: want impossible")
	}
}

// Two arcs round in a circle that grows can never hold.
func TestGrowingCircle(t *testing.T) {
	for _, tt := range []struct {
		back int32
		want kernel.Status
	}{{-2, kernel.Solved}, {-1, kernel.Impossible}} {
		s := kernel.New()
		x, y := s.NewVar(0, 1000), s.NewVar(0, 1000)
		s.AddArc(x, y, 2)
		s.AddArc(y, x, tt.back)
		if got := ask(s); got != tt.want {
			t.Errorf("y >= x+2, x >= y%+d: got %v, want %v", tt.back, got, tt.want)
		}
	}
}
