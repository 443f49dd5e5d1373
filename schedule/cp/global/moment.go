package global

import (
	"slices"

	"ripeby/schedule/cp/kernel"
)

// Moment is a variable plus a constant.
type Moment struct {
	X   kernel.Var
	Add int32
}

// point is a moment seen in one direction of time: its value is the view's plus add.
type point struct {
	at  kernel.View
	add int32
}

func (m Moment) point() point { return point{m.X.Up(), m.Add} }

// mirror is the point with time turned round.
func (p point) mirror() point { return point{p.at.Opposite(), -p.add} }

func (p point) least(s *kernel.Solver) int32 { return s.Low(p.at) + p.add }

func (p point) most(s *kernel.Solver) int32 { return -s.Low(p.at.Opposite()) + p.add }

// ge is the literal "at v or later", le "at v or before".
func (p point) ge(v int32) kernel.Lit { return kernel.Lit{B: p.at, V: v - p.add} }

func (p point) le(v int32) kernel.Lit { return kernel.Lit{B: p.at.Opposite(), V: p.add - v} }

// Amount is a table by a variable that says which size: Table[value of By]. The
// table rises, or stays, with the size. A size below the table counts as its first,
// one past it as its last. A table of length 1 is a constant, and By is then not
// looked at; no table is the constant 0.
type Amount struct {
	By    kernel.Var
	Table []int32
}

// atLeast is the amount with a table of its own that has an entry and none
// below least.
func (a Amount) atLeast(least int32) Amount {
	table := []int32{max(0, least)}
	if len(a.Table) > 0 {
		table = slices.Clone(a.Table)
		for i, v := range table {
			table[i] = max(v, least)
		}
	}
	return Amount{a.By, table}
}

// sized reports whether the amount varies at all.
func (a *Amount) sized() bool { return len(a.Table) > 1 }

// of is the amount for a size.
func (a *Amount) of(size int32) int32 {
	return a.Table[max(0, min(size, int32(len(a.Table)-1)))]
}

func (a *Amount) least(s *kernel.Solver) int32 {
	if !a.sized() {
		return a.Table[0]
	}
	return a.of(s.Min(a.By))
}

func (a *Amount) most(s *kernel.Solver) int32 {
	if !a.sized() {
		return a.Table[0]
	}
	return a.of(s.Max(a.By))
}

// reach is the smallest size with so many units or more; past the table for none.
func (a *Amount) reach(units int32) int32 {
	k, _ := slices.BinarySearch(a.Table, units)
	return int32(k)
}

// within is the greatest size with so many units or fewer; -1 for none.
func (a *Amount) within(units int32) int32 {
	return a.reach(units+1) - 1
}

// sure appends why the amount is so many units or more, which it must be now. With
// units to spare it asks for a smaller size, and gives what is left to spare.
func (a *Amount) sure(out []kernel.Lit, units, spare int32) ([]kernel.Lit, int32) {
	k := a.reach(units - spare)
	if k > 0 {
		out = append(out, a.By.Ge(k))
	}
	return out, spare - max(0, units-a.Table[k])
}

// sureMost appends why the amount is so many units or fewer, which it must be now.
func (a *Amount) sureMost(out []kernel.Lit, units int32) []kernel.Lit {
	if k := a.within(units); int(k) < len(a.Table)-1 {
		out = append(out, a.By.Le(k))
	}
	return out
}
