package resources_test

import (
	"testing"

	"pgregory.net/rapid"

	"ripeby/resources"
)

func TestGrid(t *testing.T) {
	tests := []struct {
		name        string
		in          int64
		step        resources.Minutes
		floor, ceil int64
	}{
		{"on the grid", 10, 5, 10, 10},
		{"just after", 11, 5, 10, 15},
		{"just before", 14, 5, 10, 15},
		{"zero", 0, 15, 0, 0},
		{"before 1970, just after a step", -9, 5, -10, -5},
		{"before 1970, just before a step", -11, 5, -15, -10},
		{"before 1970, on the grid", -10, 5, -10, -10},
		{"first step below zero", -1, 60, -60, 0},
		{"a step of one minute", 7, 1, 7, 7},
		{"a step that is none", -7, 0, -7, -7},
	}
	for _, tt := range tests {
		m, d := resources.Moment(tt.in), resources.Minutes(tt.in)
		if got := int64(resources.FloorTo(m, tt.step)); got != tt.floor {
			t.Errorf("%s: FloorTo(%d, %d) = %d, want %d", tt.name, m, tt.step, got, tt.floor)
		}
		if got := int64(resources.CeilTo(m, tt.step)); got != tt.ceil {
			t.Errorf("%s: CeilTo(%d, %d) = %d, want %d", tt.name, m, tt.step, got, tt.ceil)
		}
		if got := int64(resources.FloorLength(d, tt.step)); got != tt.floor {
			t.Errorf("%s: FloorLength(%d, %d) = %d, want %d", tt.name, d, tt.step, got, tt.floor)
		}
		if got := int64(resources.CeilLength(d, tt.step)); got != tt.ceil {
			t.Errorf("%s: CeilLength(%d, %d) = %d, want %d", tt.name, d, tt.step, got, tt.ceil)
		}
	}
}

// The nearest multiples on either side, whatever the sign.
func TestGridNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := resources.Moment(rapid.Int64Range(-1e6, 1e6).Draw(t, "m"))
		step := resources.Minutes(rapid.Int64Range(1, 60).Draw(t, "step"))
		lo, hi := resources.FloorTo(m, step), resources.CeilTo(m, step)
		if int64(lo)%int64(step) != 0 || int64(hi)%int64(step) != 0 {
			t.Fatalf("rounding %d to %d gave %d and %d, want multiples", m, step, lo, hi)
		}
		if lo > m || m.Sub(lo) >= step {
			t.Errorf("FloorTo(%d, %d) = %d, want within a step before", m, step, lo)
		}
		if hi < m || hi.Sub(m) >= step {
			t.Errorf("CeilTo(%d, %d) = %d, want within a step after", m, step, hi)
		}
	})
}
