package learn

import "math"

// spreadOfKitchens is how much kitchens scatter about a recipe: the standard deviation of the logarithm of
// their factors. Common practice, from the range of the published points that rule_test.go lists.
const spreadOfKitchens = 0.35

// The logarithm of a factor is looked for on a grid: so fine that the fourth digit of a factor is right, and
// so wide that all is in it (0.05 to 20 times as long).
const (
	fine   = 0.0005
	widest = 6000 // grid steps on either side of 0
	// ignored is how far below its highest point the logarithm of the density is not followed any more.
	ignored = 25
)

// Wait is what is known of how long one hold takes until it is ready, as a multiple of what its recipe and
// the rule say: longer than Over, 0 where nobody looked, and at most Under, infinite where it was not seen
// ready.
type Wait struct{ Over, Under float64 }

// Posterior is what is known of the logarithm of a kitchen's factor after some waits: its mean and standard
// deviation, and on a grid which share lies below.
type Posterior struct {
	Mean, SD float64

	first float64   // the middle of the first cell
	below []float64 // the share in all cells up to each, itself included
}

// Fit gives what is known of a factor from waits that scatter by so much each:
//
//	p(m) ~ exp(-m²/2·0.35²) · Π [Φ((ln Under - m)/scatter) - Φ((ln Over - m)/scatter)]
//
// Each part is log-concave, so there is one highest point, which is found by halving; from there the grid is
// followed down both sides. Cost: O(waits · (log steps + steps that count)).
func Fit(waits []Wait, scatter float64) Posterior {
	density := func(step int) float64 { return logDensity(float64(step)*fine, waits, scatter) }
	low, high := -widest, widest
	for low < high {
		mid := low + (high-low)/2
		if density(mid) < density(mid+1) {
			low = mid + 1
		} else {
			high = mid
		}
	}
	top := density(low)
	from, to := low, low
	for from > -widest && density(from-1) > top-ignored {
		from--
	}
	for to < widest && density(to+1) > top-ignored {
		to++
	}
	p := Posterior{first: float64(from) * fine, below: make([]float64, to-from+1)}
	sum := 0.0
	for i := range p.below {
		sum += math.Exp(density(from+i) - top)
		p.below[i] = sum
	}
	before, squares := 0.0, 0.0
	for i := range p.below {
		p.below[i] /= sum
		share, at := p.below[i]-before, p.first+float64(i)*fine
		p.Mean += share * at
		squares += share * at * at
		before = p.below[i]
	}
	p.SD = math.Sqrt(max(squares-p.Mean*p.Mean, 0))
	return p
}

// logDensity is the logarithm of the density at a factor's logarithm, but for a constant.
func logDensity(m float64, waits []Wait, scatter float64) float64 {
	sum := -m * m / (2 * spreadOfKitchens * spreadOfKitchens)
	for _, w := range waits {
		sum += logBetween((math.Log(w.Over)-m)/scatter, (math.Log(w.Under)-m)/scatter)
	}
	return sum
}

// Quantile is the logarithm of the factor below which a share q of what is possible lies, 0 < q < 1.
func (p *Posterior) Quantile(q float64) float64 {
	before := 0.0
	for i, share := range p.below {
		if share >= q {
			return p.first + (float64(i)-0.5+(q-before)/(share-before))*fine
		}
		before = share
	}
	return p.first + float64(len(p.below))*fine
}

// Next is how the next batch scatters about the factor: not only does one batch differ from another, the
// factor itself is not known for sure.
func (p *Posterior) Next(scatter float64) float64 { return math.Hypot(p.SD, scatter) }
