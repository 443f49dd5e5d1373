package resources

// The planning grid counts steps from moment 0. Rounding goes down or up on the
// line of numbers, not towards zero, so that it is the same on both sides of
// 1970. A step of one minute or less leaves everything as it is.

// CeilTo gives the first moment of the grid that is not before m.
func CeilTo(m Moment, step Minutes) Moment { return Moment(ceil(int64(m), int64(step))) }

// FloorTo gives the last moment of the grid that is not after m.
func FloorTo(m Moment, step Minutes) Moment { return Moment(floor(int64(m), int64(step))) }

// CeilLength rounds a length up to whole steps.
func CeilLength(d, step Minutes) Minutes { return Minutes(ceil(int64(d), int64(step))) }

// FloorLength rounds a length down to whole steps.
func FloorLength(d, step Minutes) Minutes { return Minutes(floor(int64(d), int64(step))) }

func floor(n, step int64) int64 {
	if step <= 1 {
		return n
	}
	return floorDiv(n, step) * step
}

func ceil(n, step int64) int64 {
	if step <= 1 {
		return n
	}
	return ceilDiv(n, step) * step
}

// floorDiv is n/d rounded down, for d > 0; Go's own division rounds to zero.
func floorDiv(n, d int64) int64 {
	q := n / d
	if n%d < 0 {
		q--
	}
	return q
}

// ceilDiv is n/d rounded up, for d > 0.
func ceilDiv(n, d int64) int64 { return -floorDiv(-n, d) }
