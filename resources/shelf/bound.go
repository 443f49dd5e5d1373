package shelf

// reach is the greatest sum of sides of one size of box that is at most length:
// the part of a floor's side that equal boxes can use.
func reach(length, long, short int64) (most int64) {
	for x := int64(0); x <= length; x += long {
		if most = max(most, x+(length-x)/short*short); most == length {
			break
		}
	}
	return most
}

// atMost is an upper bound on the number of long x short boxes on a w x d floor,
// in whole units.
//
// Cut into strips one unit wide, a box is a set of bars of its longer side, and
// as well a set of bars of its shorter side. So at least as much is left bare as
// by the best packing of either kind of bars (Barnes 1979); and what is left
// bare is the floor less a whole number of boxes, which rounds it up.
func atMost(w, d, long, short int64) int64 {
	w, d = reach(w, long, short), reach(d, long, short)
	area, box := w*d, long*short
	bare := max(bareOfBars(w, d, long), bareOfBars(w, d, short))
	return (area - bare) / box
}

// bareOfBars is the least area that bars of length n and width 1 leave bare on a
// w x d floor: with r and s the remainders of its sides, r s or (n-r)(n-s),
// whichever is less.
func bareOfBars(w, d, n int64) int64 {
	r, s := w%n, d%n
	return min(r*s, (n-r)*(n-s))
}
