package problem

import "slices"

// distinct puts a list in order, each value once.
func distinct(list []int) []int {
	slices.Sort(list)
	return slices.Compact(list)
}

// KeyOf names a list of pools.
func KeyOf(pools []int) string {
	key := ""
	for _, p := range pools {
		key += string(rune(p + 1))
	}
	return key
}

// UpTo is the numbers below n.
func UpTo(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
