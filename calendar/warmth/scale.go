package warmth

import (
	"ripeby/resources"
	"ripeby/schedule/readings"
)

// scale is which temperatures a picture shows: whole steps from the least to the greatest.
type scale struct {
	least, greatest, step resources.MilliCelsius
}

// mostSteps is how many steps there are at the most, and leastReach the fewest degrees that they cover: a place
// that keeps its temperature shows a calm line, and not the last digit of its thermometer.
const (
	mostSteps  = 6
	leastReach = 4000
)

// scaleOf is the scale for some readings, at least one.
func scaleOf(all []readings.Reading) scale {
	least, greatest := readings.Coldest(all).Is, readings.Warmest(all).Is
	if short := leastReach - (greatest - least); short > 0 {
		least -= short / 2
		greatest = least + leastReach
	}
	for _, step := range []resources.MilliCelsius{1000, 2000, 5000, 10_000, 20_000} {
		s := scale{down(least, step), -down(-greatest, step), step}
		if (s.greatest-s.least)/step <= mostSteps {
			return s
		}
	}
	return scale{down(least, 50_000), -down(-greatest, 50_000), 50_000}
}

// down is the next multiple of a step that is not above.
func down(t, step resources.MilliCelsius) resources.MilliCelsius {
	rest := t % step
	if rest < 0 {
		rest += step
	}
	return t - rest
}
