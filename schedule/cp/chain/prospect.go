package chain

import "ripeby/schedule/cp/problem"

// Prospect is a job that may be: a new one whose last delivery is at a due moment, or one
// under way.
type Prospect struct {
	Family, Begun int // begun is -1 for a new job
	Due           int // last delivery of a new job, in ticks
	Modes         []*problem.Mode
	Fixed         int // activities that have begun
}

// Acts is the number of activities.
func (p *Prospect) Acts() int { return len(p.Modes[0].Acts) }
