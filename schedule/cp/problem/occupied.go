package problem

// What a job occupies, and from when until when. This is said here and nowhere else of the
// engine: what is placed, bounded, stated and packed all go by it.
//
//	activity    0                1                2
//	            [work]~~~~~~~~~~~[work]~~~~~~~~~~~[work]~~~~~~ last delivery
//	run 0..1    ├─────────────────────────────────────┤ then cleaned
//	stay 0..1        ├────────────────────────────┤
//
// A run is held from the start of its first activity until the work after its last one is done:
// both works need it. Boxes stand from the end of the work that puts them there to the start of
// the work that takes them out.

// Mark is a moment of a job: the start of an activity, or with Done the end of its work; with
// Act one beyond the last activity it is the last delivery.
type Mark struct {
	Act  int
	Done bool
}

// Occupied is what a run or stay goes from and to. Cleaning comes on top of it.
type Occupied struct{ From, Until Mark }

// Occupied is when units of the pool are held.
func (r *Run) Occupied() Occupied { return Occupied{Mark{r.First, false}, Mark{r.Last + 1, true}} }

// Occupied is when the boxes stand.
func (s *Stay) Occupied() Occupied { return Occupied{Mark{s.First, true}, Mark{s.Last + 1, false}} }

// After is how long after the start of its activity a mark of the mode is.
func (mode *Mode) After(at Mark) int {
	if at.Done && at.Act < len(mode.Acts) {
		return mode.Acts[at.Act].Work
	}
	return 0
}

// At is the tick of a mark of the job, which runs by the mode; what it never comes to is at
// its last delivery.
func (j *Job) At(mode *Mode, at Mark) int {
	if at.Act >= len(mode.Acts) || at.Act >= len(j.Starts) {
		return j.End
	}
	return j.Starts[at.Act] + mode.After(at)
}

// Occupies is when the job, which runs by the mode, holds something, cleaning left out; not ok
// where it never comes to it.
func (j *Job) Occupies(mode *Mode, h Occupied) (from, until int, ok bool) {
	if h.From.Act >= len(j.Starts) {
		return 0, 0, false
	}
	return j.At(mode, h.From), j.At(mode, h.Until), true
}

// Between is the time from one mark of the mode to a later one, each lag as long as is
// given. The last delivery counts as soon as the last work is done.
func (mode *Mode) Between(from, until Mark, lag func(*Lag) int) int {
	sum, last := 0, len(mode.Acts)-1
	for i := from.Act; i <= min(until.Act, last); i++ {
		if (i > from.Act || !from.Done) && (i < until.Act || until.Done) {
			sum += mode.Acts[i].Work
		}
		if i < until.Act && i < last {
			sum += lag(&mode.Acts[i].Lag)
		}
	}
	return sum
}

// Ready is the end of the last work of a job of the mode.
func (mode *Mode) Ready() Mark { return Mark{len(mode.Acts) - 1, true} }

// LeastLag is the lag at its least, for [Mode.Between].
func LeastLag(l *Lag) int { return l.Least }

// MostLag is the lag at its most, for [Mode.Between].
func MostLag(l *Lag) int { return l.Most }
