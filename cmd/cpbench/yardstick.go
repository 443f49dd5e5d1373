package main

import (
	"bufio"
	"bytes"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"ripeby/cmd/cpbench/psplib"
	"ripeby/schedule/cp/kernel"
)

//go:embed yardstick
var yardstickFiles embed.FS

// yardstick is a solver made elsewhere that answers the same questions in the same
// run: Chuffed, as the npm package "minizinc" carries it, under node.
type yardstick struct {
	script string // folder of the script, of our own making
	dist   string

	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader

	failed bool // it is asked no more
}

// graceful is how many times its limit, and how much more, the yardstick may take
// by the clock, as it shares the machine, before it is ended and counted as not
// having answered.
const (
	graceful     = 60 * time.Second
	gracefulness = 10
)

// errNoYardstick says that there is none here; the text says what is missing.
var errNoYardstick = errors.New("the yardstick is skipped")

// newYardstick finds the package in a folder; errNoYardstick where it or node is
// not there.
func newYardstick(folder string) (*yardstick, error) {
	if _, err := exec.LookPath("node"); err != nil {
		return nil, fmt.Errorf("%w: there is no node on the path", errNoYardstick)
	}
	dist, err := filepath.Abs(filepath.Join(folder, "node_modules", "minizinc", "dist"))
	if err != nil {
		return nil, err
	}
	for _, name := range []string{"minizinc-worker.js", "minizinc.wasm", "minizinc.data"} {
		if _, err := os.Stat(filepath.Join(dist, name)); err != nil {
			return nil, fmt.Errorf("%w: there is no %s in %s; \"npm install minizinc\" in %s puts it there", errNoYardstick, name, dist, folder)
		}
	}
	script, err := os.MkdirTemp("", "cpbench")
	if err != nil {
		return nil, err
	}
	text, err := yardstickFiles.ReadFile("yardstick/drive.cjs")
	if err != nil {
		return nil, err
	}
	return &yardstick{script: script, dist: dist}, os.WriteFile(filepath.Join(script, "drive.cjs"), text, 0o600)
}

// close ends the yardstick and takes its script away.
func (y *yardstick) close() {
	y.end()
	os.RemoveAll(y.script)
}

// fail ends the yardstick for good.
func (y *yardstick) fail() {
	y.end()
	y.failed = true
}

func (y *yardstick) start() (err error) {
	y.cmd = exec.Command("node", filepath.Join(y.script, "drive.cjs"), y.dist)
	if y.in, err = y.cmd.StdinPipe(); err != nil {
		return err
	}
	out, err := y.cmd.StdoutPipe()
	if err != nil {
		return err
	}
	y.out = bufio.NewReader(out)
	if err := y.cmd.Start(); err != nil {
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

func (y *yardstick) end() {
	if y.cmd != nil {
		y.in.Close()
		y.cmd.Process.Kill()
		y.cmd.Wait()
		y.cmd = nil
	}
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
	line, err := json.Marshal(map[string]any{"model": string(model), "data": dzn(in), "args": args})
	if err != nil {
		return answer{}, err
	}
	if y.cmd == nil {
		if err := y.start(); err != nil {
			return answer{}, err
		}
	}
	got, err := y.exchange(append(line, '\n'), gracefulness*time.Duration(seconds*float64(time.Second))+graceful)
	if err != nil {
		return answer{}, err
	}
	return got.answer(seconds)
}

// exchange sends a line and waits for one; an answer that does not come in time
// ends the yardstick, which the next question starts anew.
func (y *yardstick) exchange(line []byte, most time.Duration) (replied, error) {
	late := time.AfterFunc(most, func() { y.cmd.Process.Kill() })
	var got replied
	_, err := y.in.Write(line)
	var text []byte
	if err == nil {
		text, err = y.out.ReadBytes('\n')
	}
	if !late.Stop() {
		y.end()
		return replied{Status: "UNKNOWN"}, nil
	}
	if err == nil {
		err = json.Unmarshal(text, &got)
	}
	if err != nil {
		y.end()
		return replied{}, fmt.Errorf("the yardstick: %w", err)
	}
	return got, nil
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
	var b bytes.Buffer
	horizon := in.Most
	if in.Dues == nil {
		horizon = in.Horizon(0)
	}
	fmt.Fprintf(&b, "tasks = %d;\nthings = %d;\nlags = %d;\nhorizon = %d;\n", len(in.Lengths), len(in.Capacity), len(in.Lags), horizon)
	var demand []int
	for r := range in.Capacity {
		for _, d := range in.Demands {
			demand = append(demand, d[r])
		}
	}
	var from, to, least, due, early, late []int
	for _, l := range in.Lags {
		from, to, least = append(from, l.From+1), append(to, l.To+1), append(least, l.Least)
	}
	for _, d := range in.Dues {
		due, early, late = append(due, d.At), append(early, d.Early), append(late, d.Late)
	}
	list := func(name string, nums []int) {
		fmt.Fprintf(&b, "%s = [%s];\n", name, strings.Trim(strings.ReplaceAll(fmt.Sprint(nums), " ", ", "), "[]"))
	}
	list("length", in.Lengths)
	list("capacity", in.Capacity)
	list("from", from)
	list("to", to)
	list("least", least)
	fmt.Fprintf(&b, "demand = array2d(1..%d, 1..%d, [%s]);\n", len(in.Capacity), len(in.Lengths), strings.Trim(strings.ReplaceAll(fmt.Sprint(demand), " ", ", "), "[]"))
	if in.Dues != nil {
		list("due", due)
		list("early", early)
		list("late", late)
	}
	return b.String()
}
