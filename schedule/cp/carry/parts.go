package carry

import (
	"sort"

	"ripeby/schedule/cp/problem"
)

// part is some of the shares that a job may serve, and what they are worth, as what is less short.
type part struct {
	shares []problem.Share
	value  problem.Cost
}

// parts lists what may be served instead of shares: all of them, then the
// stretches of them in due order, the most valuable first, then nothing.
func (s *Carrier) parts(shares []problem.Share) []part {
	byDue := append([]problem.Share(nil), shares...)
	sort.SliceStable(byDue, func(i, k int) bool {
		return s.Model.Demands[byDue[i].Demand].Due < s.Model.Demands[byDue[k].Demand].Due
	})
	var all []part
	for a := range byDue {
		var v problem.Cost
		for b := a; b < len(byDue); b++ {
			d := &s.Model.Demands[byDue[b].Demand]
			*v.Part(d.Part()) -= int64(byDue[b].Units) * d.Value
			all = append(all, part{byDue[a : b+1 : b+1], v})
		}
	}
	sort.SliceStable(all, func(i, k int) bool { return all[i].value.Less(all[k].value) })
	return append(all, part{})
}
