package learn

import "math"

// far is from how many standard deviations on the share below is reckoned by its series: before that Erfc
// has still all its digits.
const far = 30

// logBelow is the logarithm of the share of a standard normal that lies below z, which is at most 0. Far
// out it is by the series of Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.12,
// from memory.
func logBelow(z float64) float64 {
	if math.IsInf(z, -1) {
		return z
	}
	if z > -far {
		return math.Log(math.Erfc(-z/math.Sqrt2) / 2)
	}
	s := 1 / (z * z)
	return -z*z/2 - math.Log(-z) - math.Log(2*math.Pi)/2 + math.Log1p(s*(-1+s*(3-15*s)))
}

// logBetween is the logarithm of the share that lies between a and b, a < b, either of which may be
// infinite. Nothing is lost where both are far out on one side.
func logBetween(a, b float64) float64 {
	if a > 0 {
		a, b = -b, -a
	}
	if b > 0 {
		return math.Log1p(-math.Exp(logBelow(a)) - math.Exp(logBelow(-b)))
	}
	up, low := logBelow(b), logBelow(a)
	return up + math.Log(-math.Expm1(low-up))
}
