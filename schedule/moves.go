package schedule

import "ripeby/resources"

// Move is one stage that is otherwise in one plan than in another.
type Move struct {
	Batch          string
	Cheese, Stage  string
	From, To       resources.Moment // its start before and now
	Who, Now       string           // who does it before and now; "" where there is no work
	Place, PlaceTo string           // where it is
}

// Moves lists, batch by batch in the order of now, the stages of batches of both plans
// whose start, person or place is not the same; stages that have begun cannot move.
func Moves(before, now *Plan) []Move {
	var out []Move
	for i := range now.Batches {
		b := &now.Batches[i]
		old := before.Batch(b.ID)
		if old == nil || len(old.Stages) != len(b.Stages) {
			continue
		}
		for k := range b.Stages {
			a, c := &old.Stages[k], &b.Stages[k]
			if a.Start == c.Start && a.Who == c.Who && a.At == c.At || c.Begun {
				continue
			}
			out = append(out, Move{Batch: b.ID, Cheese: b.Cheese, Stage: c.Stage, From: a.Start, To: c.Start,
				Who: a.Who, Now: c.Who, Place: a.At, PlaceTo: c.At})
		}
	}
	return out
}
