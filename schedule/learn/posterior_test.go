package learn

import (
	"math"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/settime"
)

// exact are five made-up sets, with what was derived of them by an independent calculation: how warm the room was, and after how many hours it was ready.
var exact = []struct{ room, hours float64 }{{21.0, 20.0}, {19.5, 24.5}, {18.0, 31.0}, {22.5, 17.0}, {20.0, 22.0}}

// seen are the same as looks: the last that it was not ready yet, the first that it was.
var seen = []struct{ room, notYet, ready float64 }{{21.0, 18, 22}, {19.5, 20, 26}, {18.0, 24, 34}, {22.5, 12, 18}, {20.0, 20, 24}}

const scatter = 0.15

func waitsOfLooks() (out []Wait) {
	for _, s := range seen {
		out = append(out, Wait{Over: s.notYet / tau(s.room), Under: s.ready / tau(s.room)})
	}
	return out
}

// Derived of the rule and of both scatters: at 21 °C 1 in 10 by 10.4 h, half by 16.9 h, 9 in 10 by 27.6 h.
func TestWithoutLooksWhatOtherKitchensTell(t *testing.T) {
	p := Fit(nil, scatter)
	near(t, "mean", p.Mean, 0, 1e-9)
	near(t, "sd", p.SD, 0.35, 1e-4)
	hoursNear(t, settime.Spread(tau(21)*60, p.Next(scatter)), 10.4, 16.9, 27.6)
}

func hoursNear(t *testing.T, b settime.Band, low, median, high float64) {
	t.Helper()
	for _, c := range []struct {
		got  resources.Minutes
		want float64
	}{{b.Low, low}, {b.Median, median}, {b.High, high}} {
		near(t, "hours", float64(c.got)/60, c.want, 0.06)
	}
}

// Derived independently of five exact sets: plain k 1.1875; shrunk ln k 0.16575, k 1.1803, its sd 0.0659, that of a next batch
// 0.1638. A set that was looked at every half minute is as good as exact.
func TestFiveExactSets(t *testing.T) {
	var waits []Wait
	sum := 0.0
	for _, s := range exact {
		sum += math.Log(s.hours / tau(s.room))
		waits = append(waits, Wait{Over: (s.hours - 1./240) / tau(s.room), Under: (s.hours + 1./240) / tau(s.room)})
	}
	near(t, "plain k", math.Exp(sum/5), 1.1875, 5e-5)
	p := Fit(waits, scatter)
	near(t, "shrunk, by hand", sum/(5+scatter*scatter/(0.35*0.35)), 0.16575, 5e-6)
	near(t, "shrunk", p.Mean, 0.16575, 2e-5)
	near(t, "k", math.Exp(p.Mean), 1.1803, 5e-5)
	near(t, "sd", p.SD, 0.0659, 5e-5)
	near(t, "sd of the next", p.Next(scatter), 0.1638, 5e-5)
	for _, c := range []struct{ room, low, median, high float64 }{
		{17, 28.5, 35.2, 43.4}, {18, 24.4, 30.1, 37.1}, {20, 18.4, 22.7, 28.0}, {21, 16.2, 20.0, 24.6}, {24, 11.5, 14.2, 17.5},
	} {
		hoursNear(t, settime.Spread(60*tau(c.room)*math.Exp(p.Mean), p.Next(scatter)), c.low, c.median, c.high)
	}
}

// Derived independently of the same as looks, on a grid of 0.0005: ln k 0.1107 ± 0.0758, k 1.117, mode 0.111; the geometric middles of the looks give
// 1.112; the moment of "ready" alone, taken for the set, 1.284.
func TestFiveSetsAsLooks(t *testing.T) {
	waits := waitsOfLooks()
	p := Fit(waits, scatter)
	near(t, "ln k", p.Mean, 0.1107, 5e-5)
	near(t, "sd", p.SD, 0.0758, 5e-5)
	near(t, "k", math.Exp(p.Mean), 1.117, 5e-4)
	mode, top := 0.0, math.Inf(-1)
	for m := -0.5; m < 0.5; m += fine {
		if d := logDensity(m, waits, scatter); d > top {
			mode, top = m, d
		}
	}
	near(t, "mode", mode, 0.111, 5e-4)
	shrink := 5 + scatter*scatter/(0.35*0.35)
	middles, ends := 0.0, 0.0
	for _, w := range waits {
		middles += math.Log(math.Sqrt(w.Over * w.Under))
		ends += math.Log(w.Under)
	}
	near(t, "middles", math.Exp(middles/shrink), 1.112, 5e-4)
	near(t, "ready alone, not even shrunk", math.Exp(ends/5), 1.284, 5e-4)
}

