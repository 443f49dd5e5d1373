package schedule

import "ripeby/resources"

// Score is a plan's six parts in the order in which they count. The first five
// are to be small, MakeStarts is to be large.
type Score struct {
	PromisedShort resources.Money
	Short         resources.Money
	Batches       int
	Litres        resources.Millilitres
	Bother        int64
	MakeStarts    int64
}

// Compare is negative when s is the better score, positive when o is, 0 when
// they are equal.
func (s Score) Compare(o Score) int {
	a, b := s.parts(), o.parts()
	for i := range a {
		if a[i] != b[i] {
			if a[i] < b[i] {
				return -1
			}
			return 1
		}
	}
	return 0
}

// parts gives the six parts, each to be small.
func (s Score) parts() [6]int64 {
	return [6]int64{int64(s.PromisedShort), int64(s.Short), int64(s.Batches),
		int64(s.Litres), s.Bother, -s.MakeStarts}
}

// Level is the last part of a score that is proved when all before it are.
type Level string

// The levels of proof, from nothing to everything.
const (
	LevelNone          Level = "none"
	LevelPromisedShort Level = "promised_short"
	LevelShort         Level = "short"
	LevelBatches       Level = "batches"
	LevelLitres        Level = "litres"
	LevelBother        Level = "bother"
	LevelAll           Level = "all"
)

// Proof says how good a plan is known to be: Bound is the best that any plan
// could reach in each part, given the score's earlier parts.
type Proof struct {
	Best  bool
	Level Level
	Bound Score
}

// LevelOf compares a score with its bound, part by part.
func LevelOf(score, bound Score) Level {
	levels := [...]Level{LevelNone, LevelPromisedShort, LevelShort, LevelBatches, LevelLitres, LevelBother, LevelAll}
	a, b := score.parts(), bound.parts()
	n := 0
	for n < len(a) && a[n] == b[n] {
		n++
	}
	return levels[n]
}
