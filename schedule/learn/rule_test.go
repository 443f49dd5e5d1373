package learn

import (
	"fmt"
	"math"
	"testing"

	"ripeby/resources"
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
