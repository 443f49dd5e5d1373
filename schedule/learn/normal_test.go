package learn

import (
	"math"
	"testing"
)

// What lies between two bounds is right in the middle, in either tail, and where Erfc has long become 0.
func TestLogBetween(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct{ a, b, want, off float64 }{
		{-inf, inf, 0, 1e-15},
		{-inf, 0, math.Log(0.5), 1e-15},
		{0, inf, math.Log(0.5), 1e-15},
		{-1, 1, math.Log(0.6826894921370859), 1e-14},      // the table of any textbook
		{-inf, -1.2815515655446004, math.Log(0.1), 1e-13}, // likewise
		{5, 6, math.Log(2.8566499e-7), 1e-6},              // 2.8665157e-7 - 9.865876e-10
	} {
		near(t, "between", logBetween(c.a, c.b), c.want, c.off)
	}
	for z := 0.5; z < 400; z *= 1.7 {
		if a, b := logBetween(z, z+1), logBetween(-z-1, -z); a != b {
			t.Errorf("from %v: got %v and mirrored %v", z, a, b)
		}
		// By the mean value theorem the share lies between the densities at both ends.
		narrow := logBetween(z, z*(1+1e-9))
		density := -z*z/2 - math.Log(2*math.Pi)/2 + math.Log(z*1e-9)
		near(t, "a narrow one", narrow, density, 1e-3)
	}
	low, high := logBelow(-far), logBelow(-far-1e-9)
	if low <= high || low-high > 1e-6 {
		t.Errorf("where the series takes over: %v, then %v", low, high)
	}
}

// quantile is the standard normal below which a share q lies.
func quantile(q float64) float64 { return -math.Sqrt2 * math.Erfcinv(2*q) }

func TestQuantilesOfTheNormal(t *testing.T) {
	near(t, "0.9", quantile(0.9), 1.2815515655446004, 1e-12) // the table of any textbook
	near(t, "0.5", quantile(0.5), 0, 1e-15)
	near(t, "0.05", quantile(0.05), -1.6448536269514722, 1e-12)
}

// The table of Student's t that stands in any textbook: one-sided quantiles.
func TestQuantilesOfStudent(t *testing.T) {
	for _, c := range []struct {
		q       float64
		freedom int
		want    float64
	}{
		{0.9, 1, 3.0777}, {0.9, 2, 1.8856}, {0.9, 3, 1.6377}, {0.9, 4, 1.5332}, {0.9, 5, 1.4759}, {0.9, 10, 1.3722},
		{0.95, 2, 2.9200}, {0.95, 7, 1.8946}, {0.975, 1, 12.7062}, {0.975, 30, 2.0423}, {0.5, 4, 0},
	} {
		near(t, "t", studentQuantile(c.q, c.freedom), c.want, 5e-5)
	}
	near(t, "many", studentQuantile(0.9, 100_000), quantile(0.9), 1e-4)
}
