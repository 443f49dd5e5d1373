package schedule

import (
	"testing"

	"ripeby/resources"
)

// A set of 15 h at 22 °C lasts what the published rule has at other temperatures, to a tenth of an hour.
// The rule is Ratkowsky's square root (1982), worked out by hand; 22 and 32 °C are the published points it is fitted to
// (a table of fermented milks; Mistry and Kosikowski 1985), 20 and 23.9 °C published ones that it was not.
func TestASetGoesByTheRoom(t *testing.T) {
	h := Hold{Least: 15 * resources.Hour, Best: 15 * resources.Hour, Most: 15 * resources.Hour, Ready: 15 * resources.Hour,
		GoesBy: GoesBy{Temperature: 22_000, Times: 1000}}
	for room, tenths := range map[resources.MilliCelsius]resources.Minutes{15_000: 427, 16_000: 354, 18_000: 255, 19_000: 220, 20_000: 192, 21_000: 169,
		22_000: 150, 23_000: 134, 23_900: 122, 24_000: 120, 25_000: 109, 27_000: 90, 28_000: 82, 30_000: 70} {
		in := h.In(room)
		if off := in.Ready - 6*tenths; max(off, -off) > 3 || in.Least != in.Ready || in.Best != in.Ready || in.Most != in.Ready {
			t.Errorf("at %d m°C: got %+v, want %d tenths of an hour", room, in, tenths)
		}
	}
}

// What takes 17 h at 21 °C takes 35 h at 16 °C: (16.2/11.2)^2 is 2.0922, by hand; and times comes on top.
// Halves of a minute go up; outside 15 to 30 °C, and where the hold does not go by the room, nothing changes.
func TestAHoldInARoom(t *testing.T) {
	h := Hold{Least: 17 * resources.Hour, Most: 20 * resources.Hour, GoesBy: GoesBy{Temperature: 21_000, Times: 1000}}
	if got := h.In(16_000); got.Least != 35*resources.Hour+34 || got.Most != 41*resources.Hour+51 {
		t.Errorf("at 16 °C: got %+v", got)
	}
	h.GoesBy.Times = 1180
	if got := h.In(21_000); got.Least != 1204 || got.Most != 1416 { // 1203.6 and 1416
		t.Errorf("1.18 times: got %+v", got)
	}
	h.GoesBy.Times, h.Least = 1500, 1
	if got := h.In(21_000).Least; got != 2 { // 1.5
		t.Errorf("half a minute: got %d, want 2", got)
	}
	for _, room := range []resources.MilliCelsius{14_999, 30_001, -5_000, 4_800} {
		if got := h.In(room); got != h {
			t.Errorf("at %d m°C: got %+v, want it as it is written", room, got)
		}
	}
	h.GoesBy = GoesBy{}
	if got := h.In(16_000); got != h {
		t.Errorf("one that does not go by the room: got %+v", got)
	}
}
