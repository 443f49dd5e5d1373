package learn

import (
	"math"

	"ripeby/resources"
	"ripeby/schedule"
)

// coldest is the temperature, in degrees Celsius, at which a set would never come by the rule: the speed of
// a starter is taken to grow with the square of the degrees above it. It is not fitted: a kitchen's room
// spans a few degrees, and two numbers cannot be told apart from ten looks. Sources: the square-root model
// is Ratkowsky's (1982); 4.8 °C comes from two published points, cultured buttermilk at 22 °C, 14 to 16 h
// (a table of fermented milks), and skim milk at 32 °C, 6 h (Mistry and Kosikowski, 1985).
const coldest = 4.8

// Scale is how many times as long a hold takes in a room at one temperature as at another:
//
//	((written - 4.8) / (room - 4.8))²
func Scale(written, room resources.MilliCelsius) float64 {
	ratio := (celsius(written) - coldest) / (celsius(room) - coldest)
	return ratio * ratio
}

func celsius(t resources.MilliCelsius) float64 { return float64(t) / 1000 }

// holds reports whether the rule holds in a room.
func holds(room resources.MilliCelsius) bool {
	return room >= schedule.Coolest && room <= schedule.Warmest
}

// scatterOf is the standard deviation of the logarithm of one batch's time about the median of its kitchen.
func scatterOf(h *schedule.Hold) float64 {
	varies := h.Varies
	if varies == 0 {
		varies = schedule.UsualVaries
	}
	return float64(varies) / 1000
}

// minutes rounds to whole minutes.
func minutes(m float64) resources.Minutes { return resources.Minutes(math.Round(m)) }
