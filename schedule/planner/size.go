package planner

import (
	"ripeby/resources"
	"ripeby/schedule"
)

// size is one size of a batch.
type size struct {
	litres resources.Millilitres
	pieces int
}

// sizesOf lists the sizes that a batch may have, smallest first. Of sizes that
// give equally many pieces only the smallest is kept: more milk for no more
// cheese is worse in every part that differs.
func sizesOf(r *schedule.Recipe) []size {
	var out []size
	for l := r.Batch.Least; l <= r.Batch.Most; l += r.Batch.Step {
		n := piecesOf(r, l)
		if n-r.Spare < 1 {
			continue
		}
		if k := len(out) - 1; k >= 0 && out[k].pieces == n {
			continue
		}
		out = append(out, size{l, n})
		if r.Batch.Step <= 0 {
			break
		}
	}
	return out
}

// piecesOf is floor(litres x yield).
func piecesOf(r *schedule.Recipe, l resources.Millilitres) int {
	return int(int64(l) * int64(r.Yield.Pieces) / int64(r.Yield.From))
}

// workOf is a stage's work for a size in minutes, rounded up to the grid.
func workOf(s *schedule.Stage, sz size, step resources.Minutes) int {
	if s.Hands == nil {
		return 0
	}
	// In millionths of a minute, which is exact.
	total := int64(s.Hands.Fixed)*1000 + int64(s.Hands.PerPiece)*int64(sz.pieces)*1000 +
		int64(s.Hands.PerLitre)*int64(sz.litres)
	grid := int64(step) * 1_000_000
	return int((total + grid - 1) / grid * int64(step))
}

// stationsOf is how many of a station a batch uses.
func stationsOf(s *resources.Station, sz size) int {
	switch {
	case s.TakesVolume > 0:
		return int((sz.litres + s.TakesVolume - 1) / s.TakesVolume)
	case s.TakesPieces > 0:
		return (sz.pieces + s.TakesPieces - 1) / s.TakesPieces
	}
	return 1
}

// boxesOf is how many boxes so many pieces take.
func boxesOf(b schedule.Boxing, pieces int) int {
	return (pieces + b.Takes - 1) / b.Takes
}
