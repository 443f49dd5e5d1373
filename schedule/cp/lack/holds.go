package lack

import (
	"ripeby/schedule/cp/chain"
	"ripeby/schedule/cp/problem"
)

// HeldBy reports whether a job uses a thing that a family's jobs lack.
func (th Thing) HeldBy(s *chain.Schedule, j *problem.Job, family int) bool {
	mode := s.ModeOf(j)
	switch th.kind {
	case ofPool:
		for r := range mode.Runs {
			if r < len(j.Choices) && th.isPool(s, mode.Runs[r].Choices[j.Choices[r]].Pool, family) {
				return true
			}
		}
		return false
	case ofIntake:
		return j.Intake >= 0 && s.Model.Intakes[j.Intake].Supply == th.index
	case ofSpace:
		return len(mode.Stays) > 0
	default:
		return true // work is what every job has
	}
}

// isPool reports whether a pool is the thing, or one of those that a run of the
// family may choose from.
func (th Thing) isPool(s *chain.Schedule, pool, family int) bool {
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
