package settime

import (
	"fmt"
	"math"
	"testing"

	"ripeby/resources"
	"ripeby/schedule"
)

// tau is the rule through its two published points in hours: 15 h at 22 °C, 6 h at 32 °C.
func tau(room float64) float64 {
	return 15 * Scale(22_000, resources.MilliCelsius(math.Round(room*1000)))
}

func near(t *testing.T, what string, got, want, off float64) {
	t.Helper()
	if !(math.Abs(got-want) <= off) {
		t.Errorf("%s: got %.5f, want %.5f ± %g", what, got, want, off)
	}
}

// The square-root rule through 22 °C 15 h and 32 °C 6 h, derived independently.
func TestTheRuleOfTemperature(t *testing.T) {
	for _, c := range []struct{ room, hours float64 }{
		{15, 42.7}, {16, 35.4}, {18, 25.5}, {19, 22.0}, {20, 19.2}, {21, 16.9}, {22, 15.0}, {23, 13.4},
		{23.9, 12.2}, {24, 12.0}, {25, 10.9}, {27, 9.0}, {28, 8.2}, {30, 7.0}, {32, 6.0},
	} {
		near(t, fmt.Sprint(c.room, " °C"), tau(c.room), c.hours, 0.05)
	}
}

// Derived independently: the Q10 of the rule; a constant one would be wrong by 15 %.
func TestTheRuleHasNoOneQ10(t *testing.T) {
	for _, c := range []struct{ cool, q10 float64 }{{16, 3.58}, {18, 3.09}, {20, 2.75}} {
		near(t, fmt.Sprint("Q10 from ", c.cool), tau(c.cool)/tau(c.cool+10), c.q10, 0.005)
	}
}

// Hours said by hours of the rule, of published points: cultured buttermilk and crème fraîche (a table of fermented
// milks), cottage (a reprint of a bulletin of the USDA) and Neufchâtel (Thom and Fisk, The Book of Cheese, 1918); then
// what farms and suppliers print on their own pages, whose hours are those at which somebody comes back.
func TestTheRuleBesidePublishedPoints(t *testing.T) {
	for _, c := range []struct {
		what             string
		cool, warm       float64
		from, until, say float64
	}{
		{"cultured buttermilk", 22, 22, 14, 16, 1.00},
		{"crème fraîche", 20, 20, 15, 20, 0.91},
		{"cottage", 23.9, 23.9, 12, 15, 1.11},
		{"Neufchâtel", 21, 24, 12, 18, 1.06},
		{"a farm at 20", 20, 20, 24, 24, 1.25},
		{"a farm from 20 to 22", 20, 22, 24, 24, 1.42},
		{"a farm at 24", 24, 24, 24, 24, 1.99},
		{"a farm at 23", 23, 23, 18, 24, 1.57},
	} {
		middle := (c.cool + c.warm) / 2
		near(t, c.what, (c.from+c.until)/2/tau(middle), c.say, 0.03)
	}
}

// Derived independently: in a room that changes a set is over when ∫dt/τ is 1. The plan goes by the room on
// the day a hold begins alone; here the rule is held against what was derived with it.
func TestTheRuleOverAChangeOfRoom(t *testing.T) {
	rest := func(times, done, room float64) float64 { return (1 - done) * tau(room) * times }
	for _, c := range []struct{ times, hours float64 }{{1, 25.03}, {1.25, 30.53}} {
		done := 10/(c.times*tau(19)) + 8/(c.times*tau(16))
		near(t, "10 h at 19, 8 h at 16, then 19", 18+rest(c.times, done, 19), c.hours, 0.005)
	}
	near(t, "6 h at 24, then 18", 6+rest(1, 6/tau(24), 18), 18.77, 0.005)
}

// Derived independently, of a median of 22.67 h and a standard deviation of 0.1638: not set after so long, still unset
// with this chance, and then 1 in 10, half and 9 in 10 are ready by these hours.
func TestNotSetYet(t *testing.T) {
	for _, c := range []struct{ after, unset, low, median, high float64 }{
		{18, 0.92, 19.4, 23.0, 28.2}, {20, 0.78, 20.8, 23.7, 28.6}, {24, 0.36, 24.4, 26.3, 30.4}, {28, 0.10, 28.3, 29.7, 33.2}, {30, 0.04, 30.2, 31.6, 34.8},
	} {
		near(t, "unset", math.Erfc(math.Log(c.after/22.67)/0.1638/math.Sqrt2)/2, c.unset, 0.006)
		b := StillUnset(22.67*60, 0.1638, c.after*60)
		for _, h := range []struct {
			got  resources.Minutes
			want float64
		}{{b.Low, c.low}, {b.Median, c.median}, {b.High, c.high}} {
			near(t, fmt.Sprint("after ", c.after, " h"), float64(h.got)/60, h.want, 0.06)
		}
	}
}

// What is left is never nothing, and has no jump where the shares become too small to be told.
func TestWhatIsLeftFarOut(t *testing.T) {
	before := StillUnset(60_000, 0.15, 60_000*math.Exp(0.15*5.99))
	after := StillUnset(60_000, 0.15, 60_000*math.Exp(0.15*6.01))
	near(t, "the jump", float64(after.Median)/float64(before.Median), math.Exp(0.15*0.02), 1e-4)
	// Half of what lies above 10: by the logarithm of what lies above, which Erfc has to 26 standard deviations.
	x := farOut(10, math.Ln2)
	near(t, "half above 10", math.Erfc(x/math.Sqrt2)/math.Erfc(10/math.Sqrt2), 0.5, 5e-4)
	for _, h := range []resources.Minutes{1, 600, 6000, 600_000} {
		left, ok := Left(&schedule.Hold{Ready: 600, Varies: 10}, 21_000, h)
		if !ok || left < 1 {
			t.Errorf("after %d min: got %d, %v", h, left, ok)
		}
	}
}

// The rule goes by what stands in the recipe and by the room, and holds from 15 to 30 °C.
func TestLeftGoesByTheRecipe(t *testing.T) {
	by := schedule.GoesBy{Temperature: 21_000, Times: 1180}
	for _, c := range []struct {
		name string
		h    *schedule.Hold
		room resources.MilliCelsius
		want float64 // hours of the median, of which nothing has passed to speak of; 0 for no rule
	}{
		{"no hold", nil, 21_000, 0},
		{"no ready", &schedule.Hold{GoesBy: by}, 21_000, 0},
		{"as written", &schedule.Hold{Ready: 17 * 60, GoesBy: by}, 21_000, 17 * 1.18},
		{"in a cooler room", &schedule.Hold{Ready: 17 * 60, GoesBy: by}, 16_000, 17 * 1.18 * (16.2 / 11.2) * (16.2 / 11.2)},
		{"in a room without a rule", &schedule.Hold{Ready: 17 * 60, GoesBy: by}, 14_999, 0},
		{"in a room that the recipe does not name", &schedule.Hold{Ready: 17 * 60}, 12_000, 17},
	} {
		left, ok := Left(c.h, c.room, 1)
		if ok != (c.want > 0) || math.Abs(float64(left+1)/60-c.want) > 0.02 {
			if ok || c.want > 0 {
				t.Errorf("%s: got %d min, %v, want %.2f h", c.name, left, ok, c.want)
			}
		}
	}
}
