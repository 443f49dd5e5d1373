package feed

import (
	"ripeby/calendar/strips"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
)

// StandingView is how the plan stands, in words.
type StandingView struct {
	From     string
	Outcome  string
	Proof    string
	Short    []string
	Warnings []string
}

// withStanding fills in how the plan stands.
func (v *View) withStanding() {
	s := &StandingView{From: words.StampOf(v.Problem, v.Plan.From), Outcome: words.Capital(strips.Outcome(v.Plan)) + ".", Proof: words.Proof(v.Plan.Proof)}
	for _, w := range v.Plan.Targets {
		if w.Short > 0 {
			named := words.Printable(w.Target) + ", " + words.StampOf(v.Problem, w.By) + ", " + words.Printable(w.Cheese)
			s.Short = append(s.Short, week.MissingText(named, &w, words.Printable(w.Because)))
		}
	}
	for _, w := range v.Plan.Warnings {
		line := words.Printable(w.Text)
		if w.At != 0 {
			line = words.StampOf(v.Problem, w.At) + ": " + line
		}
		s.Warnings = append(s.Warnings, line)
	}
	v.Standing = s
}
