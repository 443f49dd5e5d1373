package packing

import (
	"context"
	"fmt"

	"ripeby/schedule/cp/kernel"
	"ripeby/schedule/cp/problem"
)

// Table says which numbers of boxes of some kinds stand in a space at one moment, all floors open.
// Kinds that share spots are counted in boxes there, whatever stays they are of, so the answer is
// that of geometry; where the search for places is given up they are taken to stand.
type Table struct {
	m     *problem.Model
	space int
	kinds []int
	most  []int32 // of each kind alone, by area; more never stand
	known []int8  // by the numbers of all kinds: 0 not asked, 1 can stand, 2 cannot
	spent func(work int64)
}

// tableMost is how many numbers of boxes a table may have; a space of more is not looked at so.
const tableMost = 1 << 16

// tableWork is how much counted work of the kernel one answer of a table may take.
const tableWork = packWork / 20

// NewTable makes a table for kinds that share spots. Kept gives memory for its answers by name, the
// same again for the same name; spent hears of the kernel's work. Not ok where there is nothing to
// say of fewer than two kinds, or too much of many boxes.
func NewTable(m *problem.Model, space int, kinds []int, kept func(name string, size int) []int8, spent func(work int64)) (*Table, bool) {
	t := &Table{m: m, space: space, spent: spent}
	size, name := 1, fmt.Sprint(m.Spaces[space].Floors)
	for _, kind := range kinds {
		k, n := &m.Kinds[kind], int64(0)
		if k.Stack != problem.OnKind || k.Size.W <= 0 || k.Size.D <= 0 {
			continue
		}
		for i := range m.Spaces[space].Floors {
			f := &m.Spaces[space].Floors[i]
			n += f.Size.W * f.Size.D / (k.Size.W * k.Size.D) * k.High(f)
		}
		if n == 0 || n > tableMost {
			continue // it stands nowhere, which is said elsewhere; or it is hardly in the way
		}
		t.kinds, t.most = append(t.kinds, kind), append(t.most, int32(n))
		name += fmt.Sprint(*k)
		if size *= int(n) + 1; size > tableMost {
			return nil, false
		}
	}
	if len(t.kinds) < 2 {
		return nil, false
	}
	t.known = kept(name, size)
	return t, true
}

// Classes is how many kinds the table counts, and Class the place of one among them; -1 for none.
func (t *Table) Classes() int { return len(t.kinds) }

// Class is the place of a kind in the table's counts, -1 for none.
func (t *Table) Class(kind int) int {
	for c, k := range t.kinds {
		if k == kind {
			return c
		}
	}
	return -1
}

// Over implements [global.Crowd].
func (t *Table) Over(counts []int32) bool {
	at := 0
	for c, n := range counts {
		if n > t.most[c] {
			return true
		}
		at = at*(int(t.most[c])+1) + int(n)
	}
	if t.known[at] == 0 {
		t.known[at] = 1
		if t.cannot(counts) {
			t.known[at] = 2
		}
	}
	return t.known[at] == 2
}

// cannot reports whether so many boxes of each kind cannot stand at one moment.
func (t *Table) cannot(counts []int32) bool {
	var list []Stay
	for c, n := range counts {
		if n > 0 {
			list = append(list, Stay{Until: 1, Kind: t.kinds[c], Boxes: int(n), Given: true})
		}
	}
	f := newSearch(t.m, t.space, list)
	st := f.k.Search(context.Background(), tableWork, f.asks...)
	t.spent(f.k.Work())
	return st == kernel.Impossible
}
