package note

import (
	"reflect"

	"ripeby/schedule"
)

// Milk is all that a calendar says about milk to order or to collect. Its job carries no
// numbers.
type Milk struct {
	TimeZone string
	schedule.MilkJob
}

// OfMilk gives the note of a job that the plan leads to.
func OfMilk(plan *schedule.Plan, j schedule.MilkJob) Milk {
	j.Sequence, j.Revised = 0, 0
	return Milk{plan.TimeZone, j}
}

// reviseMilk lists in the plan what milk is to be ordered and collected, numbered. Jobs
// are matched by their kind, supply and collection.
func reviseMilk(p *schedule.Problem, plan, earlier *schedule.Plan) {
	plan.Milk = schedule.MilkJobs(p, plan)
	for i := range plan.Milk {
		j := &plan.Milk[i]
		e := edition{0, plan.From}
		for k := range earlier.Milk {
			old := &earlier.Milk[k]
			if !old.Same(j) {
				continue
			}
			if e = (edition{old.Sequence, old.Revised}); !reflect.DeepEqual(OfMilk(plan, *j), OfMilk(earlier, *old)) {
				e = e.next(plan.From)
			}
		}
		j.Sequence, j.Revised = e.number, e.moment
	}
}
