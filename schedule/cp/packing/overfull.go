package packing

import "slices"

// Overfull gives members of the list that stand at a moment at which they are too many boxes,
// without any one of them they are not, or all that is left is there since before the plan; none
// where there is no such moment.
func Overfull(list []Stay, capacity int) []int {
	for _, s := range list {
		var at []int
		boxes := 0
		for i, o := range list {
			if o.From <= s.From && s.From < o.Until {
				at, boxes = append(at, i), boxes+o.Boxes
			}
		}
		planned := func(i int) bool { return !list[i].Given }
		for x := 0; x < len(at) && boxes > capacity; {
			less, rest := boxes-list[at[x]].Boxes, slices.Delete(slices.Clone(at), x, x+1)
			if less > capacity && slices.ContainsFunc(rest, planned) {
				at, boxes = rest, less
			} else {
				x++
			}
		}
		if boxes > capacity && slices.ContainsFunc(at, planned) {
			return at
		}
	}
	return nil
}
