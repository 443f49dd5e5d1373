package main

import (
	_ "embed"
	"fmt"

	"ripeby/cmd/internal/generalsolver"
)

//go:embed kitchen.mzn
var kitchenModel string

//go:embed second.mjs
var secondScript string

// solver is a general solver that answers statements, one after another.
type solver interface {
	name() string
	// ask has one statement answered. A plan's worth in the model's measures may be given: a
	// solver may then go no further than to the first part in which the best is better.
	ask(s *statement, plan []int64) (reply, error)
	close()
}

// reply is a line that comes back from a solver's script.
type reply struct {
	ID     int     `json:"id"`
	Status string  `json:"status"` // best, open, none or fault
	Parts  []int64 `json:"parts"`  // those proved, first to last, in the model's measures
	Text   string  `json:"text"`
	Last   chosen  `json:"last"`
	Spent  float64 `json:"spent"` // processor seconds, without starting the program
}

// asking is a script that answers questions by their numbers.
type asking struct {
	script *generalsolver.Script
	asked  int
}

func (a *asking) close() { a.script.Close() }

// put has a question answered that carries the next number.
func (a *asking) put(question any) (reply, error) {
	var r reply
	err := a.script.Ask(question, &r, 0)
	if err == nil && r.ID != a.asked {
		err = fmt.Errorf("the solver's script answered question %d, want %d", r.ID, a.asked)
	}
	return r, err
}

// minizinc is a solver of the package minizinc, which reads kitchen.mzn.
type minizinc struct {
	asking
	solver  string
	seconds float64
}

func (m *minizinc) name() string { return m.solver }

func (m *minizinc) ask(s *statement, plan []int64) (reply, error) {
	m.asked++
	return m.put(struct {
		ID      int     `json:"id"`
		Model   string  `json:"model"`
		Values  string  `json:"values"`
		Seconds float64 `json:"seconds"`
		Plan    []int64 `json:"plan"`
	}{m.asked, kitchenModel, s.dzn(), m.seconds, plan})
}

// startMinizinc starts a solver of the package that a folder holds.
func startMinizinc(folder, solver string, seconds float64) (*minizinc, error) {
	dist, err := generalsolver.Find(folder)
	if err != nil {
		return nil, &missing{err}
	}
	script, err := generalsolver.Start(secondScript, dist, solver)
	if err != nil {
		return nil, err
	}
	return &minizinc{asking{script: script}, solver, seconds}, nil
}

// missing says that a solver is not there, and what brings it.
type missing struct{ error }
