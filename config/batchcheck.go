package config

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
)

// checkBatch sees that at least one size of a batch fits a pot and leaves a piece
// to sell.
func (l *loader) checkBatch(r *schedule.Recipe, o *object) {
	b := r.Batch
	sizes := int64((b.Most-b.Least)/b.Step) + 1
	if sizes > MaxBatchSizes {
		o.fault("batch", Fault{What: fmt.Sprintf("a batch could have %d sizes, more than the limit of %d", sizes, MaxBatchSizes), Want: "a larger step"})
		return
	}
	largest := b.Least + resources.Millilitres(sizes-1)*b.Step
	room := ""
	if most, pot := l.potLimit(r); pot != "" && most < largest {
		if most < b.Least {
			o.fault("batch", Fault{What: fmt.Sprintf("the least batch of %s does not go into %s, which holds %s",
				resources.FormatVolume(b.Least), pot, resources.FormatVolume(most))})
			return
		}
		largest = b.Least + (most-b.Least)/b.Step*b.Step
		room = fmt.Sprintf(" (as large as %s allows)", pot)
	}
	made := needs.Pieces(r, largest)
	if made > MaxPieces {
		o.fault("yield", Fault{What: fmt.Sprintf("the largest batch gives %d pieces, more than the limit of %d", made, MaxPieces)})
	}
	if made < r.Spare+1 {
		o.fault("batch", Fault{What: fmt.Sprintf("the largest batch, %s%s, gives %s, and %d kept as spare leave none to sell",
			resources.FormatVolume(largest), room, count(made, "piece"), r.Spare), Want: "a larger most, or a smaller spare"})
	}
}

// potLimit gives the largest volume that every stage's pot can take, with the name
// of the pot that sets it; the name is "" when the recipe uses none or the kitchen
// is not known.
func (l *loader) potLimit(r *schedule.Recipe) (most resources.Millilitres, pot string) {
	if !l.sure["pots"] {
		return 0, ""
	}
	for i := range r.Stages {
		for _, u := range r.Stages[i].Uses {
			if u.Kind != schedule.UsePot {
				continue
			}
			var holds resources.Millilitres
			name := ""
			for _, p := range l.problem.Kitchen.Pots {
				if (u.Name == "" || u.Name == p.Name) && p.Holds > holds {
					holds, name = p.Holds, fmt.Sprintf("the pot %q", p.Name)
					if u.Name == "" {
						name = fmt.Sprintf("the largest pot %q", p.Name)
					}
				}
			}
			if name != "" && (pot == "" || holds < most) {
				most, pot = holds, name
			}
		}
	}
	return most, pot
}

// count says "1 piece", "2 pieces".
func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
