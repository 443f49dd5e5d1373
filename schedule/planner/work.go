package planner

import (
	"ripeby/schedule"
	"ripeby/schedule/cp"
)

// A longer season has more to search: beyond fewBatches every batch adds workPerBatch.
const (
	fewBatches   = 10
	workPerBatch = 12_000_000
)

// WorkFor is the counted work of one [Plan] where the caller sets none: the engine's
// default, and more where the targets want more than ten batches.
func WorkFor(p *schedule.Problem) int64 {
	batches := 0
	for i := range p.Recipes {
		r := &p.Recipes[i]
		sizes := sizesOf(r)
		if len(sizes) == 0 {
			continue
		}
		wanted := 0
		for t := range p.Targets {
			for _, w := range p.Targets[t].Wants {
				if w.Cheese == r.Name && w.Price > 0 {
					wanted += w.Pieces
				}
			}
		}
		most := sizes[len(sizes)-1].pieces - r.Spare
		batches += (wanted + most - 1) / most
	}
	return max(cp.DefaultBudget, int64(batches-fewBatches)*workPerBatch)
}
