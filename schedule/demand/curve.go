package demand

import (
	"math/big"
	"slices"
)

// Day is one market day, in pieces.
type Day struct {
	Brought int  // at least Sold
	Sold    int  // what did not come back
	SoldOut bool // nothing was left at the end, or for the last hours: more may have been asked for
}

// Curve is what is known of how many pieces are asked for on a day.
type Curve struct {
	at   []int      // numbers of pieces, rising, at which a day's demand is known to have ended
	more []*big.Rat // the chance that more than at[i] are asked for
	most int        // the largest number sold on any day
}

// CurveOf is the product-limit estimate of days.
func CurveOf(days []Day) *Curve {
	c := &Curve{}
	of := slices.Clone(days)
	slices.SortFunc(of, func(a, b Day) int { return a.Sold - b.Sold })
	left := big.NewRat(1, 1)
	for i := 0; i < len(of); {
		end, known := i, 0
		for ; end < len(of) && of[end].Sold == of[i].Sold; end++ {
			if !of[end].SoldOut {
				known++
			}
		}
		if known > 0 { // of those of the same number, sold-out days count as still at risk
			atRisk := len(of) - i
			left = new(big.Rat).Mul(left, big.NewRat(int64(atRisk-known), int64(atRisk)))
			c.at, c.more = append(c.at, of[i].Sold), append(c.more, left)
		}
		c.most = of[i].Sold
		i = end
	}
	return c
}

// More is the chance that more than n pieces are asked for. Beyond all that was ever seen it stays what it was
// at the largest number: how much more is not known.
func (c *Curve) More(n int) *big.Rat {
	i, found := slices.BinarySearch(c.at, n)
	if found {
		i++
	}
	if i == 0 {
		return big.NewRat(1, 1)
	}
	return c.more[i-1]
}

// Most is the largest number that was sold on a day.
func (c *Curve) Most() int { return c.most }

// least is the chance that at least n are asked for.
func (c *Curve) least(n int) *big.Rat { return c.More(n - 1) }

// exactly is the chance that n are asked for.
func (c *Curve) exactly(n int) *big.Rat { return new(big.Rat).Sub(c.least(n), c.More(n)) }
