package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/planner"
)

// onShelves reports whether a box of a new batch stands on a shelf.
func onShelves(plan *schedule.Plan) bool {
	for _, b := range plan.Batches {
		for _, task := range b.Stages {
			if len(task.BoxesAt) > 0 && task.BoxesAt[0].Shelf != "" {
				return true
			}
		}
	}
	return false
}

// plenty is how many times the kit a kitchen has in which nothing is fought over.
const plenty = 100

// partNames are the parts of a score in the order in which they count.
var partNames = []string{"promised short", "short", "batches", "litres", "bother", "make starts"}

// parts gives a score's parts, each to be small.
func parts(s schedule.Score) [6]int64 {
	return [6]int64{int64(s.PromisedShort), int64(s.Short), int64(s.Batches), int64(s.Litres), s.Bother, -s.MakeStarts}
}

// shares counts how plans stand beside the best ones.
type shares struct {
	unread, refused, open int
	equal, equalProved    int
	wrong, worse          int // cannot both be right; honestly worse
	failed                int // the solver failed
	worseBy               [6]int
	short, fought         int
	has                   map[string]int
	compared              int
	reasons               map[string]int
	took                  []time.Duration
}

func newShares() *shares { return &shares{has: map[string]int{}, reasons: map[string]int{}} }

// err is errApart where something was wrong.
func (t *shares) err() error {
	if t.wrong > 0 {
		return errApart
	}
	if t.failed > 0 {
		return fmt.Errorf("the solver failed on %d kitchens", t.failed)
	}
	return nil
}

// count adds a kitchen, and prints it where the answers differ.
func (t *shares) count(out io.Writer, m *meeting, refused string, loud bool) {
	if refused != "" {
		t.refused++
		t.reasons[refused]++
		if loud {
			fmt.Fprintf(out, "%s: not stated: %s\n", m.name, refused)
		}
		return
	}
	if m.failed != "" {
		t.failed++
		fmt.Fprintf(out, "%s: the solver failed: %s\n", m.name, m.failed)
		return
	}
	t.took = append(t.took, m.took)
	word, text := m.verdict()
	switch word {
	case "open":
		t.open++
	case "equal":
		t.equal++
		if m.plan.Proof.Best {
			t.equalProved++
		}
	case "worse":
		t.worse++
		t.worseBy[m.firstApart()]++
	default:
		t.wrong++
	}
	if word != "open" {
		t.compared++
		t.describe(m)
	}
	if word != "equal" || loud {
		fmt.Fprintf(out, "%s: %s%s; planner %v proved %q, solver %v proved %d of 6, %v\n", m.name, word, m.text(text),
			m.plan.Score, m.plan.Proof.Level, m.best, m.proved, m.took.Round(10*time.Millisecond))
	}
}

// describe counts what the kitchen has in it.
func (t *shares) describe(m *meeting) {
	if m.best.PromisedShort > 0 || m.best.Short > 0 {
		t.short++
	}
	if fought(m) {
		t.fought++
	}
	for name := range m.has {
		t.has[name]++
	}
	if onShelves(m.plan) || m.answer != nil && onShelves(m.answer) {
		t.has["boxes on shelves"]++
	}
}

// fought reports whether batches get in each other's way: with a hundred times the kit
// and room, and milk without limit, the planner's plan would be better.
func fought(m *meeting) bool {
	p := *m.p
	k := p.Kitchen.Clone()
	for _, t := range needs.Things(&k) {
		*t.Count *= plenty
	}
	for i := range k.Cold {
		k.Cold[i].Boxes *= plenty
	}
	for i := range k.Milk {
		k.Milk[i].Most = resources.NoLimit
	}
	p.Kitchen = k
	plan, err := planner.Plan(context.Background(), &p, planner.Options{})
	return err == nil && plan.Score.Compare(m.plan.Score) < 0
}

// firstApart is the first part, among those proved, in which the two differ; 6 for none.
func (m *meeting) firstApart() int {
	a, b := parts(m.plan.Score), parts(m.best)
	for i := range m.proved {
		if a[i] != b[i] {
			return i
		}
	}
	return len(a)
}

// text adds what the solver says to why a verdict is as it is.
func (m *meeting) text(why string) string {
	if m.says == "" {
		return why
	}
	return why + " (" + m.says + ")"
}

// verdict says how the plan stands: equal, worse, open or wrong, and why.
func (m *meeting) verdict() (word, text string) {
	if len(m.faults) > 0 {
		return "WRONG", fmt.Sprintf(", the plan breaks a rule: %v", m.faults[0])
	}
	if len(m.broken) > 0 {
		return "WRONG", fmt.Sprintf(", the solver's answer breaks a rule: %v", m.broken[0])
	}
	if !m.none && m.outOfCourse() {
		return "WRONG", ", the plan lets something under way go out of its course, and need not"
	}
	if m.none {
		return "WRONG", ", the solver allows no plan at all, not even an empty one"
	}
	i := m.firstApart()
	if i < 6 {
		is, best, bound := parts(m.plan.Score)[i], parts(m.best)[i], parts(m.plan.Proof.Bound)[i]
		switch {
		case is < best:
			return "WRONG", fmt.Sprintf(", the plan is better in %s than the solver's best", partNames[i])
		case bound > best:
			return "WRONG", fmt.Sprintf(", the plan's bound in %s is beyond the solver's best", partNames[i])
		}
		return "worse", " in " + partNames[i]
	}
	if m.proved < 6 {
		return "open", ""
	}
	return "equal", ""
}

// print writes the shares.
func (t *shares) print(out io.Writer) {
	slices.Sort(t.took)
	total, median := time.Duration(0), time.Duration(0)
	for _, d := range t.took {
		total += d
	}
	if n := len(t.took); n > 0 {
		median = t.took[n/2]
	}
	fmt.Fprintf(out, "%d compared: %d equal (%d of them proved by the planner), %d worse but honest, %d wrong\n", t.compared, t.equal, t.equalProved, t.worse, t.wrong)
	for i, n := range t.worseBy {
		if n > 0 {
			fmt.Fprintf(out, "  worse first in %s: %d\n", partNames[i], n)
		}
	}
	fmt.Fprintf(out, "%d not answered in time, %d failed, %d not stated, %d not a folder\n", t.open, t.failed, t.refused, t.unread)
	for _, text := range sorted(t.reasons) {
		fmt.Fprintf(out, "  not stated: %s: %d\n", text, t.reasons[text])
	}
	if t.compared > 0 {
		fmt.Fprintf(out, "of those compared: short %d%%, kit, room or milk fought over %d%%\n", 100*t.short/t.compared, 100*t.fought/t.compared)
	}
	for _, name := range sorted(t.has) {
		fmt.Fprintf(out, "  %s: %d\n", name, t.has[name])
	}
	fmt.Fprintf(out, "solver: median %v, total %v\n", median.Round(10*time.Millisecond), total.Round(time.Second))
}

// sorted gives the names in order.
func sorted(counts map[string]int) []string {
	var names []string
	for name := range counts {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
