package dose

import (
	"cmp"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
)

// Sum is what a stretch of time takes of one thing in one unit, as it is really taken.
type Sum struct {
	What, Unit string
	Amount     int64 // in millionths of Unit; 0 where the curd is not weighed
	Batches    int
	First      resources.Moment // by when it is to be had
	Lots       []string         // of packets, each once, as they come up
}

// Sums adds up what the work of a plan that begins in a stretch of time takes, in the order in which it is needed.
func Sums(plan *schedule.Plan, within resources.Span) []Sum {
	type taking struct {
		batch string
		stage *schedule.Task
	}
	var all []taking
	for i := range plan.Batches {
		b := &plan.Batches[i]
		for k := range b.Stages {
			if t := &b.Stages[k]; within.From <= t.Start && t.Start < within.Until {
				all = append(all, taking{b.ID, t})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b taking) int { return cmp.Compare(a.stage.Start, b.stage.Start) })
	var sums []Sum
	batches := map[[3]string]bool{}
	for _, a := range all {
		for _, d := range a.stage.Needs {
			i := slices.IndexFunc(sums, func(s Sum) bool { return s.What == d.What && s.Unit == d.Unit })
			if i < 0 {
				i = len(sums)
				sums = append(sums, Sum{What: d.What, Unit: d.Unit, First: a.stage.Start})
			}
			s := &sums[i]
			if !d.Unweighed() {
				s.Amount += d.Taken()
			}
			if key := [3]string{d.What, d.Unit, a.batch}; !batches[key] {
				batches[key] = true
				s.Batches++
			}
			if d.Lot != "" && !slices.Contains(s.Lots, d.Lot) {
				s.Lots = append(s.Lots, d.Lot)
			}
		}
	}
	return sums
}
