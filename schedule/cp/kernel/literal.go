package kernel

import "fmt"

// Var is an integer variable.
type Var int32

// View is a variable (even) or its negative (odd): both have lower bounds only.
type View int32

// Lit says that View is at least V.
type Lit struct {
	B View
	V int32
}

// Up is the variable itself as a view.
func (x Var) Up() View { return View(2 * x) }

// Down is the negative of the variable as a view.
func (x Var) Down() View { return View(2*x + 1) }

// Ge is the literal x >= v.
func (x Var) Ge(v int32) Lit { return Lit{x.Up(), v} }

// Le is the literal x <= v.
func (x Var) Le(v int32) Lit { return Lit{x.Down(), -v} }

// Opposite is the view of the negative.
func (b View) Opposite() View { return b ^ 1 }

// Var is the variable of the view.
func (b View) Var() Var { return Var(b >> 1) }

// Not is the negation: view b is at most V-1.
func (l Lit) Not() Lit { return Lit{l.B ^ 1, 1 - l.V} }

// String writes the literal over its variable.
func (l Lit) String() string {
	if l.B&1 == 0 {
		return fmt.Sprintf("x%d>=%d", l.B.Var(), l.V)
	}
	return fmt.Sprintf("x%d<=%d", l.B.Var(), -l.V)
}
