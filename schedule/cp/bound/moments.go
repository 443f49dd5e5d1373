package bound

import (
	"slices"

	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// Full is pools that are all held at each of so many moments, while some demands get what a
// plan gives them: they can serve no unit more of one of these.
type Full struct {
	Pools []int
	Times int   // moments: every job for the demands holds the pools at one of them or more
	Given []int // the other demands, as few as are known to be enough
}

// FullFor tells which pools keep a demand from one unit more than a plan gives it, while others
// get no less than they do; not ok where no count of moments tells. What it says holds whatever
// else the kitchen has, and of every plan.
func FullFor(s *chain.Schedule, demand int) (full Full, ok bool) {
	m := s.Model
	squeezes(s, func(int) bool { return true }, func(q *squeeze) {
		per := func(d int) int64 { return q.holds[m.Demands[d].Family].perUnit }
		times := q.ms.of(q.until - max(q.from, m.From))
		if q.ms.apart == 0 || !slices.Contains(q.demands, demand) || per(demand) == 0 || times < 1 {
			return // without a moment nothing is full: there is no time, whatever the pools
		}
		used, room := per(demand), q.capacity
		free := make([]bool, len(m.Families))
		var given []int
		for _, d := range q.demands {
			f := m.Demands[d].Family
			if !free[f] {
				free[f] = true
				room += per(d) * int64(m.FreeUnits(f))
			}
			used += per(d) * int64(m.Demands[d].Units-s.Unmet[d])
			if d != demand && per(d) > 0 && s.Unmet[d] < m.Demands[d].Units {
				given = append(given, d)
			}
		}
		if used <= room {
			return
		}
		given = slices.DeleteFunc(given, func(d int) bool {
			less := used - per(d)*int64(m.Demands[d].Units-s.Unmet[d])
			if less > room {
				used = less
				return true
			}
			return false
		})
		if !ok || len(given) < len(full.Given) {
			full, ok = Full{slices.Clone(q.th.pools), int(times), given}, true
		}
	})
	return full, ok
}

// Facts is what the pools and the others' units are as facts.
func (f *Full) Facts() problem.FactSet {
	var out problem.FactSet
	for _, p := range f.Pools {
		out.Facts = append(out.Facts, problem.Fact{Kind: problem.FactPool, Index: p})
	}
	for _, d := range f.Given {
		out.Facts = append(out.Facts, problem.Fact{Kind: problem.FactDemand, Index: d})
	}
	slices.SortFunc(out.Facts, problem.Fact.Compare)
	return out
}
