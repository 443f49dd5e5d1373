package bound

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// The least amount for a number of jobs.
//
// The walk of cover.go finds the fewest jobs and then the least amount for them. A
// plan that needs more jobs, because its jobs share the kitchen, may come to a smaller
// amount than that: two small jobs can round up less than one large. So the walk is
// layered by the number of jobs still to come:
//
//	least(node, k) = min over moves of  amount + least(next, k less a new job)
//
// taken over the moves that leave the least value short. Only so many layers are
// kept above the fewest jobs from a node as the whole walk may have to spare. Over
// families, the least of all ways to divide the jobs among them is the bound.
//
// A plan's jobs give such walks, with exactly as many jobs: deliveries that cross are
// exchanged, which changes no job's number of units. Where some units are worth
// nothing, a job may serve only those and be in no walk.

// noAmount is the amount of what cannot be.
const noAmount = int64(1) << 60

// layered is a coverer's walks by the number of jobs.
type layered struct {
	c      *coverer
	short  []shortness // least value short from each node on
	jobs   []int32     // fewest new jobs from each node on, leaving no more short
	spare  int         // layers above the fewest that least knows, -1 for none yet
	least  []int64     // by spare jobs: least amount of the whole walk
	beside bool        // jobs of which the walk knows nothing may be in a plan
}

// shortness is value short, promised and other.
type shortness struct{ promised, other int64 }

func (a shortness) less(b shortness) bool {
	return a.promised < b.promised || a.promised == b.promised && a.other < b.other
}

// plus adds what a move leaves short.
func (a shortness) plus(c problem.Cost) shortness {
	return shortness{a.promised + c.PromisedShort, a.other + c.Short}
}

func (c *coverer) layered() *layered {
	l := &layered{c: c, spare: -1, beside: c.anyWorthless()}
	nodes := (len(c.Units) + 1) * c.states
	l.short, l.jobs = make([]shortness, nodes), make([]int32, nodes)
	for n := nodes - 2; n >= 0; n-- {
		l.short[n] = shortness{noAmount, noAmount}
		c.edges(n/c.states, n%c.states, func(e edge) {
			if v := l.short[e.to].plus(e.cost); v.less(l.short[n]) {
				l.short[n] = v
			}
		})
		l.jobs[n] = 1 << 29
		l.moves(n, func(e edge) { l.jobs[n] = min(l.jobs[n], l.jobs[e.to]+int32(e.cost.Jobs)) })
	}
	return l
}

// anyWorthless reports whether some unit of the family is worth nothing.
func (c *coverer) anyWorthless() bool {
	for _, d := range c.s.Prep.ByDue[c.family] {
		if c.s.Model.Demands[d].Value == 0 {
			return true
		}
	}
	return false
}

// moves calls visit for the moves out of a node that leave the least value short.
func (l *layered) moves(n int, visit func(edge)) {
	l.c.edges(n/l.c.states, n%l.c.states, func(e edge) {
		if l.short[e.to].plus(e.cost) == l.short[n] {
			visit(e)
		}
	})
}

// fewest is the fewest jobs of the whole walk.
func (l *layered) fewest() int { return int(l.jobs[0]) }

// amounts gives the least amount of the walk with exactly so many jobs more than the
// fewest, from 0 to spare, and the counted work; noAmount where there is none.
func (l *layered) amounts(spare int) (least []int64, spent int64) {
	if spare > l.spare {
		spent = l.fill(spare)
	}
	return l.least[:spare+1], spent
}

// fill works out the layers up to spare.
func (l *layered) fill(spare int) (spent int64) {
	l.spare = spare
	width := spare + 1
	nodes := len(l.jobs)
	least := make([]int64, nodes*width)
	for x := 1; x < width; x++ {
		least[(nodes-1)*width+x] = noAmount
	}
	for n := nodes - 2; n >= 0; n-- {
		row := least[n*width : (n+1)*width]
		for x := range row {
			row[x] = noAmount
		}
		spent += 4
		l.moves(n, func(e edge) {
			to := least[e.to*width : (e.to+1)*width]
			// What this move takes more than the fewest is spared no longer.
			more := int(l.jobs[e.to]) + int(e.cost.Jobs) - int(l.jobs[n])
			for x := more; x < width; x++ {
				row[x] = min(row[x], to[x-more]+e.cost.Amount)
			}
			spent++
		})
	}
	l.least = least[:width:width]
	if l.beside {
		for x := 1; x < width; x++ {
			l.least[x] = min(l.least[x], l.least[x-1])
		}
	}
	return spent
}

// leastForJobs is the least amount of all families' walks together with exactly so
// many jobs, noAmount for none; answers are kept.
func (x *Relaxation) leastForJobs(s *chain.Schedule, jobs int64) int64 {
	if v, known := x.byJobs[jobs]; known {
		return v
	}
	if x.Cut || !x.worth(x.layerWork(jobs)) {
		return noAmount // nobody knows
	}
	if x.layers == nil {
		for _, c := range x.bounding {
			x.layers = append(x.layers, c.layered())
		}
	}
	spare := int(jobs)
	for _, l := range x.layers {
		spare -= l.fewest()
	}
	v := noAmount
	if spare >= 0 {
		sum := noneButZero(spare + 1)
		for _, l := range x.layers {
			least, spent := l.amounts(spare)
			s.Spent += spent / chain.LookUnits
			sum = leastSums(sum, least)
		}
		v = sum[spare]
	}
	x.byJobs[jobs] = v
	return v
}

// layerWork is about what it takes to work out the layers of so many jobs.
func (x *Relaxation) layerWork(jobs int64) int64 {
	work := jobs * jobs
	for i, c := range x.bounding {
		moves := int64(4 + len(c.modeFor))
		work += int64(len(c.Units)+1) * int64(c.states) * moves * (2 + max(jobs-x.Covers[i].Least.Jobs, 0))
	}
	return work / chain.LookUnits
}

// noneButZero is what no family comes to: nothing with no jobs, and nothing else.
func noneButZero(n int) []int64 {
	out := make([]int64, n)
	for x := 1; x < n; x++ {
		out[x] = noAmount
	}
	return out
}

// leastSums is, for each x, the least of a[y] + b[x-y].
func leastSums(a, b []int64) []int64 {
	out := make([]int64, len(a))
	for x := range out {
		out[x] = noAmount
		for y := 0; y <= x; y++ {
			out[x] = min(out[x], a[y]+b[x-y])
		}
	}
	return out
}
