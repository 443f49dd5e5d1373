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

// CountMoves gives each stage of a new plan its Sequence and Revised by comparing it
// with the earlier plan, nil for none: the next number and the plan's From where start,
// end or place is another, what it had where they are not. A stage is matched by batch
// id and name; what is missing from the earlier plan counts as new, with the number 0.
func CountMoves(plan, earlier *Plan) {
	type name struct{ batch, stage string }
	before := map[name]*Task{}
	if earlier != nil {
		for i := range earlier.Batches {
			b := &earlier.Batches[i]
			for k := range b.Stages {
				before[name{b.ID, b.Stages[k].Stage}] = &b.Stages[k]
			}
		}
	}
	for i := range plan.Batches {
		b := &plan.Batches[i]
		for k := range b.Stages {
			t := &b.Stages[k]
			old := before[name{b.ID, t.Stage}]
			switch {
			case old == nil:
				t.Sequence, t.Revised = 0, plan.From
			case t.Start != old.Start || t.Ends != old.Ends || t.At != old.At:
				t.Sequence, t.Revised = old.Sequence+1, plan.From
			default:
				t.Sequence, t.Revised = old.Sequence, old.Revised
			}
		}
	}
}
