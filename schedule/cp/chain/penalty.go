package chain

import (
	"sort"

	"ripeby/schedule/cp/problem"
)

// PenaltyOf is what a job's lags cost, and its work in avoided time, but for what of it has
// begun: so many activities.
func (s *Schedule) PenaltyOf(j *problem.Job, mode *problem.Mode, fixed int) int64 {
	sum := int64(0)
	for i := range mode.Acts {
		if i < len(mode.Acts)-1 && i >= fixed-1 {
			worked := j.Starts[i] + mode.Acts[i].Work
			sum += int64(costOfLag(mode.Acts[i].Lag.At(worked), j.Starts[i+1]-worked))
		}
		if i >= fixed && j.Workers[i] >= 0 && s.Prep.avoid[j.Workers[i]] != nil {
			sum += int64(s.Prep.avoidCost(s.Prep.avoid[j.Workers[i]], j.Starts[i], mode.Acts[i].Work))
		}
	}
	return sum
}

// LateOf is how late a job's lags are, of one of which so many activities have begun.
func LateOf(j *problem.Job, mode *problem.Mode, fixed int) int64 {
	sum := int64(0)
	for i := max(fixed-1, 0); i < len(mode.Acts)-1; i++ {
		worked := j.Starts[i] + mode.Acts[i].Work
		sum += mode.Acts[i].Lag.At(worked).LateOf(j.Starts[i+1] - worked)
	}
	return sum
}

// Within is the part of an activity's starts between two bounds.
func (z *SizeCosts) Within(i int, lo, hi int32) (from, to int) {
	at := z.At[i]
	from = sort.Search(len(at), func(k int) bool { return at[k] >= lo })
	to = from + sort.Search(len(at)-from, func(k int) bool { return at[from+k] > hi })
	return from, to
}
