package words

import (
	"testing"

	"ripeby/schedule"
)

func TestDose(t *testing.T) {
	for _, c := range []struct {
		dose schedule.Dose
		want string
	}{
		{schedule.Dose{Amount: 2_857_143, Rounded: 2_900_000, Unit: "mL"}, "2.9 mL (exactly 2.857)"},
		{schedule.Dose{Amount: 180_000, Rounded: 180_000, Unit: "mL"}, "0.18 mL"},
		{schedule.Dose{Amount: 240_000, Rounded: 200_000, Unit: "g"}, "0.2 g (exactly 0.24, off by 16 %)"},
		{schedule.Dose{Amount: 12_345, Rounded: 10_000, Unit: "g"}, "0.01 g (exactly 0.01235, off by 18 %)"},
		{schedule.Dose{Amount: 3_000, Unit: "g"}, "0.003 g (less than can be measured here)"},
		{schedule.Dose{Amount: 1_234_500_000, Rounded: 1_235_000_000, Unit: "g"}, "1235 g (exactly 1234.5)"},
		{schedule.Dose{Amount: 343_000, Rounded: 312_500, Unit: "tsp"}, "1/4 + 1/16 tsp (exactly 0.343)"},
		{schedule.Dose{Amount: 2_500_000, Rounded: 2_500_000, Unit: "tsp (metric)"}, "2 + 1/2 tsp (metric)"},
		{schedule.Dose{Amount: 3_000_000, Rounded: 3_000_000, Unit: "drops"}, "3 drops"},
		{schedule.Dose{Amount: 1_000_000, Rounded: 1_000_000, Unit: "drops"}, "1 drop"},
		{schedule.Dose{Amount: 2_000_000, Rounded: 2_000_000, Unit: "sachet"}, "2 sachets"},
		{schedule.Dose{Amount: 1_500_000, Rounded: 1_500_000, Unit: "%"}, "____ g (1.5 % of the curd)"},
		{schedule.Dose{Amount: 12_000_000_000, Rounded: 12_000_000_000, Unit: "IMCU"}, "12000 IMCU"},
	} {
		if got := Unglue(Dose(&c.dose)); got != c.want {
			t.Errorf("%v: got %q, want %q", c.dose, got, c.want)
		}
	}
}

func TestSum(t *testing.T) {
	for _, c := range []struct {
		n    int64
		unit string
		want string
	}{{1_235_000_000, "g", "1.235 kg"}, {999_000_000, "g", "999 g"}, {1_360_000, "mL", "1.36 mL"}, {3_250_000, "tsp", "3 + 1/4 tsp"}, {100_000, "tsp", "0.1 tsp"}} {
		if got := Unglue(Sum(c.n, c.unit)); got != c.want {
			t.Errorf("%d %s: got %q, want %q", c.n, c.unit, got, c.want)
		}
	}
}
