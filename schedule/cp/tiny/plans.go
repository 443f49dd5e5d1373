package tiny

import (
	"fmt"
	"slices"

	"ripeby/schedule/cp/problem"
)

// ListedPlan is one plan of a tiny model as the naive reading has it.
type ListedPlan struct {
	Jobs  []*Way
	Given [][]int // units of each demand, by each job and then by each stock
	Kept  []int   // which kept one each job is, -1 for none
	Cost  problem.Cost
}

// PlansOf lists every plan of a tiny model; not ok where there are more than most.
func PlansOf(m *problem.Model, most int) (plans []ListedPlan, ok bool) {
	many := false
	var units []int
	for d := range m.Demands {
		for range m.Demands[d].Units {
			units = append(units, d)
		}
	}
	_, ok = listPlans(m, func(chosen []*Way, from, kept []int, cost problem.Cost) {
		for u := 1; u < len(units); u++ {
			if units[u] == units[u-1] && from[u] < from[u-1] {
				return // the units of one demand are alike
			}
		}
		if many = len(plans) == most; many {
			return
		}
		p := ListedPlan{Jobs: slices.Clone(chosen), Cost: cost, Kept: slices.Clone(kept), Given: make([][]int, len(chosen)+len(m.Stocks))}
		for i := range p.Given {
			p.Given[i] = make([]int, len(m.Demands))
		}
		for u, i := range from {
			if i >= 0 {
				p.Given[i][units[u]]++
			}
		}
		plans = append(plans, p)
	})
	return plans, ok && !many
}

// Text tells of the plan in a failure.
func (p *ListedPlan) Text() string {
	out := fmt.Sprintf("cost %+v, given %v", p.Cost, p.Given)
	for _, v := range p.Jobs {
		out += fmt.Sprintf("\n  %+v", *v)
	}
	return out
}
