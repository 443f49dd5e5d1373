// Package settime is the rule by which a hold goes by the room and differs from batch to batch: how many times as
// long it takes at another temperature, how one batch scatters about its median, and what is left of a hold of which
// somebody found that it is not over. All of it is time, and none of it safety.
package settime

import (
	"math"

	"ripeby/resources"
	"ripeby/schedule"
)

// Scale is how many times as long a hold takes in a room at one temperature than at another:
//
//	((written - 4.8) / (room - 4.8))²
//
// It is the rule of [schedule.Hold.In], of which learning wants more than whole minutes.
func Scale(written, room resources.MilliCelsius) float64 {
	ratio := float64(written-schedule.NeverSets) / float64(room-schedule.NeverSets)
	return ratio * ratio
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

// StillUnset is the band of a length that is known to be longer than so many minutes.
func StillUnset(median, scatter, longer float64) Band {
	return Band{Above(median, scatter, longer, 0.9), Above(median, scatter, longer, 0.5), Above(median, scatter, longer, 0.1)}
}

// Above is the length above which a share lies of those that are known to be longer than so many minutes, 0 for no
// such knowledge: with F the share that is ready by then and S the one that is not,
//
//	F⁻¹(1 - share·S(longer))
func Above(median, scatter, longer, share float64) resources.Minutes {
	z := math.Inf(-1)
	if longer > 0 {
		z = math.Log(longer/median) / scatter
	}
	if z > far {
		return minutes(longer * math.Exp(scatter*(farOut(z, -math.Log(share))-z)))
	}
	return minutes(median * math.Exp(scatter*math.Sqrt2*math.Erfcinv(share*math.Erfc(z/math.Sqrt2))))
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

// Left is how much of a hold is left in half of all batches that are not ready after so long, in a room as warm
// as this; false where its recipe does not say when it is ready, or the rule does not hold there. A recipe that names
// no temperature is taken for the room as it is.
func Left(h *schedule.Hold, room resources.MilliCelsius, after resources.Minutes) (resources.Minutes, bool) {
	if h == nil || h.Ready == 0 || after <= 0 || h.ByRoom() && !schedule.Follows(room) {
		return 0, false
	}
	return max(Above(float64(h.In(room).Ready), Scatter(h), float64(after), 0.5)-after, 1), true
}

// minutes rounds to whole minutes.
func minutes(m float64) resources.Minutes { return resources.Minutes(math.Round(m)) }
