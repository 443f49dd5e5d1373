package learn

import (
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/record/trace"
)

// Fewest is how many batches it takes for anything to be told.
const Fewest = 3

// Cheese is what the record tells of one cheese.
type Cheese struct {
	Name  string
	Holds []Hold // of each stage whose hold says when it is ready, in their order
	Yield Yield
	Works []Work // of each stage with work, in their order
	Loss  []Loss // in the order in which they were weighed first
}

// Passed is what was passed over, and why.
type Passed struct{ Batch, Why string }

// Of learns what was made of one cheese: from batches of a kitchen that were kept, in any order.
func Of(k *resources.Kitchen, r *schedule.Recipe, made []trace.Made) Cheese {
	c := Cheese{Name: r.Name}
	var own []trace.Made
	for _, m := range made {
		if m.Cheese == r.Name {
			own = append(own, m)
		}
	}
	for i := range r.Stages {
		if h := r.Stages[i].Hold; h != nil && h.Ready > 0 {
			c.Holds = append(c.Holds, holdOf(k, r, i, own))
		}
	}
	c.Yield = yieldOf(r, own)
	c.Works = worksOf(k, r, own)
	c.Loss = lossOf(own)
	return c
}

// called is the name of a batch as it is spoken of: its lot, else its id.
func called(m *trace.Made) string {
	if m.Lot != "" {
		return m.Lot
	}
	return m.ID
}
