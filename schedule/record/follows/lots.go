package follows

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// A lot is what stands on the label of a batch: its code, the date on which its make really began
// and a number. It is the batch's id where the dates agree. It is given when somebody first says
// that the make began or was done, of a batch that nobody spoke of when it is packed, and stays.
// Ids and lots share one set of names, past ones too: no name stands for two batches.

// lots gives a lot to each batch that is to have one and has none.
func (f *follower) lots(batches []*batch) {
	taken := map[string]bool{} // names that stand for some batch
	last := map[string]int{}   // the highest number of each day
	take := func(name string) {
		taken[name] = true
		if cut := strings.LastIndexByte(name, '-'); cut >= 0 {
			if n, err := strconv.Atoi(name[cut+1:]); err == nil {
				last[name[:cut]] = max(last[name[:cut]], n)
			}
		}
	}
	if e := f.p.Earlier; e != nil {
		for _, n := range e.LastNumber {
			last[n.Day] = n.Last
		}
	}
	var wait []*batch
	for _, x := range batches {
		take(x.id)
		if x.batch.Lot != "" {
			take(x.batch.Lot)
		} else if x.recipe != nil && len(x.starts) > 0 && !x.alone && !x.lost {
			wait = append(wait, x)
		}
	}
	for _, id := range f.p.Lost {
		take(id)
	}
	slices.SortStableFunc(wait, func(a, b *batch) int { return cmp.Compare(a.starts[0], b.starts[0]) })
	for _, x := range wait {
		first, packed := x.recipe.Stages[0].Name, len(x.starts) == len(x.recipe.Stages)
		if len(x.entries.Began(first)) == 0 && len(x.entries.Did(first)) == 0 && !packed {
			continue
		}
		day := x.recipe.LotDay(x.starts[0].DateIn(f.p.Kitchen.Zone))
		if x.batch.Lot = x.id; !strings.HasPrefix(x.id, day+"-") {
			x.batch.Lot = fmt.Sprintf("%s-%d", day, last[day]+1)
		}
		take(x.batch.Lot)
	}
}
