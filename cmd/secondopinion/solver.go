package main

import (
	_ "embed"
	"fmt"

	"ripeby/cmd/internal/generalsolver"
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
	script  *generalsolver.Script
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

// ask has one statement answered, beside a plan.
func (s *solver) ask(values string, plan []int64) (reply, error) {
	s.asked++
	var r reply
	err := s.script.Ask(question{s.asked, kitchenModel, values, s.seconds, plan}, &r, 0)
	if err == nil && r.ID != s.asked {
		err = fmt.Errorf("the solver's script answered question %d, want %d", r.ID, s.asked)
	}
	return r, err
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
