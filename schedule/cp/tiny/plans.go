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

// boxesAt is boxes that stand in one space from a tick to another; closings do not count for a
// begun.
type boxesAt struct {
	from, until int
	kind, boxes int
	begun       bool
}

// CanStand reports whether the boxes of a plan stand on the floors of their spaces,
// cells of one by one, by trying all ways; homeless are jobs under way whose boxes stand nowhere.
func CanStand(m *problem.Model, p *ListedPlan, homeless func(begun int) bool) bool {
	for space := range m.Spaces {
		if len(m.Spaces[space].Floors) == 0 {
			continue
		}
		var list []boxesAt
		for _, v := range p.Jobs {
			mode := modesOfWay(m, v)
			for r, x := range v.part.Stays {
				from := max(x.From, m.From)
				if x.Thing != space || x.Until <= from || x.Begun && homeless(v.Begun) {
					continue
				}
				list = append(list, boxesAt{from: from, until: x.Until, kind: mode.Stays[r].Kind, boxes: x.Amount, begun: x.Begun})
			}
		}
		if !standsNaively(m, space, list) {
			return false
		}
	}
	return true
}

func modesOfWay(m *problem.Model, v *Way) *problem.Mode {
	if v.Begun >= 0 {
		return &m.Begun[v.Begun].Mode
	}
	return &m.Families[v.Family].Modes[v.Mode]
}

// standsNaively tries all ways in which boxes may stand in a space.
func standsNaively(m *problem.Model, space int, list []boxesAt) bool {
	taken := make([]uint64, len(list))
	var put func(i int) bool
	put = func(i int) bool {
		if i == len(list) {
			return true
		}
		s := &list[i]
		free := ^uint64(0)
		for o := range i {
			if list[o].from < s.until && s.from < list[o].until {
				free &^= taken[o]
			}
		}
		// Stacks from place n on, with so many boxes left over.
		var stack func(n int, cells uint64, left int) bool
		stack = func(n int, cells uint64, left int) bool {
			if left <= 0 {
				taken[i] = cells
				return put(i + 1)
			}
			bit := 0
			for f := range m.Spaces[space].Floors {
				fl, kind := &m.Spaces[space].Floors[f], &m.Kinds[s.kind]
				shut := !s.begun && slices.ContainsFunc(fl.Closed, func(c problem.Span) bool { return c.From < s.until && s.from < c.Until })
				for x := range int(fl.Size.W) {
					own := (uint64(1)<<kind.Size.W - 1) << (bit + x)
					fits := x+int(kind.Size.W) <= int(fl.Size.W) && kind.Height <= fl.Height && !shut
					if at := bit + x; at >= n && fits && own&free == own && own&cells == 0 &&
						stack(at+1, cells|own, left-int(fl.Height/kind.Height)) {
						return true
					}
				}
				bit += int(fl.Size.W)
			}
			return false
		}
		return stack(0, 0, s.boxes)
	}
	return put(0)
}

// Text tells of the plan in a failure.
func (p *ListedPlan) Text() string {
	out := fmt.Sprintf("cost %+v, given %v", p.Cost, p.Given)
	for _, v := range p.Jobs {
		out += fmt.Sprintf("\n  %+v", *v)
	}
	return out
}
