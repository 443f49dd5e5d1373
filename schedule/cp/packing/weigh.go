package packing

import (
	"math"
	"slices"

	"ripeby/schedule/cp/problem"
)

// What stacks of a kind of box take of a space, in numbers.
//
// A floor takes so many stacks of a kind, whatever stands in them. Where floors are of different
// heights their stacks hold different numbers of boxes, and one count says little: of three boxes a
// stack on a high floor is enough, on low ones it takes two.
//
//	high floor   2 stacks of 3        each stack counts        1    2    3
//	low floor    4 stacks of 2                                 1    1    2
//	                                  there are                6    8   14
//	                                  three boxes take         1    2    3
//	                                  one box takes            1    1    2
//
// Four stays of three boxes and one of a single box take 5 of 6, 9 of 8 and 14 of 14: it is the
// second that refuses them. Whatever a stack counts on each floor, all stacks come to no more than
// the floors take, and a stay to no less than the cheapest stacks that hold it. What a stack counts
// is what of a box's layers it has, in parts of so many rounded up; such rounded counts are the dual
// feasible functions of bin packing: Fekete and Schepers, "New classes of fast lower bounds for bin
// packing problems" (2001).

// Weighing is what a stack counts on each floor of a space.
type Weighing []int64

// weighingsMost is how many weighings of one kind are looked at.
const weighingsMost = 8

// Weighings are ways to count the stacks of boxes on floors of which each takes so many layers: the
// plain one, and those that say more of some number of boxes up to most than any other. Stacks is how
// many of the boxes' stacks each floor takes. On a floor that takes none of them a stack, of other
// boxes, counts in the plain one alone.
func Weighings(layers, stacks []int64, most int) []Weighing {
	plain := make(Weighing, len(layers))
	for f := range plain {
		plain[f] = 1
	}
	all := []Weighing{plain}
	for parts := slices.Max(layers); parts > 0 && len(all) < weighingsMost; parts-- {
		w, divisor := make(Weighing, len(layers)), int64(0)
		for f := range layers {
			w[f] = (layers[f] + parts - 1) / parts
			divisor = problem.GCD(divisor, w[f])
		}
		for f := range w {
			w[f] /= divisor
		}
		implied := func(o Weighing) bool { return w.impliedBy(o, layers, stacks, most) }
		if slices.ContainsFunc(all, implied) {
			continue
		}
		kept := slices.DeleteFunc(all[1:], func(o Weighing) bool { return o.impliedBy(w, layers, stacks, most) })
		all = append(all[:1+len(kept)], w)
	}
	return all
}

// impliedBy reports whether another weighing refuses all that this one does.
func (w Weighing) impliedBy(o Weighing, layers, stacks []int64, most int) bool {
	of, other := w.Of(layers, most), o.Of(layers, most)
	for n := range of {
		if of[n]*o.Sum(stacks) > other[n]*w.Sum(stacks) {
			return false
		}
	}
	return true
}

// Sum is what so many stacks on each floor come to.
func (w Weighing) Sum(stacks []int64) int64 {
	sum := int64(0)
	for f, n := range stacks {
		sum += w[f] * n
	}
	return sum
}

// Of is what each number of boxes from none to most takes at the least, on floors of which each
// takes so many layers of them; what no floor takes counts nothing.
func (w Weighing) Of(layers []int64, most int) []int64 {
	out := make([]int64, most+1)
	for n := 1; n <= most; n++ {
		least := int64(math.MaxInt64)
		for f, high := range layers {
			if high > 0 {
				least = min(least, w[f]+out[max(0, int64(n)-high)])
			}
		}
		if least < math.MaxInt64 {
			out[n] = least
		}
	}
	return out
}
