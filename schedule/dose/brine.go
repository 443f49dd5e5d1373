package dose

import "math/big"

// Strengths of brine are per cent by weight of the brine (w/w): of 100 g of brine at 18 %, 18 g are salt. Other
// pages reckon per litre of water, or of brine; the same number says something else there.

// Saturated is how strong a brine becomes at 20 °C, where 35.9 g of salt dissolve in 100 g of water: in per cent
// by weight of the brine, as it is commonly rounded.
func Saturated() *big.Rat { return rat(264, 10) }

// full is all of something, in per cent.
func full() *big.Rat { return rat(100, 1) }

// BrineSalt is how much salt makes a brine of so many per cent of so much water, in the unit of the water:
// water x p / (100 - p). percent is below 100.
func BrineSalt(percent, water *big.Rat) *big.Rat {
	salt := new(big.Rat).Mul(water, percent)
	return salt.Quo(salt, new(big.Rat).Sub(full(), percent))
}

// BrinePercent is how strong a brine of so much salt in so much water is, both in one unit, in per cent.
func BrinePercent(salt, water *big.Rat) *big.Rat {
	all := new(big.Rat).Add(salt, water)
	return all.Quo(new(big.Rat).Mul(full(), salt), all)
}

// BrineRaise is how much salt brings so much brine from one strength to a higher one, in the unit of the brine:
// brine x (to - from) / (100 - to). to is below 100.
func BrineRaise(from, to, brine *big.Rat) *big.Rat {
	salt := new(big.Rat).Mul(brine, new(big.Rat).Sub(to, from))
	return salt.Quo(salt, new(big.Rat).Sub(full(), to))
}

// OfBaume is how heavy a brine of so many degrees Baumé is against water, on the scale of modulus 145 for what is
// heavier than water: 145 / (145 - degrees). degrees is below 145.
func OfBaume(degrees *big.Rat) *big.Rat {
	modulus := rat(145, 1)
	return new(big.Rat).Quo(modulus, new(big.Rat).Sub(modulus, degrees))
}

// OfSalometer is how strong a brine of so many degrees of a salometer is, in per cent: 100 degrees are a saturated
// brine.
func OfSalometer(degrees *big.Rat) *big.Rat {
	p := new(big.Rat).Mul(Saturated(), degrees)
	return p.Quo(p, full())
}

// BrineLeast is how much brine there should be for so much cheese, both by volume: one and a half times as much.
func BrineLeast(cheese *big.Rat) *big.Rat { return new(big.Rat).Mul(cheese, rat(3, 2)) }

// CalciumMost is how much calcium chloride, without water and as the dihydrate, makes 0.02 % of the weight of so
// much milk: the most that the United States allow (21 CFR 133, from memory). Molar masses are 110.98 and 147.01 g.
func CalciumMost(milk *big.Rat) (anhydrous, dihydrate *big.Rat) {
	anhydrous = new(big.Rat).Mul(milk, rat(2, 10_000))
	return anhydrous, new(big.Rat).Mul(anhydrous, rat(14_701, 11_098))
}

// BeforeLoss is what something has to weigh to have so much left after so many per cent of it have dried off:
// left / (1 - loss / 100). loss is below 100.
func BeforeLoss(left, loss *big.Rat) *big.Rat {
	all := new(big.Rat).Mul(left, full())
	return all.Quo(all, new(big.Rat).Sub(full(), loss))
}
