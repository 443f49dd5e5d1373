package demand

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"ripeby/resources"
)

// table are chances of single numbers of pieces, in whole parts of of.
type table struct {
	of    int64
	parts map[int]int64
}

func (t table) More(n int) *big.Rat {
	sum := int64(0)
	for at, part := range t.parts {
		if at > n {
			sum += part
		}
	}
	return big.NewRat(sum, t.of)
}

// days are market days with more than enough brought.
func plenty(sold ...int) (all []Day) {
	for _, n := range sold {
		all = append(all, Day{Brought: n + 10, Sold: n})
	}
	return all
}

// cdf are chances by a distribution function, to 12 digits.
type cdf func(x float64) float64

func (f cdf) More(n int) *big.Rat { return new(big.Rat).SetFloat64(1 - f(float64(n))) }

func normal(mean, sd float64) cdf {
	return func(x float64) float64 { return 0.5 * math.Erfc(-(x-mean)/sd/math.Sqrt2) }
}

func poisson(mean float64) cdf {
	return func(x float64) float64 {
		sum, p := 0.0, math.Exp(-mean)
		for k := 0; k <= int(x); k++ {
			sum += p
			p *= mean / float64(k+1)
		}
		return sum
	}
}

// Worked examples of the newsvendor's problem, as courses print them.
func TestPublishedExamples(t *testing.T) {
	market := plenty(14, 16, 18, 18, 19, 20, 20, 22, 24, 27)
	for _, c := range []struct {
		name string
		of   Chances
		w    Worth
		want int
	}{
		// N1: the ratio is met exactly, so fractions and not floats (neoprimate.github.io, IEOR course, newsvendor discrete).
		{"N1 six weeks", CurveOf(plenty(10, 12, 14, 14, 16, 20)), Worth{400, 1000, 100}, 14},
		// N2: Freddie the newsboy (Hillier and Lieberman, exercise).
		{"N2 newsboy", table{10, map[int]int64{15: 4, 16: 2, 17: 3, 18: 1}}, Worth{150, 250, 50}, 16},
		// N3: short 2, over 1 (a course's exercise, tutorsglobe 5733979); by tens, so that the next ten is asked about.
		{"N3 by tens", table{10, map[int]int64{1: 2, 2: 3, 3: 3, 4: 1, 5: 1}}, Worth{100, 300, 0}, 3},
		// N4: gain 40, loss 10: 1168.3 (tutorsglobe 52554787).
		{"N4 normal", normal(1000, 200), Worth{1000, 5000, 0}, 1169},
		// N5: gain 30, loss 20: 1050.7 (tutorsglobe 51686643).
		{"N5 normal", normal(1000, 200), Worth{2000, 5000, 0}, 1051},
		// N6: the page prints 92.6, for it lost the sign of z; 68.7 is right (qammunity.org 6843903).
		{"N6 normal", normal(80, 30), Worth{14000, 20000, 3000}, 69},
		// N7: of our own, worked by trying all numbers.
		{"N7 ten markets", CurveOf(market), Worth{220, 650, 0}, 20},
		{"N7 poisson 18", poisson(18), Worth{220, 650, 0}, 20},
		{"N7 poisson 20", poisson(20), Worth{220, 650, 0}, 22},
	} {
		if got, ok := Enough(c.of, c.w, 0, 5000); got != c.want || !ok {
			t.Errorf("%s: got %d (%v), want %d", c.name, got, ok, c.want)
		}
	}
}

// eight are N8's days: 9 of 12 sold, 12 of 12, 11 of 14, and so on.
var eight = []Day{{12, 9, false}, {12, 12, true}, {14, 11, false}, {14, 14, true}, {16, 13, false}, {16, 16, true}, {18, 13, false}, {18, 15, false}}

