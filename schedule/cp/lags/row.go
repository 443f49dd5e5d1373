package lags

import "ripeby/schedule/cp/steps"

// RowOf is a row in which what is in a set costs nothing, and nothing else can be.
func RowOf(set []steps.Range, lo, hi int32) []int32 {
	row := make([]int32, hi-lo+1)
	at := lo
	for _, r := range set {
		for ; at < r.From; at++ {
			row[at-lo] = Unreachable
		}
		at = r.To + 1
	}
	for ; at <= hi; at++ {
		row[at-lo] = Unreachable
	}
	return row
}

// ReachableOf lists the places of a row that can be.
func ReachableOf(row []int32) []steps.Range {
	var out []steps.Range
	for x, v := range row {
		t := int32(x)
		switch n := len(out) - 1; {
		case v >= Unreachable:
		case n >= 0 && out[n].To == t-1:
			out[n].To = t
		default:
			out = append(out, steps.Range{From: t, To: t})
		}
	}
	return out
}

// Flatten takes away what anything costs, and leaves what cannot be.
func Flatten(row []int32) {
	for x, v := range row {
		if v < Unreachable {
			row[x] = 0
		}
	}
}
