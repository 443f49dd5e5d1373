package bound

import (
	"slices"
	"sort"

	"ripeby/schedule/cp/problem"
)

// thing is pools that can stand for one another, or the workers taken together.
type thing struct {
	pools   []int // sorted; nil for the workers
	workers bool
}

// measure is how time is counted: in ticks, or by moments so many ticks apart.
type measure struct {
	apart int // 0 for ticks
	scale int64
}

// of is what a hold of so many ticks has of the measure at the least, and a stretch at the most:
// the first moment of a stretch is the last tick of its first part.
func (ms measure) of(ticks int) int64 {
	if ms.apart > 0 {
		return int64(ticks / ms.apart)
	}
	return int64(ticks)
}

// unitScale is what energies of a unit are multiplied by, before they are rounded down;
// mostScale is the most that moments, which are few, are multiplied by to lose nothing.
const (
	unitScale = 1000
	mostScale = 1 << 16
)

// holdOf is what a family takes of a thing.
type holdOf struct {
	perUnit     int64 // scaled energy for each unit served, rounded down
	before, gap int   // it lies between due-before and due-gap
}

// things lists the sets of pools that some run may choose from, and the workers.
func things(m *problem.Model) []thing {
	out := []thing{{workers: true}}
	seen := map[string]bool{}
	for f := range m.Families {
		for k := range m.Families[f].Modes {
			for r := range m.Families[f].Modes[k].Runs {
				var pools []int
				for _, c := range m.Families[f].Modes[k].Runs[r].Choices {
					pools = append(pools, c.Pool)
				}
				slices.Sort(pools)
				key := problem.KeyOf(pools)
				if !seen[key] {
					seen[key] = true
					out = append(out, thing{pools: pools})
				}
			}
		}
	}
	return out
}

// measures are ticks, and for pools moments as far apart as the shortest hold of each family.
func measures(m *problem.Model, th *thing) []measure {
	out := []measure{{scale: unitScale}}
	if th.workers {
		return out
	}
	scale := int64(1)
	var apart []int
	for f := range m.Families {
		shortest := problem.Infinite
		for k := range m.Families[f].Modes {
			mode := &m.Families[f].Modes[k]
			scale = min(scale/problem.GCD(scale, int64(max(mode.Units, 1)))*int64(max(mode.Units, 1)), mostScale+1)
			th.eachHold(m, mode, func(_ *problem.Run, long, _ int) { shortest = min(shortest, long) })
		}
		if shortest < problem.Infinite && shortest > 0 {
			apart = append(apart, shortest)
		}
	}
	if scale > mostScale {
		scale = unitScale
	}
	slices.Sort(apart)
	for _, d := range slices.Compact(apart) {
		out = append(out, measure{d, scale})
	}
	return out
}

// eachHold calls visit for the runs of a mode that hold the thing whichever pools they choose,
// with how long they do at the least, cleaning and all, and the least cleaning.
func (th *thing) eachHold(m *problem.Model, mode *problem.Mode, visit func(run *problem.Run, long, clean int)) {
	for r := range mode.Runs {
		run := &mode.Runs[r]
		inside, clean := true, problem.Infinite
		for _, c := range run.Choices {
			at := sort.SearchInts(th.pools, c.Pool)
			inside = inside && at < len(th.pools) && th.pools[at] == c.Pool
			clean = min(clean, c.Clean)
		}
		if inside && len(run.Choices) > 0 {
			h := run.Occupied()
			visit(run, mode.Between(h.From, h.Until, leastOnGrid(m))+clean, clean)
		}
	}
}

// takes is the least that a family takes of a thing for each unit it serves.
func takes(m *problem.Model, family int, th *thing, ms measure) holdOf {
	var h holdOf
	f := &m.Families[family]
	for k := range f.Modes {
		mode := &f.Modes[k]
		energy, before, gap := energyOf(m, mode, th, ms)
		per := energy * ms.scale / int64(max(mode.Units, 1))
		if k == 0 || per < h.perUnit {
			h.perUnit = per
		}
		h.before = max(h.before, before+f.Keeps)
		if k == 0 || gap < h.gap {
			h.gap = gap
		}
	}
	ahead := problem.Infinite
	for d := range m.Demands {
		if m.Demands[d].Family == family {
			ahead = min(ahead, m.Demands[d].Ahead)
		}
	}
	if ahead < problem.Infinite {
		h.gap += ahead
	}
	return h
}

// energyOf is the least energy that a job takes of a thing, how long before the
// end of its last work it begins to take it at the most, and how long before that
// end it is done with it at the least.
func energyOf(m *problem.Model, mode *problem.Mode, th *thing, ms measure) (energy int64, before, gap int) {
	if th.workers {
		for i := range mode.Acts {
			energy += int64(mode.Acts[i].Work)
		}
		return energy, mode.Between(problem.Mark{}, mode.Ready(), mostOnGrid(m)), 0
	}
	gap = problem.Infinite
	th.eachHold(m, mode, func(run *problem.Run, long, clean int) {
		h := run.Occupied()
		energy += int64(run.Amount) * ms.of(long)
		before = max(before, mode.Between(h.From, mode.Ready(), mostOnGrid(m)))
		gap = min(gap, mode.Between(h.Until, mode.Ready(), leastOnGrid(m))-clean)
	})
	if gap == problem.Infinite {
		gap = 0
	}
	return energy, before, gap
}

// capacity is what a thing has of a measure in [from, until), scaled.
func (th *thing) capacity(m *problem.Model, from, until int, ms measure) int64 {
	if until <= from {
		return 0
	}
	c := int64(0)
	if !th.workers {
		for _, p := range th.pools {
			c += int64(min(m.Pools[p].Capacity, 1<<20)) * ms.of(until-from)
		}
		return c * ms.scale
	}
	for w := range m.Workers {
		for _, win := range m.Workers[w].Windows {
			c += int64(max(0, min(win.Until, until)-max(win.From, from)))
		}
	}
	return c * ms.scale
}

// leastOnGrid and mostOnGrid are a lag at its least and at its most, as work that starts on
// the grid and takes steps can have it.
func leastOnGrid(m *problem.Model) func(*problem.Lag) int {
	return func(l *problem.Lag) int { return problem.CeilTo(l.Least, m.Step) }
}

func mostOnGrid(m *problem.Model) func(*problem.Lag) int {
	return func(l *problem.Lag) int { return problem.FloorTo(l.Most, m.Step) }
}
