package dose

import (
	"math/big"

	"ripeby/resources"
	"ripeby/schedule"
)

// size is what a dose grows by.
type size struct {
	litres resources.Millilitres
	pieces int
	curd   resources.Milligrams // 0 where nobody has said it
}

// millionths are the parts in which doses are told.
const millionths = 1_000_000

// scaled is a need for one batch, of one strength where the packet that is open says another: exact, in its unit.
// fits is false where what the packet says of its strength says nothing of this need.
func scaled(n *schedule.Need, by size, packet resources.Strength) (amount *big.Rat, unit string, of resources.Strength, fits bool) {
	amount, unit = n.Amount.Rat(), n.Amount.Unit
	switch n.Per {
	case schedule.PerLitre:
		amount.Mul(amount, big.NewRat(int64(by.litres), 1000))
	case schedule.PerPiece:
		amount.Mul(amount, big.NewRat(int64(by.pieces), 1))
	case schedule.PerCurd:
		if by.curd > 0 {
			amount.Mul(amount, big.NewRat(int64(by.curd), 100*1000))
			unit = "g"
		}
		return amount, unit, of, true
	}
	// What it does, in IMCU or the like, stays the same whatever it comes from.
	active, in := amount, unit
	switch {
	case n.Strength.IsZero():
		if resources.KindOf(unit) != resources.Active {
			_, same := resources.InUnit(amount, unit, packet.In) // a mL, or a sachet, of one strength is not one of another
			return amount, unit, of, packet.IsZero() || !same
		}
	case unit == n.Strength.In:
		active, in = new(big.Rat).Mul(amount, n.Strength.Holds.Rat()), n.Strength.Holds.Unit
	}
	of, fits = n.Strength, true
	if !packet.IsZero() {
		if fits = packet.Holds.Unit == in; fits {
			of = packet
		}
	}
	if of.IsZero() {
		return amount, unit, of, fits
	}
	return new(big.Rat).Quo(active, of.Holds.Rat()), of.In, of, fits
}

// parts is a fraction in millionths, the nearest, halves up.
func parts(r *big.Rat) int64 {
	n := new(big.Rat).Mul(r, big.NewRat(millionths, 1))
	n.Add(n, big.NewRat(1, 2))
	return new(big.Int).Div(n.Num(), n.Denom()).Int64()
}
