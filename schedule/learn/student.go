package learn

import "math"

// studentBelow is the share of Student's t with so many whole degrees of freedom that lies below t, t >= 0:
// the finite sums of Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4,
// from memory.
func studentBelow(t float64, freedom int) float64 {
	angle := math.Atan(t / math.Sqrt(float64(freedom)))
	sin, cos := math.Sincos(angle)
	term, sum := 1.0, 0.0
	if freedom%2 == 0 {
		for k := 1; k < freedom; k += 2 {
			sum += term
			term *= cos * cos * float64(k) / float64(k+1)
		}
		return 0.5 + sin*sum/2
	}
	for k := 2; k < freedom; k += 2 {
		sum += term
		term *= cos * cos * float64(k) / float64(k+1)
	}
	return 0.5 + (angle+sin*cos*sum)/math.Pi
}

// studentQuantile is the t below which a share q lies, 0.5 <= q < 1, by halving.
func studentQuantile(q float64, freedom int) float64 {
	low, high := 0.0, 1.0
	for studentBelow(high, freedom) < q {
		high *= 2
	}
	for high-low > 1e-10*high {
		if mid := (low + high) / 2; studentBelow(mid, freedom) < q {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
