package learn

import (
	"math"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record"
	"ripeby/schedule/record/trace"
)

// Yield is how many pieces come from the milk, all that came of all that went in: the mean of the batches'
// own ratios would count a small batch for as much as a large one.
type Yield struct {
	Written schedule.Yield // by the recipe
	Batches int
	Passed  []Passed
	Pieces  int // of all batches together; 0 where there are under [Fewest] batches
	From    resources.Millilitres
	// Scatter is the standard deviation of the batches' own ratios about their mean, as a share of the ratio.
	Scatter float64
}

// Told reports whether there is a yield.
func (y *Yield) Told() bool { return y.Batches >= Fewest && y.Pieces > 0 }

// PerLitre is how many pieces a litre gives.
func (y *Yield) PerLitre() float64 { return float64(y.Pieces) * 1000 / float64(y.From) }

// Low is what 9 in 10 batches of so much milk give at the least: few batches say little, so their scatter is
// taken by Student's t, and the ratio itself for as sure as they make it.
func (y *Yield) Low(litres resources.Millilitres) int {
	n := float64(y.Batches)
	return max(int(math.Floor(y.low(litres, studentQuantile(0.9, y.Batches-1)*math.Sqrt(1+1/n)))), 0)
}

// low is what so much milk gives, less so many times the scatter.
func (y *Yield) low(litres resources.Millilitres, times float64) float64 {
	return float64(litres) / 1000 * y.PerLitre() * (1 - times*y.Scatter)
}

// Same reports whether the recipe says just that.
func (y *Yield) Same() bool {
	return int64(y.Pieces)*int64(y.Written.From) == int64(y.Written.Pieces)*int64(y.From)
}

// yieldOf learns the yield of a recipe.
func yieldOf(r *schedule.Recipe, made []trace.Made) Yield {
	y := Yield{Written: r.Yield}
	var ratios []float64
	for i := range made {
		m := &made[i]
		pieces, known, why := counted(m)
		switch {
		case !known:
			continue
		case why != "":
			y.Passed = append(y.Passed, Passed{called(m), why})
			continue
		}
		y.Batches++
		y.Pieces += pieces
		y.From += m.Filled
		ratios = append(ratios, float64(pieces)*1000/float64(m.Filled))
	}
	if y.Batches < Fewest {
		y.Pieces, y.From = 0, 0
		return y
	}
	y.Scatter = deviation(ratios) / y.PerLitre()
	return y
}

// counted is how many pieces a batch gave, by its first count and what was gone before; false where nobody
// counted.
func counted(m *trace.Made) (pieces int, counted bool, why string) {
	first := m.Said.With(func(e *record.Entry) bool { return e.Batch.Pieces.Given }).ByTime()
	if len(first) == 0 {
		return 0, false, ""
	}
	pieces = first[0].Batch.Pieces.Value
	for _, e := range m.Said {
		if e.At < first[0].At {
			pieces += e.Batch.Gone.Or(0)
		}
	}
	switch {
	case m.Lost:
		return 0, true, "it was lost"
	case !m.FilledSaid || m.Filled <= 0:
		return 0, true, "nobody said that its make went as planned, nor its litres"
	case m.Left != 0 && m.Left <= first[0].At:
		return 0, true, "it was counted first when some had left"
	}
	return pieces, true, ""
}

// deviation is the standard deviation of some numbers, two at the least, about their mean, as of a sample.
func deviation(of []float64) float64 {
	sum := 0.0
	for _, x := range of {
		sum += x
	}
	mean, squares := sum/float64(len(of)), 0.0
	for _, x := range of {
		squares += (x - mean) * (x - mean)
	}
	return math.Sqrt(squares / float64(len(of)-1))
}
