package dose

import (
	"math/big"
	"math/bits"

	"ripeby/resources"
)

// step is a least step, and below which size it is what is shown.
type step struct{ below, step *big.Rat }

// What can be measured where the kitchen does not say what its scale shows. A small scale shows hundredths of a gram,
// a kitchen's whole ones; a syringe of 1 mL hundredths of a mL, larger ones tenths. Ounces are shown to a hundredth
// and, from ten on, to a tenth. What is told in IMCU or DCU nobody weighs: it is told to about three figures. What is
// counted is halved at the most, and a drop is whole.
var (
	gramSteps   = []step{{rat(10, 1), rat(1, 100)}, {rat(100, 1), rat(1, 10)}, {nil, rat(1, 1)}}
	ounceSteps  = []step{{rat(10, 1), rat(1, 100)}, {nil, rat(1, 10)}}
	mlSteps     = []step{{rat(1, 1), rat(1, 100)}, {nil, rat(1, 10)}}
	activeSteps = gramSteps
	halves      = []step{{nil, rat(1, 2)}}
	wholes      = []step{{nil, rat(1, 1)}}
)

func rat(a, b int64) *big.Rat { return big.NewRat(a, b) }

// measurable is a size in the unit in which it is told, and rounded to what can be measured there: 0 where it is less
// than the least step.
func measurable(size *big.Rat, unit string, scale resources.Amount) (told *big.Rat, in string, rounded *big.Rat) {
	switch resources.KindOf(unit) {
	case resources.Weighed:
		return weighed(size, unit, scale)
	case resources.Active:
		return size, unit, nearest(size, activeSteps)
	case resources.Measured:
		switch {
		case resources.IsSpoon(unit):
			return spooned(size, unit)
		case unit == resources.Drops:
			return size, unit, nearest(size, wholes)
		}
		return size, unit, through(size, unit, "mL", mlSteps)
	}
	return size, unit, nearest(size, halves)
}

// weighed goes by the scale: what is written in ounces is told in grams where the scale is said to show grams, and
// the other way round; pounds in ounces.
func weighed(size *big.Rat, unit string, scale resources.Amount) (*big.Rat, string, *big.Rat) {
	pounds := unit == "oz" || unit == "lb"
	base, steps := "g", gramSteps
	if pounds && scale.IsZero() || scale.Unit == "oz" || scale.Unit == "lb" {
		base, steps = "oz", ounceSteps
	}
	if unit == "lb" || pounds != (base == "oz") {
		size, _ = resources.InUnit(size, unit, base)
		unit = base
	}
	if !scale.IsZero() {
		one, _ := resources.InUnit(scale.Rat(), scale.Unit, base)
		steps = []step{{nil, one}}
	}
	return size, unit, through(size, unit, base, steps)
}

// through rounds in another unit than the one in which a size is told.
func through(size *big.Rat, unit, base string, steps []step) *big.Rat {
	there, _ := resources.InUnit(size, unit, base)
	back, _ := resources.InUnit(nearest(there, steps), base, unit)
	return back
}

// nearest rounds to the step that a size asks for, halves up.
func nearest(size *big.Rat, steps []step) *big.Rat {
	for _, s := range steps {
		if s.below == nil || size.Cmp(s.below) < 0 {
			return toStep(size, s.step)
		}
	}
	return size
}

// toStep rounds to a whole number of steps, halves up.
func toStep(size, step *big.Rat) *big.Rat {
	n := new(big.Rat).Quo(size, step)
	n.Add(n, rat(1, 2))
	whole := new(big.Int).Div(n.Num(), n.Denom())
	return new(big.Rat).Mul(new(big.Rat).SetInt(whole), step)
}

// A set of spoons goes from 1 down to 1/64, each half of the one before. Of the small ones at most two are filled for
// one dose: more of them err more than they mend.
const (
	smallestSpoon = 64
	mostSpoons    = 2
)

// spooned tells tablespoons as teaspoons, three each, unless they come out at halves.
func spooned(size *big.Rat, unit string) (*big.Rat, string, *big.Rat) {
	if small, ok := map[string]string{"tbsp": "tsp", "tbsp (metric)": "tsp (metric)"}[unit]; ok {
		if new(big.Rat).Mul(size, rat(2, 1)).IsInt() {
			return size, unit, size
		}
		size, _ = resources.InUnit(size, unit, small)
		unit = small
	}
	whole := new(big.Int).Div(size.Num(), size.Denom())
	base := new(big.Rat).SetInt(whole)
	best, least := base, new(big.Rat).Sub(size, base)
	for n := int64(1); n <= smallestSpoon; n++ {
		if n < smallestSpoon && bits.OnesCount64(uint64(n)) > mostSpoons {
			continue
		}
		with := new(big.Rat).Add(base, rat(n, smallestSpoon))
		off := new(big.Rat).Sub(size, with)
		if off.Abs(off).Cmp(least) < 0 {
			best, least = with, off
		}
	}
	return size, unit, best
}
