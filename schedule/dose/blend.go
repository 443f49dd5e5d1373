package dose

import "math/big"

// Blend says how much of each of two things, of a and of b per cent, makes so much of what has want per cent: of
// milk and cream by their fat, or of two brines. ok is false where want does not lie between the two.
func Blend(a, b, want, all *big.Rat) (ofA, ofB *big.Rat, ok bool) {
	low, high := a, b
	if low.Cmp(high) > 0 {
		low, high = high, low
	}
	if low.Cmp(high) == 0 || want.Cmp(low) < 0 || want.Cmp(high) > 0 {
		return nil, nil, false
	}
	ofA = new(big.Rat).Sub(want, b)
	ofA.Mul(ofA, all)
	ofA.Quo(ofA, new(big.Rat).Sub(a, b))
	return ofA, new(big.Rat).Sub(all, ofA), true
}

// BlendWith says how much of something of b per cent brings so much of something of a per cent to want per cent. ok
// is false where want does not lie between the two, or is b itself: no amount of it would do.
func BlendWith(a, amount, b, want *big.Rat) (ofB *big.Rat, ok bool) {
	if _, _, ok := Blend(a, b, want, amount); !ok || want.Cmp(b) == 0 {
		return nil, false
	}
	ofB = new(big.Rat).Sub(a, want)
	ofB.Mul(ofB, amount)
	return ofB.Quo(ofB, new(big.Rat).Sub(want, b)), true
}
