package main

import (
	"fmt"

	"ripeby/schedule"
)

// provedParts is how many of the first parts a plan's bound reaches.
func provedParts(bound schedule.Score, m *meeting) int {
	b, n := worthOf(bound, int(m.worth[0])), 0
	for n < len(b) && b[n] == m.worth[n] {
		n++
	}
	return n
}

// firstApart is the first part, among those proved, in which an answer differs from the
// plan; past the last for none.
func (m *meeting) firstApart(a *answer) int {
	for i := range a.proved {
		if m.worth[i] != a.best[i] {
			return i
		}
	}
	return len(m.worth)
}

// verdict says how the plan stands beside an answer: equal, worse, open or wrong, and why.
func (m *meeting) verdict(a *answer) (word, text string) {
	switch {
	case len(m.faults) > 0:
		return "WRONG", fmt.Sprintf(", the plan breaks a rule: %v", m.faults[0])
	case len(a.broken) > 0:
		return "WRONG", fmt.Sprintf(", the solver's answer breaks a rule: %v", a.broken[0])
	case a.none:
		return "WRONG", ", the solver allows no plan at all, not even an empty one"
	}
	if i := m.firstApart(a); i < len(m.worth) {
		bound := worthOf(m.plan.Proof.Bound, int(m.worth[0]))[i]
		switch {
		case m.worth[i] < a.best[i]:
			return "WRONG", fmt.Sprintf(", the plan is better in %s than the solver's best", partNames[i])
		case bound > a.best[i]:
			return "WRONG", fmt.Sprintf(", the plan's bound in %s is beyond the solver's best", partNames[i])
		}
		return "worse", " in " + partNames[i]
	}
	if a.proved < len(m.worth) {
		return "open", ""
	}
	return "equal", ""
}

// quarrel says where two solvers prove different things of a kitchen, "" for nowhere.
func (m *meeting) quarrel() string {
	for i, a := range m.answers {
		for _, b := range m.answers[:i] {
			for k := range min(a.proved, b.proved) {
				if a.best[k] != b.best[k] {
					return fmt.Sprintf("%s proves %d in %s, %s %d", b.by, b.best[k], partNames[k], a.by, a.best[k])
				}
			}
			if a.none != b.none && a.failed == "" && b.failed == "" && (a.none && b.proved > 0 || b.none && a.proved > 0) {
				return fmt.Sprintf("only one of %s and %s allows a plan", b.by, a.by)
			}
		}
	}
	return ""
}
