package resources

import (
	"cmp"
	"slices"
)

// DatedRound is the round of one day.
type DatedRound struct {
	Person int // index in the kitchen's People
	Span   Span
}

// Rounds gives every day's block whose start lies in the span, in order. A block
// belongs to the first listed person whose hours, less what they are away, cover
// all of it, what lies after the span's end included; a day without such a person
// has none. Nil when the kitchen has no round, or one of no length.
func (k *Kitchen) Rounds(within Span) []DatedRound {
	if k.Round == nil || k.Round.For <= 0 || within.Empty() {
		return nil
	}
	// The last block may run past the span's end.
	seen := Span{within.From, within.Until.Add(k.Round.For)}
	windows := make([][]Span, len(k.People))
	for i, p := range k.People {
		windows[i] = p.Windows(seen, k.Zone)
	}
	var rounds []DatedRound
	w := wallClock{zone: k.Zone}
	for _, d := range w.days(reaching(within)) {
		from := w.at(d, k.Round.At)
		if from < within.From || from >= within.Until {
			continue
		}
		block := Span{from, from.Add(k.Round.For)}
		who := slices.IndexFunc(windows, func(free []Span) bool { return covers(free, block) })
		if who >= 0 {
			rounds = append(rounds, DatedRound{who, block})
		}
	}
	return rounds
}

// covers reports whether one of the spans, which are as Merge gives them, holds
// all of the block.
func covers(merged []Span, block Span) bool {
	// The only candidate is the last one that opens at or before the block.
	n, found := slices.BinarySearchFunc(merged, block.From, func(s Span, m Moment) int {
		return cmp.Compare(s.From, m)
	})
	if !found {
		n--
	}
	return n >= 0 && merged[n].Contains(block)
}
