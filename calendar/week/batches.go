package week

import (
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// BatchShown is a batch in a list of all.
type BatchShown struct {
	ID    string // as the plan has it
	Ends  resources.Moment
	Cells []string
}

// ShowBatches gives the batches of a plan, and the heads of their cells: what
// calendar/strips draws, in words. The first cell is the batch's id.
func ShowBatches(p *schedule.Problem, plan *schedule.Plan) (heads []string, rows []BatchShown, err error) {
	n, err := wholeNames(p)
	if err != nil {
		return nil, nil, err
	}
	heads = []string{"Batch", "Cheese", "How much", "Begins", "Ends", "Stages, and where", "For"}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		begins, ends, stages := "", resources.Moment(0), ""
		for k := range b.Stages {
			t := &b.Stages[k]
			if k == 0 {
				begins = words.Stamp(t.Start, n.Zone)
			}
			ends = t.Ends
			stages = words.Join("; ", stages, n.Name(t.Stage)+" "+words.Stamp(t.Start, n.Zone)+", "+n.Name(t.At))
		}
		cells := []string{n.Name(b.ID), n.Name(b.Cheese), words.Litres(b.Litres) + ", " + words.Count(b.Pieces, "piece", "pieces"),
			begins, words.Stamp(ends, n.Zone), stages, words.Join("; ", n.showShares(b.For)...)}
		rows = append(rows, BatchShown{b.ID, ends, cells})
	}
	return heads, rows, nil
}
