package search

import "ripeby/schedule/cp/problem"

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
		things = s.blame(d)
		if im.blamed == nil {
			im.blamed = map[int][]lack{}
		}
		im.blamed[d] = things
	}
	var holders []*problem.Job
	for _, j := range list {
		for _, th := range things {
			if s.holdsLack(j, th, s.Model.Demands[d].Family) {
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

// holdsLack reports whether a job uses a thing that a family's jobs lack.
func (s *Plan) holdsLack(j *problem.Job, th lack, family int) bool {
	mode := s.ModeOf(j)
	switch th.kind {
	case lackPool:
		for r := range mode.Runs {
			if r < len(j.Choices) && s.isLacking(mode.Runs[r].Choices[j.Choices[r]].Pool, th, family) {
				return true
			}
		}
		return false
	case lackIntake:
		return j.Intake >= 0 && s.Model.Intakes[j.Intake].Supply == th.index
	case lackSpace:
		return len(mode.Stays) > 0
	default:
		return true // work is what every job has
	}
}

// isLacking reports whether a pool is the thing, or one of those that a run of the
// family may choose from.
func (s *Plan) isLacking(pool int, th lack, family int) bool {
	if th.index >= 0 {
		return pool == th.index
	}
	for _, run := range s.Model.Families[family].Modes[0].Runs {
		for _, c := range run.Choices {
			if len(run.Choices) > 1 && c.Pool == pool {
				return true
			}
		}
	}
	return false
}