// N8, of our own by hand, after Kaplan and Meier: sold-out days tell that more might have gone.
func TestSoldOutDaysAreCensored(t *testing.T) {
	c := CurveOf(eight)
	for _, want := range []struct {
		after int
		more  *big.Rat
	}{{8, big.NewRat(1, 1)}, {9, big.NewRat(7, 8)}, {10, big.NewRat(7, 8)}, {11, big.NewRat(3, 4)}, {12, big.NewRat(3, 4)}, {13, big.NewRat(9, 20)}, {14, big.NewRat(9, 20)}, {15, big.NewRat(9, 40)}, {40, big.NewRat(9, 40)}} {
		if got := c.More(want.after); got.Cmp(want.more) != 0 {
			t.Errorf("after %d: got %v, want %v", want.after, got, want.more)
		}
	}
	naive := make([]Day, len(eight))
	for i, d := range eight {
		naive[i] = Day{d.Brought, d.Sold, false}
	}
	for _, want := range []struct {
		days  []Day
		price resources.Money
		n     int
	}{{eight, 200, 13}, {eight, 300, 15}, {naive, 300, 14}} {
		if got, ok := Enough(CurveOf(want.days), Worth{Cost: 100, Price: want.price}, 0, 16); got != want.n || !ok {
			t.Errorf("at %d: got %d (%v), want %d", want.price, got, ok, want.n)
		}
	}
}

// Where the days do not show that more would be too many, it is said to be the least.
func TestMoreThanWasEverSeen(t *testing.T) {
	if a := Advise(eight, 100, 1000, false); !a.Known || !a.AtLeast || a.Pieces != 16 {
		t.Errorf("got %+v, want at least 16", a)
	}
}

func TestWhenNothingIsSaid(t *testing.T) {
	if a := Advise(eight[:5], 100, 300, false); a.Known || a.Days != 5 || a.SoldOut != 2 || a.Low != 9 || a.High != 14 {
		t.Errorf("five days: got %+v", a)
	}
	if a := Advise(eight, 0, 300, false); a.Known {
		t.Errorf("cost not known: got %+v", a)
	}
	if a := Advise(eight, 300, 300, false); a.Pieces != 0 || !a.Known {
		t.Errorf("it costs what it brings: got %+v, want 0", a)
	}
}

// What keeps until the next day is worth bringing more of, up to all that keep.
func TestWhatKeeps(t *testing.T) {
	days := plenty(14, 16, 18, 18, 19, 20, 20, 22, 24, 27)
	once, twice := Advise(days, 220, 650, false), Advise(days, 220, 650, true)
	if once.Pieces != 20 || twice.Pieces <= once.Pieces && !twice.AllThatKeep {
		t.Errorf("got %+v and, where it keeps, %+v", once, twice)
	}
	if a := Advise(plenty(0, 0, 0, 0, 0, 6), 220, 650, true); a.Pieces >= 6 && a.AllThatKeep {
		t.Errorf("a market where little is sold: got %+v", a)
	}
}

// The answer is the number with the most to be earned, by trying them all; of several the smallest.
func TestEnoughIsBest(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 16))
	for range 2000 {
		days := make([]Day, 6+random.IntN(6))
		for i := range days {
			days[i] = Day{Brought: 40, Sold: random.IntN(25)}
		}
		w := Worth{Price: resources.Money(2 + random.IntN(20)), Salvage: resources.Money(random.IntN(2))}
		w.Cost = w.Salvage + resources.Money(random.IntN(int(w.Price-w.Salvage)))
		best, at := int64(math.MinInt64), 0
		for q := 0; q <= 30; q++ {
			earned := int64(0)
			for _, d := range days {
				sold := min(q, d.Sold)
				earned += int64(w.Price)*int64(sold) + int64(w.Salvage)*int64(q-sold) - int64(w.Cost)*int64(q)
			}
			if earned > best {
				best, at = earned, q
			}
		}
		if w.Cost == w.Salvage {
			continue // then any number more is as good
		}
		if got, ok := Enough(CurveOf(days), w, 0, 30); got != at || !ok {
			t.Fatalf("%v, %+v: got %d (%v), want %d", days, w, got, ok, at)
		}
	}
}
