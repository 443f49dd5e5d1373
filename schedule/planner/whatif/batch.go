package whatif

import (
	"fmt"

	"ripeby/resources"
	"ripeby/schedule"
)

// sizesBetween lets a cheese be made in steps half as large.
func sizesBetween(p *schedule.Problem, recipe int) []Change {
	r := &p.Recipes[recipe]
	if r.Batch.Step < 2 || r.Batch.Most == r.Batch.Least {
		return nil
	}
	with := copied(p)
	with.Recipes[recipe].Batch.Step = r.Batch.Step / 2
	return []Change{changed(ChangePlan, with, fmt.Sprintf("batches of %s in steps of %s", r.Name, resources.FormatVolume(r.Batch.Step/2)))}
}

// servesFewer makes a cheese for any number of pieces.
func servesFewer(p *schedule.Problem, recipe int) Change {
	with := copied(p)
	with.Recipes[recipe].Batch.Serves = 1
	return changed(ChangePlan, with, fmt.Sprintf("a batch of %s for fewer than %d pieces", p.Recipes[recipe].Name, p.Recipes[recipe].Batch.Serves))
}
