package schedule

import (
	"math/bits"

	"ripeby/resources"
)

// NeverSets is where the rule has milk set no more at all: the square root of how fast it sets grows in a
// straight line from there (Ratkowsky 1982). Fitted to two published points, 15 h at 22 °C (a table of fermented
// milks) and 6 h at 32 °C (Mistry and Kosikowski 1985), and held against three more.
const NeverSets resources.MilliCelsius = 4_800

// ByRoom reports whether the hold goes by how warm the make room is.
func (h *Hold) ByRoom() bool { return h != nil && h.GoesBy != (GoesBy{}) }

// Follows reports whether the rule says anything of a room: outside of its bounds nothing is known.
func Follows(room resources.MilliCelsius) bool { return Coolest <= room && room <= Warmest }

// In is the hold in a room of a temperature: its least, best, most and ready times
// ((that temperature - 4.8) / (room - 4.8))^2, and times what it takes in this kitchen; halves of a
// minute go up. Where the hold does not go by the room, or the rule says nothing of such a room, it is
// as it is written.
func (h Hold) In(room resources.MilliCelsius) Hold {
	if !h.ByRoom() || !Follows(room) {
		return h
	}
	up, down := int64(h.GoesBy.Temperature-NeverSets), int64(room-NeverSets)
	num, den := uint64(up*up*int64(h.GoesBy.Times)), uint64(down*down*1000)
	h.Least, h.Best = scaled(h.Least, num, den), scaled(h.Best, num, den)
	h.Most, h.Ready = scaled(h.Most, num, den), scaled(h.Ready, num, den)
	return h
}

// Longest is the most that the hold may be in a room that is ever as warm as the kitchen's; of one that
// does not go by that the most that is written.
func (h *Hold) Longest(k *resources.Kitchen) resources.Minutes {
	most := h.In(k.Room).Most
	for _, r := range k.Rooms {
		most = max(most, h.In(r.Is).Most)
	}
	return most
}

// scaled is a length times num / den, exact, and then to the minute with halves up.
func scaled(m resources.Minutes, num, den uint64) resources.Minutes {
	hi, lo := bits.Mul64(2*uint64(m), num)
	lo, carry := bits.Add64(lo, den, 0)
	n, _ := bits.Div64(hi+carry, lo, 2*den)
	return resources.Minutes(n)
}
