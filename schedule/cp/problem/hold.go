package problem

import (
	"sort"
)

// RunSpan is a run's occupation without the cleaning; not ok for a run that a
// stuck job never comes to.
func RunSpan(j *Job, mode *Mode, r int) (from, until int, ok bool) {
	run := &mode.Runs[r]
	if run.First >= len(j.Starts) {
		return 0, 0, false
	}
	until = j.End
	if next := run.Last + 1; next < len(mode.Acts) && next < len(j.Starts) {
		until = j.Starts[next] + mode.Acts[next].Work
	}
	return j.Starts[run.First], until, true
}

// StaySpan is when a stay's boxes stand in its space.
func StaySpan(j *Job, mode *Mode, r int) (from, until int, ok bool) {
	stay := &mode.Stays[r]
	if stay.First >= len(j.Starts) {
		return 0, 0, false
	}
	from = j.Starts[stay.First] + mode.Acts[stay.First].Work
	until = j.End
	if next := stay.Last + 1; next < len(mode.Acts) && next < len(j.Starts) {
		until = j.Starts[next]
	}
	return from, until, until > from
}

// DayOf is the day in which a start at t counts, -1 for none.
func DayOf(days []Day, t int) int {
	i := sort.Search(len(days), func(i int) bool { return days[i].Until > t })
	if i < len(days) && days[i].From <= t {
		return i
	}
	return -1
}
