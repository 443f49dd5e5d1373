package needs

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// Size is how large a batch is.
type Size struct {
	Litres resources.Millilitres
	Pieces int
}

// AllSizes lists the sizes that a recipe allows, smallest first.
func AllSizes(r *schedule.Recipe) []Size {
	var out []Size
	for l := r.Batch.Least; l <= r.Batch.Most; l += r.Batch.Step {
		out = append(out, Size{l, Pieces(r, l)})
		if r.Batch.Step <= 0 {
			break
		}
	}
	return out
}

// Sizes lists the sizes worth making: those that have pieces to sell, and of sizes that
// give equally many pieces only the smallest, since more milk for no more cheese is worse
// in every part of a score that differs.
func Sizes(r *schedule.Recipe) []Size {
	var out []Size
	for _, z := range AllSizes(r) {
		if k := len(out) - 1; z.Pieces-r.Spare < 1 || k >= 0 && out[k].Pieces == z.Pieces {
			continue
		}
		out = append(out, z)
	}
	return out
}

// Pieces is how many pieces so much milk gives: floor(litres x yield); none where the
// recipe has no yield yet.
func Pieces(r *schedule.Recipe, litres resources.Millilitres) int {
	if r.Yield.From <= 0 {
		return 0
	}
	return int(int64(litres) * int64(r.Yield.Pieces) / int64(r.Yield.From))
}

// Made is how many pieces of a kept batch were made of so much milk: the larger of the yield, by its
// recipe as it was, and the first count, which is 0 where nobody counted.
func Made(b *schedule.KeptBatch, litres resources.Millilitres, first int) int {
	made := b.Pieces
	if b.Recipe != nil {
		made = Pieces(&schedule.Recipe{Yield: b.Recipe.Yield}, litres)
	}
	if b.Counted != nil {
		made = max(made, b.Counted.Pieces)
	}
	return max(made, first)
}

// Work is the length of a stage's work for a size, rounded up to the grid.
func Work(s *schedule.Stage, z Size, step resources.Minutes) resources.Minutes {
	if s.Hands == nil {
		return 0
	}
	// A rate is in thousandths of a minute and a litre has a thousand millilitres, so the
	// sum is exact in millionths.
	total := int64(s.Hands.Fixed)*1000 + int64(s.Hands.PerPiece)*int64(z.Pieces)*1000 +
		int64(s.Hands.PerLitre)*int64(z.Litres)
	return resources.CeilLength(resources.Minutes((total+999_999)/1_000_000), step)
}

// HasWork reports whether a stage needs somebody at all.
func HasWork(s *schedule.Stage) bool {
	return s.Hands != nil && (s.Hands.Fixed > 0 || s.Hands.PerLitre > 0 || s.Hands.PerPiece > 0)
}
