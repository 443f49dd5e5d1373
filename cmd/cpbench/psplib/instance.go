package psplib

// Instance is a project: tasks with lengths, demands for things that are there in
// Capacity units, and lags between starts. Task 0 is its start and the last task
// its end.
type Instance struct {
	Lengths  []int
	Demands  [][]int // [task][thing]
	Capacity []int
	Lags     []Lag
}

// Lag says that task To starts at least Least after task From starts; a negative
// Least is a greatest lag the other way.
type Lag struct {
	From, To, Least int
}

// What a file may hold, so that every sum of times fits 31 bits.
const (
	mostTasks  = 1000
	mostNumber = 1_000_000 // of any number, either side of zero
)

// Horizon is a time at which a shortest project is over, if the project is
// possible: all lengths or longest lags one after another, each with a pause.
// Where a plan waits longer than that at one place, all that comes later can move
// to the front.
func (in *Instance) Horizon(pause int) int {
	most := make([]int, len(in.Lengths))
	copy(most, in.Lengths)
	for _, l := range in.Lags {
		most[l.From] = max(most[l.From], l.Least)
	}
	h := 0
	for _, m := range most {
		h += m + pause
	}
	return h
}

// check finds what no project can have; line is where the file ends.
func (in *Instance) check(line int) error {
	n := len(in.Lengths)
	switch {
	case n < 2:
		return &Fault{line, "tasks", n, "a start and an end at least"}
	case len(in.Capacity) == 0:
		return &Fault{line, "things", 0, "one at least"}
	}
	for _, l := range in.Lags {
		if l.From < 0 || l.From >= n || l.To < 0 || l.To >= n {
			return &Fault{line, "a lag between tasks", []int{l.From, l.To}, "tasks that are there"}
		}
	}
	for _, d := range in.Demands {
		if len(d) != len(in.Capacity) {
			return &Fault{line, "demands of one task", d, "one for each thing"}
		}
	}
	return nil
}
