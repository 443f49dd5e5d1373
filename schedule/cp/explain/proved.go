package explain

import "ripeby/schedule/cp/problem"

// provedMost reports whether the proof of a plan rules out one unit more of a demand while no
// other gets less and nothing gets later. Such a plan would have less value short in the
// demand's part of the cost and no more in any part before it; so it is ruled out where all
// parts up to that one are as small as is proved of them. Of a demand whose units are worth
// nothing the proof says nothing.
func provedMost(cost, bound problem.Cost, d *problem.Demand) bool {
	if d.Value <= 0 {
		return false
	}
	for i := range d.Part() + 1 {
		if *cost.Part(i) != *bound.Part(i) {
			return false
		}
	}
	return true
}

// likeWants reports whether units that go to one demand could as well go to the other: same
// family and moments, and nobody asks how much of them is promised.
func likeWants(m *problem.Model, a, b int) bool {
	x, y := &m.Demands[a], &m.Demands[b]
	return x.Family == y.Family && x.Due == y.Due && x.Ahead == y.Ahead &&
		(x.Promised == y.Promised || m.Families[x.Family].Serves <= 1)
}

// reasonOfLike is the reason of a demand, known of another that is short and like it: a plan
// with one unit more of this one that leaves the other what it has could give that unit to the
// other instead, which is ruled out. Not all of its facts may be needed.
func reasonOfLike(known *problem.Reason, demand int) problem.Reason {
	out := problem.Reason{Demand: demand, Kind: known.Kind}
	for _, set := range known.Sets {
		own := problem.Fact{Kind: problem.FactDemand, Index: known.Demand}
		with := problem.FactSet{Facts: []problem.Fact{own}}
		for _, f := range set.Facts {
			if f.Kind == problem.FactDemand && f.Index == demand {
				continue // the two have changed places
			}
			with.Facts = append(with.Facts, f)
		}
		sortFacts(with.Facts)
		out.Sets = append(out.Sets, with)
	}
	return out
}
