package chain

import (
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/usage"
)

// choicesTried is how many ways of choosing pools for one job are tried when the
// first one has two of its runs in the same pool at once.
const choicesTried = 256

// chooseAgain chooses other pools for the runs of a placed job, so that no two of
// them are in each other's way; the starts stay as they are.
func (s *Schedule) chooseAgain(q *query, j *problem.Job) bool {
	if q.As != nil {
		return false
	}
	var open []int
	ways := 1
	for r := range q.Mode.Runs {
		if run := &q.Mode.Runs[r]; run.First >= q.From && len(run.Choices) > 1 {
			open = append(open, r)
			ways = min(ways*len(run.Choices), choicesTried)
		}
	}
	for n := 1; n < ways; n++ {
		left := n
		for _, r := range open {
			size := len(q.Mode.Runs[r].Choices)
			j.Choices[r], left = left%size, left/size
		}
		if s.runsFit(q, j, open) && s.poolsHold(q, j) {
			return true
		}
	}
	for _, r := range open {
		j.Choices[r] = 0
	}
	return len(open) > 0 && s.runsFit(q, j, open) && s.poolsHold(q, j)
}

// runsFit reports whether each of the runs fits beside the other jobs.
func (s *Schedule) runsFit(q *query, j *problem.Job, runs []int) bool {
	for _, r := range runs {
		run := &q.Mode.Runs[r]
		from, until, ok := j.Occupies(q.Mode, run.Occupied())
		if !ok {
			continue
		}
		c := run.Choices[j.Choices[r]]
		cursor := 0
		if usage.LimitAt(s.Free(c.Pool, run.Amount, false, from, until+c.Clean), &cursor, from) < until+c.Clean {
			return false
		}
	}
	return true
}
