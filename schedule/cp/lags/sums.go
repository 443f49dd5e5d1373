package lags

import (
	"math"
	"math/bits"
)

// startLooks is how many looks the sum of a start counts anyhow: its first few are free.
const startLooks = 4

// Sums finds, for each of some starts, the least sum of the cost of a lag and of what a row has at
// its end: the next activity's chains on, or with way -1 the last one's up to there. Its zero value is
// ready for [Sums.Over]; it keeps its memory for the next row.
type Sums struct {
	Starts []int32 // in places of the row, in order
	Out    []int32 // of each start, Unreachable where there is none
	Looks  int64   // so far, at the row and for the starts

	lag   *Table
	way   int
	row   []int32
	tops  []int32 // last place for each start
	some  []int32 // how many places before each can be
	open  []int32 // starts after which some place can be, by where they stand
	table leastTable
}

// Over begins with a lag, a row and no starts. The row must not change until sums are found.
func (f *Sums) Over(lag *Table, way int, row []int32) {
	f.lag, f.way, f.row, f.Looks = lag, way, row, int64(len(row))
	f.Starts, f.tops, f.Out = f.Starts[:0], f.tops[:0], f.Out[:0]
}

// Add adds a start, which is after those before it; it may go on no later than at top.
func (f *Sums) Add(start, top int) {
	f.Starts, f.tops = append(f.Starts, int32(start)), append(f.tops, int32(min(top, len(f.row)-1)))
	f.Out = append(f.Out, Unreachable)
	f.Looks += startLooks
}

// Any fills Out with nothing wherever anything can be.
func (f *Sums) Any() {
	f.look()
	for _, x := range f.open {
		f.Out[x] = 0
	}
}

// bandsShare is how many different costs for each halving of the starts are looked through before it
// pays to go by their order.
const bandsShare = 2

// Find fills Out with sums below a ceiling.
func (f *Sums) Find(ceiling int32) {
	f.look()
	n := 0 // costs that may come into question
	for n < len(f.lag.Bands) && f.lag.Bands[n].Cost < ceiling {
		n++
	}
	if len(f.open) > 0 && n > bandsShare*bits.Len(uint(len(f.open))) && f.lag.convex() != nil && f.inOrder() {
		f.between(f.lag.convex(), 0, len(f.open), 0, len(f.row)-1)
	} else {
		f.byBands(ceiling)
	}
	for x, v := range f.Out {
		if v >= ceiling {
			f.Out[x] = Unreachable
		}
	}
}

// look finds the starts after which something can be.
func (f *Sums) look() {
	f.some = append(f.some[:0], 0)
	for x, v := range f.row {
		f.some = append(f.some, f.some[x])
		if v < Unreachable {
			f.some[x+1]++
		}
	}
	f.open = f.open[:0]
	for x := range f.Starts {
		if from, to := f.reach(x); from <= to && f.some[to+1] > f.some[from] {
			f.open = append(f.open, int32(x))
		}
	}
}

// inOrder reports whether no start must go on before one that is before it.
func (f *Sums) inOrder() bool {
	for x := 1; x < len(f.open); x++ {
		if f.tops[f.open[x]] < f.tops[f.open[x-1]] {
			return false
		}
	}
	return true
}

// reach is the places that a start's lag may go to.
func (f *Sums) reach(start int) (from, to int) {
	at := int(f.Starts[start])
	if from, to = at+f.lag.Least, at+f.lag.Most; f.way < 0 {
		from, to = at-f.lag.Most, at-f.lag.Least
	}
	return max(from, 0), min(to, int(f.tops[start]))
}

// byBands tries the lengths of each start cost by cost, the cheapest first.
func (f *Sums) byBands(ceiling int32) {
	f.table.fill(f.row)
	for _, x := range f.open {
		from, to := f.reach(int(x))
		v, tried := f.table.over(f.lag, f.way, int(f.Starts[x]), int(f.tops[x]), f.table.of(from, to), ceiling)
		f.Out[x] = v
		f.Looks += max(tried-startLooks, 0)
	}
}

// between fills Out for the open starts from a up to b, whose best places are from lo to hi: see
// convexCost.
func (f *Sums) between(c *convexCost, a, b, lo, hi int) {
	for a < b {
		mid := (a + b) / 2
		x := int(f.open[mid])
		from, to := f.reach(x)
		from, to = max(from, lo), min(to, hi)
		// A step along the row is a step along the lag, one way or the other.
		length := (from-int(f.Starts[x]))*f.way - c.least
		best, at := int64(math.MaxInt64), lo
		for p := from; p <= to; p, length = p+1, length+f.way {
			if sum := int64(f.row[p])*fine + c.cost[length]; sum < best {
				best, at = sum, p
			}
		}
		f.Looks += int64(max(to-from-startLooks, 0))
		f.Out[x] = int32(min((best+fine-1)/fine, int64(Unreachable)))
		f.between(c, a, mid, lo, at)
		a, lo = mid+1, at
	}
}
