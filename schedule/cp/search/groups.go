package search

import (
	"cmp"
	"context"
	"math"
	"slices"

	"ripeby/schedule/cp/problem"
)

// What a long plan is short of at the least, from groups of its demands.
//
// A group is some of the demands as if they were all: the jobs that serve only others
// are gone, and so is what they held. Every plan of the whole gives one of the group,
// with its own starts, in which the jobs that served any of it serve just this, and
// nothing more of it is short. So the least of each group can be added up, whichever
// way the demands are divided: what is short belongs to one demand, though a job may
// serve two groups.
//
//	demands, by when they are made   a b c D e f g h i j K l m      short: D, K
//	groups                             └───────┘     └───────┘
//	least short                            1             1
//
// The number of jobs and their amount cannot be added up so: a job between two groups
// would count twice.
//
// In a group what is under way may be as late as in any plan of the whole that is no later, and
// nothing is asked of how late it is: the group by itself could be less late, and shorter for it.
//
// In a group a job or stock may serve less than in the plan; so no family asks for a least
// number of units, a last delivery may be as soon as the job is ready, and stock that serves
// nothing is gone at once. What other value is short is bounded only where as much of what was
// promised is short as in the plan in all groups together: then, in every such plan, each
// group has its least.

const (
	groupShare = 3 // one part in so many of the rest of the work goes to groups, where something is short
	groupSizes = 2 // groups of so many demands as a segment has jobs, and of twice as many
)

// divided is the bounding of what one plan is short of.
type divided struct {
	s      *Plan
	ctx    context.Context
	size   int
	until  int64
	kernel int64 // work left for the kernel
}

// bound betters the bound of what is short.
func (g *divided) bound(b problem.Cost) problem.Cost {
	cost := g.s.Cost()
	if slices.ContainsFunc(g.s.Jobs, func(j *problem.Job) bool { return j.Stuck }) {
		return b // a group by itself might leave fewer where they are, and be shorter for it
	}
	keys := []func(d int) int{func(d int) int { return g.s.Model.Demands[d].Due }, g.madeAt}
	left, last := int64(groupSizes*len(keys)), int64(0)
	for times := 1; times <= groupSizes; times++ {
		for _, key := range keys {
			if b.PromisedShort == cost.PromisedShort && b.Short == cost.Short || g.s.Spent+last >= g.until || g.ctx.Err() != nil {
				return b
			}
			begin := g.s.Spent
			promised, other := g.leastShort(g.groups(key, times*g.size), (g.until-g.s.Spent)/left, g.kernel/int64(groupSizes*len(keys)))
			left--
			last = g.s.Spent - begin // larger groups take more: none is begun without as much
			b.PromisedShort = max(b.PromisedShort, promised)
			if promised == cost.PromisedShort {
				b.Short = max(b.Short, other)
			}
		}
	}
	return b
}

// madeAt is when what serves a demand begins, or would at the latest.
func (g *divided) madeAt(d int) int {
	s, dm := g.s, &g.s.Model.Demands[d]
	most, at := 0, dm.Due
	for _, j := range s.Jobs {
		if n := problem.UnitsFor(j.Shares, d); j.Begun < 0 && n > most {
			most, at = n, j.Starts[0]
		}
	}
	one := []problem.Share{{Demand: d, Units: 1}}
	if mode := s.modeFor(dm.Family, one); most == 0 && mode >= 0 {
		if v := s.Idle(dm.Family, mode, s.Model.WindowOf(dm.Family, one)); v.OK {
			at = s.Model.From - int(v.Early)
		}
	}
	return at
}

// groups are demands that follow one another by some key, up to so many, around those
// that are short.
func (g *divided) groups(key func(d int) int, size int) [][]int {
	m := g.s.Model
	type keyed struct{ d, key int }
	var list []keyed
	for d := range m.Demands {
		if m.Demands[d].Units > 0 {
			list = append(list, keyed{d, key(d)})
		}
	}
	slices.SortStableFunc(list, func(a, b keyed) int { return cmp.Compare(a.key, b.key) })
	var out [][]int
	end := 0
	for x := range list {
		if d := list[x].d; x < end || g.s.Unmet[d] == 0 || m.Demands[d].Value == 0 {
			continue
		}
		from := max(end, x-size/2)
		end = min(from+max(size, 1), len(list))
		var group []int
		for _, k := range list[from:end] {
			group = append(group, k.d)
		}
		out = append(out, group)
	}
	return out
}

// leastShort is what the groups are short of at the least, of what was promised, and
// of other value while no more than that of what was promised is short.
func (g *divided) leastShort(groups [][]int, work, kernel int64) (promised, other int64) {
	end := min(g.s.Spent+work, g.until)
	for _, group := range groups {
		if g.s.Spent >= end || g.ctx.Err() != nil {
			break
		}
		r, _, _ := Find(g.ctx, g.owing(group), Options{Budget: g.until - g.s.Spent, Whole: math.MaxInt, parts: problem.PartShort + 1, kernel: kernel / int64(len(groups))})
		g.s.Spent += r.Spent
		promised += r.Bound.PromisedShort
		if r.Bound.PromisedShort == r.Cost.PromisedShort {
			other += r.Bound.Short
		}
	}
	return promised, other
}

// owing is the model with only a group of its demands; what the plan has for them is
// worth trying again.
func (g *divided) owing(group []int) *problem.Model {
	n := g.s.Model.Only(group).Loosened()
	at := map[int]int{}
	for x, d := range group {
		at[d] = x
	}
	for _, j := range g.s.Jobs {
		h := problem.Hint{Family: j.Family, Begun: j.Begun, Stock: -1, Starts: j.Starts}
		for _, sh := range j.Shares {
			if x, in := at[sh.Demand]; in {
				h.Shares = append(h.Shares, problem.Share{Demand: x, Units: sh.Units})
			}
		}
		for _, p := range j.Stays {
			h.Stood = append(h.Stood, p.Stacks)
		}
		if len(h.Shares) > 0 {
			n.Hints = append(n.Hints, h)
		}
	}
	return n
}
