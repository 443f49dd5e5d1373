package follows

import (
	"cmp"
	"slices"
	"strings"
)

// A lot is what stands on the label of a batch: its code, the date on which its make really began
// and a number. It is the batch's id where the dates agree. It is given when somebody first says
// that the make began or was done, of a batch that nobody spoke of when it is packed, and stays.
// Ids and lots share one set of names, past ones too: no name stands for two batches.

// lots gives a lot to each batch that is to have one and has none.
func (f *follower) lots(batches []*batch) {
	numbers := f.p.NumbersGiven()
	var wait []*batch
	for _, x := range batches {
		numbers.Note(x.id) // made off the plan, too
		if x.batch.Lot == "" && x.recipe != nil && len(x.starts) > 0 && !x.alone && !x.lost && !x.never {
			wait = append(wait, x)
		}
	}
	slices.SortStableFunc(wait, func(a, b *batch) int { return cmp.Compare(a.starts[0], b.starts[0]) })
	for _, x := range wait {
		first, packed := x.recipe.Stages[0].Name, len(x.starts) == len(x.recipe.Stages)
		if len(x.entries.Began(first)) == 0 && len(x.entries.Did(first)) == 0 && !packed {
			continue
		}
		day := x.recipe.LotDay(x.starts[0].DateIn(f.p.Kitchen.Zone))
		if x.batch.Lot = x.id; !strings.HasPrefix(x.id, day+"-") {
			x.batch.Lot = numbers.Next(day)
		}
	}
}
