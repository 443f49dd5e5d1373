package learn

import (
	"math"
	"testing"

	"ripeby/resources"
	"ripeby/schedule/settime"
)

// tau is the rule through its two published points in hours: 15 h at 22 °C, 6 h at 32 °C.
func tau(room float64) float64 {
	return 15 * settime.Scale(22_000, resources.MilliCelsius(math.Round(room*1000)))
}

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if !(math.Abs(got-want) <= off) {
		t.Errorf("%s: got %.5f, want %.5f ± %g", what, got, want, off)
	}
}
