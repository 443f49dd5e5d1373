package judge

import (
	"sort"

	"ripeby/resources"
)

// checkOverlap: a person does one piece of work at a time. Two begun pieces may
// have overlapped: that has happened.
func checkOverlap(h *hearing) {
	var open []piece
	for _, x := range h.pieces() {
		kept := open[:0]
		for _, o := range open {
			if o.person != x.person || o.span.Until <= x.span.From {
				continue
			}
			kept = append(kept, o)
			if o.planned || x.planned {
				h.failStage("person-overlap", x.lot, x.stage, h.people[x.person].Name, "got work from %s while %s of %s lasts until %s, want one piece at a time",
					h.when(x.span.From), o.lot.batch.Stages[o.stage].Stage, o.lot.batch.ID, h.when(o.span.Until))
			}
		}
		open = append(kept, x)
	}
}

// checkRoundFree: nobody's planned work lies in the block of that person's round.
func checkRoundFree(h *hearing) {
	for _, x := range h.pieces() {
		if !x.planned {
			continue
		}
		i := sort.Search(len(h.rounds), func(i int) bool { return h.rounds[i].span.Until > x.span.From })
		for ; i < len(h.rounds) && h.rounds[i].span.From < x.span.Until; i++ {
			if h.rounds[i].person == x.person {
				h.failStage("round-taken", x.lot, x.stage, h.people[x.person].Name, "got work from %s to %s, want the round at %s kept free",
					h.when(x.span.From), h.when(x.span.Until), h.when(h.rounds[i].span.From))
			}
		}
	}
}

// checkMostPerDay: nobody has more work on a local day than most_per_day, each
// piece counted on the day on which it starts, the round, looks and begun work included.
// Days without planned work are as they were.
func checkMostPerDay(h *hearing) {
	type workDay struct {
		person int
		day    day
	}
	sums := map[workDay]resources.Minutes{}
	for _, b := range append(h.lookBlocks(), h.rounds...) {
		sums[workDay{b.person, dayIn(b.span.From, h.zone)}] += resources.Minutes(b.span.Until - b.span.From)
	}
	all := h.pieces()
	for _, x := range all {
		sums[workDay{x.person, dayIn(x.span.From, h.zone)}] += x.span.Length()
	}
	told := map[workDay]bool{}
	for _, x := range all {
		most := h.people[x.person].MostPerDay
		key := workDay{x.person, dayIn(x.span.From, h.zone)}
		if most < 0 || !x.planned || told[key] || sums[key] <= most {
			continue
		}
		told[key] = true
		h.failStage("most-per-day", x.lot, x.stage, h.people[x.person].Name, "got %d min of work on that day, want at most %d", sums[key], most)
	}
}
