package label

import "ripeby/resources"

// Shortfall is how much below the declared weight a pack may be by the packers' rules of the EU
// (Directive 76/211/EEC, Annex I, 2.4; not rounded): the mean of a batch is not below what is
// declared, at most 1 in 40 is below T1, and none below T2. ok is false outside 5 g to 1 kg, of which
// nothing is told here.
func Shortfall(declared resources.Milligrams) (t1, t2 resources.Milligrams, ok bool) {
	var tolerance resources.Milligrams
	switch {
	case declared < 5*gram:
		return 0, 0, false
	case declared <= 50*gram:
		tolerance = declared * 9 / 100
	case declared <= 100*gram:
		tolerance = 4500
	case declared <= 200*gram:
		tolerance = declared * 45 / 1000
	case declared <= 300*gram:
		tolerance = 9 * gram
	case declared <= 500*gram:
		tolerance = declared * 3 / 100
	case declared <= 1000*gram:
		tolerance = 15 * gram
	default:
		return 0, 0, false
	}
	return declared - tolerance, declared - 2*tolerance, true
}