// The band is that of the grid: by its quantiles the median is where half lies below, and mean and sd are
// those of a normal where what is known is one.
func TestQuantilesOfAFit(t *testing.T) {
	p := Fit(nil, scatter)
	for _, q := range []float64{0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99} {
		near(t, "quantile", p.Quantile(q), 0.35*quantile(q), 1e-4)
	}
	p = Fit(waitsOfLooks(), scatter)
	if low, high := p.Quantile(0.05), p.Quantile(0.95); !(low < p.Mean && p.Mean < high) {
		t.Errorf("got %v to %v about %v", low, high, p.Mean)
	}
}

// Looks that nobody would believe are fitted all the same, to the end of what is possible, and give no NaN.
func TestFitFarOut(t *testing.T) {
	for _, waits := range [][]Wait{
		{{Over: 0, Under: 1e-4}}, {{Over: 1e4, Under: math.Inf(1)}}, {{Over: 0.01, Under: 0.0100001}, {Over: 50, Under: 50.0001}},
	} {
		for _, scatter := range []float64{0.01, 0.15, 0.6} {
			p := Fit(waits, scatter)
			if math.IsNaN(p.Mean) || math.IsNaN(p.SD) || math.IsNaN(p.Quantile(0.05)) || math.IsNaN(p.Quantile(0.95)) {
				t.Errorf("%v at %v: got %+v", waits, scatter, p.Mean)
			}
		}
	}
}

// Derived independently of six made-up batches: 103 pieces of 52 L, 1.981 a litre; the scatter of the ratios 0.047; less 1.2816 of it 11, 14
// and 22 pieces of 6, 8 and 12 L, where a recipe of 2 a litre says 12, 16 and 24; by Student's t with n 6 10.99, 14.66 and
// 21.99, so 10, 14 and 21.
func TestYieldOfSixBatches(t *testing.T) {
	y := Yield{Batches: 6}
	var ratios []float64
	mean := 0.0
	for _, b := range []struct{ litres, pieces int }{{8, 16}, {6, 11}, {10, 20}, {8, 15}, {12, 25}, {8, 16}} {
		y.Pieces += b.pieces
		y.From += resources.Millilitres(1000 * b.litres)
		ratios = append(ratios, float64(b.pieces)/float64(b.litres))
		mean += float64(b.pieces) / float64(b.litres) / 6
	}
	y.Scatter = deviation(ratios) / y.PerLitre()
	near(t, "pieces", float64(y.Pieces), 103, 0)
	near(t, "a litre", y.PerLitre(), 1.981, 5e-4)
	near(t, "mean of ratios, not used", mean, 1.965, 5e-4)
	near(t, "scatter", y.Scatter, 0.047, 5e-4)
	for _, c := range []struct {
		litres       resources.Millilitres
		normal, byT  int
		fractionByT  float64
		recipePieces int
	}{{6000, 11, 10, 10.99, 12}, {8000, 14, 14, 14.66, 16}, {12000, 22, 21, 21.99, 24}} {
		near(t, "normal", math.Floor(y.low(c.litres, 1.2816)), float64(c.normal), 0)
		near(t, "by t", y.low(c.litres, studentQuantile(0.9, 5)*math.Sqrt(1+1./6)), c.fractionByT, 0.01)
		near(t, "low", float64(y.Low(c.litres)), float64(c.byT), 0)
	}
	y.Written = schedule.Yield{Pieces: 206, From: 104_000}
	if !y.Same() {
		t.Error("206 from 104 L is what 103 from 52 L is")
	}
}
