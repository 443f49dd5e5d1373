package schedule

import "ripeby/resources"

// Score is a plan's eight parts in the order in which they count. The first seven
// are to be small, MakeStarts is to be large.
type Score struct {
	PromisedShort resources.Money
	Late          int64 // tenths of a hold's most by which holds of begun batches run past it; see [needs.Hold.Late]
	Short         resources.Money
	Batches       int
	Moved         int // stages whose work in the settled time is not as the earlier plan told, [Problem.Settled]
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

// parts gives the eight parts, each to be small.
func (s Score) parts() [8]int64 {
	return [8]int64{int64(s.PromisedShort), s.Late, int64(s.Short), int64(s.Batches), int64(s.Moved),
		int64(s.Litres), s.Bother, -s.MakeStarts}
}

// Level is the last part of a score that is proved when all before it are.
type Level string

// The levels of proof, from nothing to everything.
const (
	LevelNone          Level = "none"
	LevelPromisedShort Level = "promised_short"
	LevelLate          Level = "late"
	LevelShort         Level = "short"
	LevelBatches       Level = "batches"
	LevelMoved         Level = "moved"
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

// Levels are the levels of proof in order, from nothing to everything.
func Levels() []Level {
	return []Level{LevelNone, LevelPromisedShort, LevelLate, LevelShort, LevelBatches, LevelMoved, LevelLitres, LevelBother, LevelAll}
}

// LevelOf compares a score with its bound, part by part.
func LevelOf(score, bound Score) Level {
	a, b := score.parts(), bound.parts()
	n := 0
	for n < len(a) && a[n] == b[n] {
		n++
	}
	return Levels()[n]
}
