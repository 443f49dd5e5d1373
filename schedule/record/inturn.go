package record

// TakenInTurn is how many pieces of each batch left for a target that took so many, where nobody said of
// which they were. planned is how many each was to give, the one packed first first: what was not taken
// stays with the one packed last, and more than planned comes from that one.
func TakenInTurn(took int, planned []int) []int {
	of := make([]int, len(planned))
	for i, n := range planned {
		of[i] = min(took, n)
		took -= of[i]
	}
	if n := len(of); n > 0 {
		of[n-1] += took
	}
	return of
}

// BackInTurn is how many pieces of each batch came back of those that left, likewise: of the one packed
// last first, and no more of each than left.
func BackInTurn(back int, left []int) []int {
	of := make([]int, len(left))
	for i := len(of) - 1; i >= 0; i-- {
		of[i] = min(back, left[i])
		back -= of[i]
	}
	return of
}
