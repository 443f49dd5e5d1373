package tiny

import "testing"

// Few is how many of a kind a test must have seen to mean much; a short run draws less.
func Few(n int) int {
	if testing.Short() {
		return n / 8
	}
	return n
}
