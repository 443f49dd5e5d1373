// Package settime is the rule by which a hold goes by the room and differs from batch to batch: how many times as
// long it takes at another temperature, how one batch scatters about its median, and what is left of a hold of which
// somebody found that it is not over. All of it is time, and none of it safety.
package settime

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

// Scale is how many times as long a hold takes in a room at one temperature than at another:
//
//	((written - 4.8) / (room - 4.8))²
func Scale(written, room resources.MilliCelsius) float64 {
	ratio := (celsius(written) - coldest) / (celsius(room) - coldest)
	return ratio * ratio
}

func celsius(t resources.MilliCelsius) float64 { return float64(t) / 1000 }

// Applies reports whether the rule holds in a room.
func Applies(room resources.MilliCelsius) bool {
	return room >= schedule.Coolest && room <= schedule.Warmest
}

// Scatter is the standard deviation of the logarithm of one batch's time about the median of its kitchen.
func Scatter(h *schedule.Hold) float64 {
	varies := h.Varies
	if varies == 0 {
		varies = schedule.UsualVaries
	}
	return float64(varies) / 1000
}

// Band is a length below which 1 in 10, half, and 9 in 10 lie.
type Band struct{ Low, Median, High resources.Minutes }

// Spread is the band of a length, in minutes, whose logarithm scatters by so much about its median.
func Spread(median, scatter float64) Band {
	return StillUnset(median, scatter, 0)
}

// StillUnset is the band of a length that is known to be longer than so many minutes: with F the share that is
// ready by then and S the one that is not, the share q of those lies below
//
//	F⁻¹(1 - (1 - q)·S(longer))
func StillUnset(median, scatter, longer float64) Band {
	z := math.Inf(-1)
	if longer > 0 {
		z = math.Log(longer/median) / scatter
	}
	at := func(q float64) resources.Minutes {
		if z > far {
			return minutes(longer * math.Exp(scatter*(farOut(z, -math.Log(1-q))-z)))
		}
		return minutes(median * math.Exp(scatter*math.Sqrt2*math.Erfcinv((1-q)*math.Erfc(z/math.Sqrt2))))
	}
	return Band{at(0.1), at(0.5), at(0.9)}
}

// far is from how many standard deviations on Erfcinv loses its digits.
const far = 6

// farOut is the standard normal above which e^-less times as much lies as above z, far out: there what lies
// above x is φ(x)/x, but for a share of 1/x² of it, so x²/2 + ln x is sought, by Newton.
func farOut(z, less float64) float64 {
	x := math.Sqrt(z*z + 2*less)
	for range 3 {
		x -= (x*x/2 + math.Log(x) - z*z/2 - math.Log(z) - less) / (x + 1/x)
	}
	return x
}

// Median is the time, in minutes, within which a hold is ready in half of all batches, in a room as warm as this; false
// where its recipe does not say when it is ready, or the rule does not hold there. A recipe that names no temperature
// is taken for the room as it is.
func Median(h *schedule.Hold, room resources.MilliCelsius) (float64, bool) {
	if h == nil || h.Ready == 0 {
		return 0, false
	}
	median := float64(h.Ready)
	if by := h.GoesBy; by != (schedule.GoesBy{}) {
		if !Applies(room) {
			return 0, false
		}
		median *= Scale(by.Temperature, room) * float64(by.Times) / 1000
	}
	return median, true
}

// Left is how much of a hold is left in half of all batches that are not ready after so long; false where [Median]
// is not known.
func Left(h *schedule.Hold, room resources.MilliCelsius, after resources.Minutes) (resources.Minutes, bool) {
	median, ok := Median(h, room)
	if !ok || after <= 0 {
		return 0, false
	}
	return max(StillUnset(median, Scatter(h), float64(after)).Median-after, 1), true
}

// minutes rounds to whole minutes.
func minutes(m float64) resources.Minutes { return resources.Minutes(math.Round(m)) }
