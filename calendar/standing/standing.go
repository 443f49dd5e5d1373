package standing

import (
	"ripeby/calendar/strips"
	"ripeby/calendar/week"
	"ripeby/calendar/words"
	"ripeby/schedule"
)

// Standing is how a plan stands, in words.
type Standing struct {
	From     string
	Outcome  string
	Proof    string
	Short    []string
	Warnings []string
}

// Of says how a plan stands.
func Of(p *schedule.Problem, plan *schedule.Plan) *Standing {
	s := &Standing{From: words.StampOf(p, plan.From), Outcome: words.Capital(strips.Outcome(plan)) + ".", Proof: words.Proof(plan.Proof)}
	for _, w := range plan.Targets {
		if w.Short > 0 {
			named := words.Printable(w.Target) + ", " + words.StampOf(p, w.By) + ", " + words.Printable(w.Cheese)
			s.Short = append(s.Short, week.MissingText(named, &w, words.Printable(w.Because)))
		}
	}
	for _, w := range plan.Warnings {
		s.Warnings = append(s.Warnings, WarningText(p, w))
	}
	return s
}

// WarningText is a warning with its moment.
func WarningText(p *schedule.Problem, w schedule.Warning) string {
	line := words.Printable(w.Text)
	if w.At == 0 {
		return line
	}
	return words.StampOf(p, w.At) + ": " + line
}
