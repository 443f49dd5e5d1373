package measured

import "ripeby/schedule"

// Fill says of each stage of a plan what is to be written down with it. What was told by the plan before of a stage
// that had begun stays so, whatever the recipe says now.
func Fill(p *schedule.Problem, plan *schedule.Plan) {
	for _, batches := range [][]schedule.Batch{plan.Batches, plan.Past} {
		for i := range batches {
			b := &batches[i]
			for k := range b.Stages {
				t := &b.Stages[k]
				if was := p.Earlier.BatchOrPast(b.ID).Stage(t.Stage); was != nil && was.Begun && t.Begun && len(was.Measures) > 0 {
					t.Measures = was.Measures
				} else if r := p.Recipe(b.Cheese); r != nil {
					t.Measures = r.MeasuresAt(t.Stage)
				}
			}
		}
	}
}
