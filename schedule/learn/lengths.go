package learn

import (
	"slices"

	"ripeby/resources"
)

// rangeOf is the range of some lengths, one at the least. Of an even number the median is the mean of the
// two in the middle, rounded down.
func rangeOf(all []resources.Minutes) Range {
	sorted := slices.Sorted(slices.Values(all))
	n := len(sorted)
	return Range{Least: sorted[0], Median: (sorted[(n-1)/2] + sorted[n/2]) / 2, Most: sorted[n-1]}
}
