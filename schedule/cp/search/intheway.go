package search

import (
	"ripeby/schedule/cp/lack"
	"ripeby/schedule/cp/problem"
)

// Where a demand is short, the jobs to take out are those that hold what it lacks.

// wayMost is how many of the jobs that hold what a demand lacks are chosen from:
// those ready nearest to its due moment.
const wayMost = 8

// inTheWay are some jobs of the list that hold what a job for a short demand lacks, at
// about the time; none when nothing can be named.
func (im *improver) inTheWay(list []*problem.Job, d, size int) []*problem.Job {
	s := im.s
	things, known := im.blamed[d]
	if !known {
		things = lack.Of(&s.Schedule, d)
		if im.blamed == nil {
			im.blamed = map[int][]lack.Thing{}
		}
		im.blamed[d] = things
	}
	var holders []*problem.Job
	for _, j := range list {
		for _, th := range things {
			if th.HeldBy(&s.Schedule, j, s.Model.Demands[d].Family) {
				holders = append(holders, j)
				break
			}
		}
	}
	im.byDistance(holders, s.Model.Demands[d].Due)
	holders = holders[:min(wayMost, len(holders))]
	im.shuffle(len(holders), func(i, k int) { holders[i], holders[k] = holders[k], holders[i] })
	return holders[:min(size+1, len(holders))]
}
