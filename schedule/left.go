package schedule

import "ripeby/resources"

// LeftShare is what has left for a want of a target before the planning start: as many pieces as somebody
// said, or as were planned. A word that comes later still replaces it.
type LeftShare struct {
	Target  string
	By      resources.Moment
	Want    int
	Planned int // 0 where it was not planned
	Pieces  int // that count as gone
}

// LeftPieces adds up what has left.
func LeftPieces(list []LeftShare) (n int) {
	for _, l := range list {
		n += l.Pieces
	}
	return n
}

// LeftAsPlanned is what has left once a moment has come, by what had left before and what was to leave,
// and what is still to come: all of it as planned.
func LeftAsPlanned(left []LeftShare, planned []Share, from resources.Moment) (gone []LeftShare, coming []Share) {
	gone = append(gone, left...)
	for _, s := range planned {
		if s.By < from {
			gone = append(gone, LeftShare{Target: s.Target, By: s.By, Want: s.Want, Planned: s.Pieces, Pieces: s.Pieces})
		} else {
			coming = append(coming, s)
		}
	}
	return gone, coming
}
