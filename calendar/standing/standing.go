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
	s := &Standing{From: words.StampOf(p, plan.From), Outcome: words.Capital(strips.Outcome(plan)) + ".", Proof: ProofText(plan.Proof)}
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

// ProofText says in one sentence how good a plan is known to be. The parts of the
// order come one after another, so what is proved of one holds with all before it.
func ProofText(p schedule.Proof) string {
	switch p.Level {
	case schedule.LevelAll:
		return "Proved: there is no better plan."
	case schedule.LevelBother:
		return "Proved but for one thing: the same cheese might be made a little later, and so be fresher."
	case schedule.LevelLitres:
		return "Proved: no plan meets more of what is wanted, and none that meets as much needs fewer batches or less milk; one with less bother might exist."
	case schedule.LevelBatches, schedule.LevelMoved:
		return "Proved: no plan meets more of what is wanted, and none that meets as much needs fewer batches; one with less milk might exist."
	case schedule.LevelShort:
		return "Proved: no plan meets more of what is wanted; one with fewer batches might exist."
	case schedule.LevelLate:
		return "Proved: no plan meets more of what is promised, and none lets what has begun wait less past its time; one that meets more of what else is wanted might exist."
	case schedule.LevelPromisedShort:
		return "Proved: no plan meets more of what is promised; one that lets what has begun wait less past its time, or meets more of what else is wanted, might exist."
	}
	return "Not proved: a better plan might exist."
}
