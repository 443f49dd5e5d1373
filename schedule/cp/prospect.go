package cp

// prospect is a job that may be: a new one whose last delivery is at a due moment, or one
// under way.
type prospect struct {
	family, begun int // begun is -1 for a new job
	due           int // last delivery of a new job, in ticks
	modes         []*Mode
	fixed         int // activities that have begun
}

// acts is the number of activities.
func (p *prospect) acts() int { return len(p.modes[0].Acts) }
