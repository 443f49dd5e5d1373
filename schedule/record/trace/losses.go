package trace

// Losses are how many batches were begun of which it is known, and how many of them were lost.
func (a *Archive) Losses() (lost, begun int) {
	for _, s := range a.sources {
		if s.made == 0 {
			continue
		}
		begun++
		if s.kept != nil && s.kept.Lost {
			lost++
		}
	}
	return lost, begun
}

// LossRate is the share of batches that were lost; 0 where none was begun.
func (a *Archive) LossRate() float64 {
	lost, begun := a.Losses()
	if begun == 0 {
		return 0
	}
	return float64(lost) / float64(begun)
}
