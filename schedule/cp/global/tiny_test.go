package global_test

import (
	"math/rand/v2"

	"ripeby/schedule/cp/kernel/oracle"
)

// tiny is a model with so few values that every assignment can be tried; the kinds of
// rules that these tests draw are its methods.
type tiny struct{ oracle.Model }

// table is a table that rises, of one to three entries from least on.
func table(r *rand.Rand, least int32, step int) []int32 {
	out := []int32{least + int32(r.IntN(step+1))}
	for range r.IntN(3) {
		out = append(out, out[len(out)-1]+int32(r.IntN(step+1)))
	}
	return out
}

// entry reads a table as Amount says: a size past an end counts as that end.
func entry(table []int32, size int32) int32 {
	switch {
	case len(table) == 0:
		return 0
	case len(table) == 1 || size < 0:
		return table[0]
	case int(size) >= len(table):
		return table[len(table)-1]
	}
	return table[size]
}
