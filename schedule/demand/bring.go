package demand

import (
	"math/big"

	"ripeby/resources"
)

// FewestDays is how many market days there must be before anything is said.
const FewestDays = 6

// Chances tell how likely it is that more than n pieces are asked for; never growing with n.
type Chances interface{ More(n int) *big.Rat }

// Worth is what a piece costs and brings: Cost to make, Price when sold, Salvage when it is left over.
type Worth struct{ Cost, Price, Salvage resources.Money }

// Enough is the smallest number from least to most pieces at which one more is not worth its cost: it would cost
// more than it brings by the chance that it sells, or just as much. ok is false where one more than most still
// is. With costs, this is the smallest Q with F(Q) >= (price - cost)/(price - salvage).
func Enough(of Chances, w Worth, least, most int) (n int, ok bool) {
	lost := big.NewRat(int64(w.Cost-w.Salvage), 1)
	gain := big.NewRat(int64(w.Price-w.Salvage), 1)
	for n = least; n <= most; n++ {
		if new(big.Rat).Mul(gain, of.More(n)).Cmp(lost) <= 0 {
			return n, true
		}
	}
	return most, false
}

// Advice is how many to bring.
type Advice struct {
	Days, SoldOut int // so many days tell, of which on so many everything was sold
	Low, High     int // the fewest and the most that were sold on a day

	Pieces  int  // how many to bring, where Known
	Known   bool // there are days enough, and what a piece costs is known
	AtLeast bool // no day has shown that more than Pieces would be too many
	// AllThatKeep: one that is left over would sell next time, so the shelf and the date are what bind, and not
	// this number.
	AllThatKeep bool
}

// Advise says how many to bring by market days. keeps says that a piece which is left over keeps until the next
// such day, and may be sold then, before others: what it brings is its price by the chance of that. cost 0 is one
// that is not known.
func Advise(days []Day, cost, price resources.Money, keeps bool) (a Advice) {
	a.Days = len(days)
	for i, d := range days {
		if d.SoldOut {
			a.SoldOut++
		}
		if i == 0 || d.Sold < a.Low {
			a.Low = d.Sold
		}
		a.High = max(a.High, d.Sold)
	}
	if a.Days < FewestDays || cost <= 0 {
		return a
	}
	a.Known = true
	c := CurveOf(days)
	if !keeps {
		n, ok := Enough(c, Worth{Cost: cost, Price: price}, 0, c.Most())
		a.Pieces, a.AtLeast = n, !ok
		return a
	}
	n, ok := Enough(twice{c}, Worth{Cost: cost, Price: price}, 0, c.Most())
	a.Pieces, a.AllThatKeep = n, !ok
	return a
}

// twice are the chances that one piece more is sold on a day or, left over, on the next, where all that is left
// over is sold before what is new.
type twice struct{ *Curve }

// More is the chance for the piece after n: that more than n are asked for on the day; else, by how many were
// not, that so many and one are on the next.
func (t twice) More(n int) *big.Rat {
	sum := new(big.Rat).Set(t.Curve.More(n))
	for d := 0; d <= n; d++ {
		sum.Add(sum, new(big.Rat).Mul(t.exactly(d), t.least(n+1-d)))
	}
	return sum
}
