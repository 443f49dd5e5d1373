package main

import (
	"embed"
	"errors"
	"fmt"
	"time"

	"ripeby/cmd/cpbench/psplib"
	"ripeby/cmd/internal/generalsolver"
	"ripeby/schedule/cp/kernel"
)

//go:embed yardstick
var yardstickFiles embed.FS

// yardstick is a solver made elsewhere that answers the same questions in the same
// run: Chuffed, as the npm package "minizinc" carries it, under node.
type yardstick struct {
	dist   string                // folder of the package's files
	script *generalsolver.Script // nil until something is asked
	failed bool                  // it is asked no more
}

// graceful is how many times its limit, and how much more, the yardstick may take
// by the clock, as it shares the machine, before it is ended and counted as not
// having answered.
const (
	graceful     = 60 * time.Second
	gracefulness = 10
)

// fail ends the yardstick for good.
func (y *yardstick) fail() {
	y.end()
	y.failed = true
}

// end ends its script; the next question starts it anew.
func (y *yardstick) end() {
	if y.script != nil {
		y.script.Close()
		y.script = nil
	}
}

func (y *yardstick) start() error {
	text, err := yardstickFiles.ReadFile("yardstick/drive.mjs")
	if err != nil {
		return err
	}
	if y.script, err = generalsolver.Start(string(text), y.dist); err != nil {
		return err
	}
	return y.warm()
}

// warm asks small questions, so that no measured one pays for compiling the solver.
func (y *yardstick) warm() error {
	in := &psplib.Dated{
		Instance: psplib.Instance{Lengths: []int{0, 5, 7, 0}, Demands: [][]int{{0}, {1}, {1}, {0}}, Capacity: []int{1},
			Lags: []psplib.Lag{{From: 0, To: 1}, {From: 0, To: 2}, {From: 1, To: 3, Least: 5}, {From: 2, To: 3, Least: 7}}},
		Most: 20, Dues: []psplib.Due{{At: 0}, {At: 0, Late: 2}, {At: 0, Late: 2}, {At: 0, Late: 1}},
	}
	const least = 2*5 + 12 // the shorter first
	for range 3 {
		a, err := y.ask(in, true, 20)
		if err != nil {
			return err
		}
		if a.status != kernel.Solved || a.value != least {
			return fmt.Errorf("the yardstick: got %v of two tasks, want least %d", a, least)
		}
	}
	return nil
}

// replied is what the script answers.
type replied struct {
	Status     string
	Found      []int
	Statistics struct{ SolveTime float64 }
	Error      string
}

// ask states an instance and gives the answer, which took only what the search
// took: stating the question to itself is not counted.
func (y *yardstick) ask(in *psplib.Dated, free bool, seconds float64) (answer, error) {
	name := "yardstick/project.mzn"
	if in.Dues != nil {
		name = "yardstick/wanted.mzn"
	}
	model, err := yardstickFiles.ReadFile(name)
	if err != nil {
		return answer{}, err
	}
	args := []string{"--solver", "chuffed", "-s", "--solver-time-limit", fmt.Sprint(int(seconds * 1000))}
	if free {
		args = append(args, "-f")
	}
	if y.script == nil {
		if err := y.start(); err != nil {
			return answer{}, err
		}
	}
	var got replied
	most := gracefulness*time.Duration(seconds*float64(time.Second)) + graceful
	err = y.script.Ask(map[string]any{"model": string(model), "data": dzn(in), "args": args}, &got, most)
	if err != nil {
		y.end()
	}
	if errors.Is(err, generalsolver.ErrLate) {
		got, err = replied{Status: "UNKNOWN"}, nil
	}
	if err != nil {
		return answer{}, fmt.Errorf("the yardstick: %w", err)
	}
	return got.answer(seconds)
}

// answer reads what was replied.
func (t replied) answer(seconds float64) (answer, error) {
	a := answer{took: time.Duration(min(t.Statistics.SolveTime, seconds) * float64(time.Second))}
	if t.Status == "" || t.Status == "UNKNOWN" {
		a.took = time.Duration(seconds * float64(time.Second))
	}
	if n := len(t.Found); n > 0 {
		a.found, a.value = true, t.Found[n-1]
	}
	switch {
	case t.Error != "":
		return a, fmt.Errorf("the yardstick: %s", t.Error)
	case t.Status == "OPTIMAL_SOLUTION":
		a.status = kernel.Solved
	case t.Status == "UNSATISFIABLE":
		a.status = kernel.Impossible
	}
	return a, nil
}

// dzn writes an instance as data of the models.
func dzn(in *psplib.Dated) string {
	w := &generalsolver.Values{}
	w.Number("tasks", len(in.Lengths))
	w.Number("things", len(in.Capacity))
	w.Number("lags", len(in.Lags))
	horizon := in.Most
	if in.Dues == nil {
		horizon = in.Horizon(0)
	}
	w.Number("horizon", horizon)
	w.List("length", in.Lengths)
	w.List("capacity", in.Capacity)
	var from, to, least []int
	for _, l := range in.Lags {
		from, to, least = append(from, l.From+1), append(to, l.To+1), append(least, l.Least)
	}
	w.List("from", from)
	w.List("to", to)
	w.List("least", least)
	demand := make([][]int, len(in.Capacity))
	for r := range demand {
		for _, d := range in.Demands {
			demand[r] = append(demand[r], d[r])
		}
	}
	w.Table("demand", "1..things, 1..tasks", demand)
	if in.Dues != nil {
		var due, early, late []int
		for _, d := range in.Dues {
			due, early, late = append(due, d.At), append(early, d.Early), append(late, d.Late)
		}
		w.List("due", due)
		w.List("early", early)
		w.List("late", late)
	}
	return w.String()
}
