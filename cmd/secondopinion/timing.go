package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

// printTimes prints the best that is known of a kitchen, and who proved how much of it in
// how many processor seconds: medians, and the planner's as a multiple of those of the quickest
// solver that proved all parts, whether the planner did or not.
func (m *meeting) printTimes(out io.Writer) {
	if m.refused != "" {
		return // said with the counts
	}
	fmt.Fprintf(out, "%s: %s\n", m.name, m.worth)
	proved := provedParts(m.plan.Proof.Bound, m)
	fmt.Fprintf(out, "  %-8s proved %d of %d  %8.3f s\n", "planner", proved, len(m.worth), median(m.spent))
	best := 0.0
	for _, a := range m.answers {
		took := median(a.spent)
		fmt.Fprintf(out, "  %-8s proved %d of %d  %8.3f s%s\n", a.by, a.proved, len(m.worth), took, a.apartFrom(m))
		if a.proved == len(m.worth) && (best == 0 || took < best) {
			best = took
		}
	}
	if best > 0 {
		fmt.Fprintf(out, "  planner / best solver: %.2f\n", median(m.spent)/best)
	}
}

// apartFrom says where an answer is not the planner's.
func (a *answer) apartFrom(m *meeting) string {
	if i := m.firstApart(a); i < len(m.worth) {
		return fmt.Sprintf("  %s %d", partNames[i], a.best[i])
	}
	return ""
}

// String lists the parts by their names, those that are nothing left out.
func (w worth) String() string {
	var out []string
	for i, n := range w {
		if i == partStarts {
			n = -n
		}
		if n != 0 {
			out = append(out, fmt.Sprintf("%s %d", partNames[i], n))
		}
	}
	if len(out) == 0 {
		return "nothing to do"
	}
	return strings.Join(out, ", ")
}

// median is the middle of a list; of an even number the later of the two.
func median(list []float64) float64 {
	sorted := slices.Sorted(slices.Values(list))
	return sorted[len(sorted)/2]
}
