package main

import (
	"fmt"

	"ripeby/cmd/cpbench/psplib"
)

// check says what is wrong with starts that are said to be of a value; nil where
// they keep to the project and the value is theirs. It shares nothing with the
// search.
func check(in *psplib.Dated, cal calendar, starts []int, value int) error {
	if len(starts) != len(in.Lengths) {
		return fmt.Errorf("got %d starts, want %d", len(starts), len(in.Lengths))
	}
	for _, l := range in.Lags {
		if starts[l.To] < starts[l.From]+l.Least {
			return fmt.Errorf("task %d starts at %d, task %d at %d, want a lag of at least %d", l.From, starts[l.From], l.To, starts[l.To], l.Least)
		}
	}
	worth := starts[len(starts)-1]
	if in.Dues != nil {
		worth = 0
	}
	for i, start := range starts {
		if start < 0 || in.Dues != nil && start > in.Most {
			return fmt.Errorf("task %d starts at %d, want it in time", i, start)
		}
		if in.Dues != nil {
			worth += in.Dues[i].Cost(start)
		}
		if cal.period > 0 && in.Lengths[i] > 0 && in.Demands[i][0] > 0 && start%cal.period+in.Lengths[i] > cal.on {
			return fmt.Errorf("task %d of %d starts at %d, want it in one window", i, in.Lengths[i], start)
		}
	}
	if worth != value {
		return fmt.Errorf("got the value %d, want %d of these starts", value, worth)
	}
	return checkRoom(in, starts)
}

// checkRoom looks at each moment at which a task starts: there the most is taken.
func checkRoom(in *psplib.Dated, starts []int) error {
	for r, capacity := range in.Capacity {
		for _, at := range starts {
			sum := 0
			for i, start := range starts {
				if start <= at && at < start+in.Lengths[i] {
					sum += in.Demands[i][r]
				}
			}
			if sum > capacity {
				return fmt.Errorf("at %d, %d of thing %d are taken, want at most %d", at, sum, r+1, capacity)
			}
		}
	}
	return nil
}
