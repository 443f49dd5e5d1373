package chance

import "math"

// z95 is the normal quantile of a two-sided band of 95 %.
const z95 = 1.959963984540054

// Wilson is the 95 % band of a share by hits of n: E. B. Wilson, "Probable inference, the law of succession, and
// statistical inference" (1927). Unlike the plain one it stays within 0 and 1, and has a width where all or none hit.
func Wilson(hits, n int) (low, high float64) {
	if n == 0 {
		return 0, 1
	}
	p, m := float64(hits)/float64(n), float64(n)
	middle := p + z95*z95/(2*m)
	half := z95 * math.Sqrt(p*(1-p)/m+z95*z95/(4*m*m))
	whole := 1 + z95*z95/m
	return max(0, (middle-half)/whole), min(1, (middle+half)/whole)
}
