package main

import (
	"bufio"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"

	"ripeby/resources"
	"ripeby/schedule"
)

//go:embed kitchen.mzn
var kitchenModel string

//go:embed second.mjs
var secondScript string

// solver is a general solver that answers statements, one after another.
type solver struct {
	seconds float64
	cmd     *exec.Cmd
	in      io.WriteCloser
	out     *bufio.Reader
	asked   int
}

// question and reply are the lines that go to the script and come back.
type question struct {
	ID      int     `json:"id"`
	Model   string  `json:"model"`
	Values  string  `json:"values"`
	Seconds float64 `json:"seconds"`
	Plan    []int64 `json:"plan"` // the six parts of a plan's score, in the model's measures
}

type reply struct {
	ID     int     `json:"id"`
	Status string  `json:"status"` // best, open, none or fault
	Parts  []int64 `json:"parts"`  // those proved, first to last
	Text   string  `json:"text"`
	Last   chosen  `json:"last"`
}

// missingSolver says in one line why there is no solver in dir; "" when there is one.
func missingSolver(dir string) string {
	if _, err := exec.LookPath("node"); err != nil {
		return "there is no node on this machine"
	}
	package_ := filepath.Join(dir, "node_modules", "minizinc", "dist", "minizinc-worker.js")
	if _, err := os.Stat(package_); err != nil {
		return fmt.Sprintf("the package minizinc is not in %s; npm install minizinc there brings it", filepath.Join(dir, "node_modules"))
	}
	return ""
}

// newSolver starts the script; name is the solver that the package is to use.
func newSolver(dir, name string, seconds float64) (*solver, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	s := &solver{seconds: seconds, cmd: exec.Command("node", "--input-type=module", "-e", secondScript, dir, name)}
	s.cmd.Stderr = os.Stderr
	if s.in, err = s.cmd.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	s.out = bufio.NewReaderSize(out, 1<<20)
	return s, s.cmd.Start()
}

// close ends the script.
func (s *solver) close() error {
	s.in.Close()
	return s.cmd.Wait()
}

// ask has one statement answered, beside a plan.
func (s *solver) ask(values string, plan []int64) (reply, error) {
	s.asked++
	line, err := json.Marshal(question{s.asked, kitchenModel, values, s.seconds, plan})
	if err != nil {
		return reply{}, err
	}
	if _, err := s.in.Write(append(line, '\n')); err != nil {
		return reply{}, fmt.Errorf("the solver's script has ended: %w", err)
	}
	text, err := s.out.ReadBytes('\n')
	if err != nil {
		return reply{}, fmt.Errorf("the solver's script has ended: %w, %v", err, s.cmd.Wait())
	}
	var r reply
	if err := json.Unmarshal(text, &r); err != nil || r.ID != s.asked {
		return reply{}, fmt.Errorf("the solver's script wrote %.200q: %v", text, err)
	}
	return r, nil
}

// scoreOf puts the first parts of a score into the planner's measures.
func (s *statement) scoreOf(parts []int64) schedule.Score {
	var x schedule.Score
	all := make([]int64, 6)
	copy(all, parts)
	x.PromisedShort, x.Short = resources.Money(all[0]), resources.Money(all[1])
	x.Batches, x.Litres, x.Bother = int(all[2]), resources.Millilitres(all[3])*s.measure, all[4]
	if len(parts) == 6 {
		x.MakeStarts = all[2]*int64(s.zero-s.p.From) + all[5]*int64(s.step)
	}
	return x
}

// partsOf puts a plan's score into the model's measures.
func (s *statement) partsOf(x schedule.Score) []int64 {
	n := int64(x.Batches)
	return []int64{int64(x.PromisedShort), int64(x.Short), n, int64(x.Litres / max(1, s.measure)), x.Bother,
		(x.MakeStarts - n*int64(s.zero-s.p.From)) / int64(s.step)}
}
