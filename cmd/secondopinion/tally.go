package main

import (
	"context"
	"fmt"
	"io"
	"maps"
	"slices"

	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/needs"
	"ripeby/schedule/planner"
)

// tally counts how plans stand beside the best ones, solver by solver, and what the
// kitchens have in them.
type tally struct {
	unread, refused, quarrels int
	reasons                   map[string]int
	compared, short, fought   int
	has                       map[string]int
	by                        []*shares
}

// shares are the counts of one solver.
type shares struct {
	name               string
	open, failed       int
	equal, equalProved int
	wrong, worse       int // cannot both be right; honestly worse
	worseBy            [len(worth{})]int
	took               []float64
}

func newTally(solvers []string) *tally {
	t := &tally{has: map[string]int{}, reasons: map[string]int{}}
	for _, name := range solvers {
		t.by = append(t.by, &shares{name: name})
	}
	return t
}

// apart is how many answers and plans differ.
func (t *tally) apart() int {
	n := t.quarrels
	for _, s := range t.by {
		n += s.wrong + s.worse
	}
	return n
}

// err is errApart where something was wrong.
func (t *tally) err() error {
	wrong, failed := t.quarrels, 0
	for _, s := range t.by {
		wrong, failed = wrong+s.wrong, failed+s.failed
	}
	if wrong > 0 {
		return errApart
	}
	if failed > 0 {
		return fmt.Errorf("a solver failed on %d kitchens", failed)
	}
	return nil
}

// count adds a kitchen, and prints it where the answers differ.
func (t *tally) count(out io.Writer, m *meeting, loud bool) {
	if m.refused != "" {
		t.refused++
		t.reasons[m.refused]++
		if loud {
			fmt.Fprintf(out, "%s: not stated: %s\n", m.name, m.refused)
		}
		return
	}
	answered := false
	for i, a := range m.answers {
		answered = t.by[i].count(out, m, a, loud) || answered
	}
	if text := m.quarrel(); text != "" {
		t.quarrels++
		fmt.Fprintf(out, "%s: WRONG, %s\n", m.name, text)
	}
	if answered {
		t.compared++
		t.describe(m)
	}
}

// count adds one answer; false when it is none.
func (s *shares) count(out io.Writer, m *meeting, a *answer, loud bool) bool {
	if a.failed != "" {
		s.failed++
		fmt.Fprintf(out, "%s: %s failed: %s\n", m.name, a.by, a.failed)
		return false
	}
	s.took = append(s.took, median(a.spent))
	word, text := m.verdict(a)
	switch word {
	case "open":
		s.open++
	case "equal":
		s.equal++
		if m.plan.Proof.Best {
			s.equalProved++
		}
	case "worse":
		s.worse++
		s.worseBy[m.firstApart(a)]++
	default:
		s.wrong++
	}
	if a.says != "" {
		text += " (" + a.says + ")"
	}
	if word != "equal" || loud {
		fmt.Fprintf(out, "%s: %s%s; planner [%v] proved %q, %s [%v] proved %d of %d, %.2f s\n", m.name, word, text,
			m.worth, m.plan.Proof.Level, a.by, a.best, a.proved, len(a.best), median(a.spent))
	}
	return word != "open"
}

// plenty is how many times the kit a kitchen has in which nothing is fought over.
const plenty = 100

// describe counts what the kitchen has in it.
func (t *tally) describe(m *meeting) {
	if m.plan.Score.PromisedShort > 0 || m.plan.Score.Short > 0 {
		t.short++
	}
	if fought(m) {
		t.fought++
	}
	for name := range m.has {
		t.has[name]++
	}
	for name, has := range map[string]bool{"boxes on shelves": onShelves(m.plan), "a spot shared": sharesSpots(m.plan), "late": m.plan.Score.Late > 0, "stuck": m.worth[0] > 0, "moved": m.plan.Score.Moved > 0} {
		if has {
			t.has[name]++
		}
	}
}

// onShelves reports whether a box of a batch stands on a shelf.
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

// sharesSpots reports whether boxes of two batches stand on one another.
func sharesSpots(plan *schedule.Plan) bool {
	type stands struct {
		at    schedule.Standing
		span  resources.Span
		batch int
	}
	var all []stands
	for i, b := range plan.Batches {
		for _, task := range b.Stages {
			for _, at := range task.BoxesAt {
				at.Layer = 0
				all = append(all, stands{at, resources.Span{From: task.Start.Add(task.Work), Until: task.Ends}, i})
			}
		}
	}
	for i, x := range all {
		for _, y := range all[:i] {
			if x.at.Shelf != "" && x.at == y.at && x.batch != y.batch && x.span.Overlaps(y.span) {
				return true
			}
		}
	}
	return false
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

// print writes the counts.
func (t *tally) print(out io.Writer) {
	for _, s := range t.by {
		s.print(out)
	}
	if len(t.by) > 1 {
		fmt.Fprintf(out, "solvers against each other: %d apart\n", t.quarrels)
	}
	fmt.Fprintf(out, "%d not stated, %d not a folder\n", t.refused, t.unread)
	for _, text := range slices.Sorted(maps.Keys(t.reasons)) {
		fmt.Fprintf(out, "  not stated: %s: %d\n", text, t.reasons[text])
	}
	if t.compared > 0 {
		fmt.Fprintf(out, "of %d compared: short %d%%, kit, room or milk fought over %d%%\n", t.compared, 100*t.short/t.compared, 100*t.fought/t.compared)
	}
	for _, name := range slices.Sorted(maps.Keys(t.has)) {
		fmt.Fprintf(out, "  %s: %d\n", name, t.has[name])
	}
}

func (s *shares) print(out io.Writer) {
	total := 0.0
	for _, d := range s.took {
		total += d
	}
	fmt.Fprintf(out, "%s: %d equal (%d of them proved by the planner), %d worse but honest, %d wrong, %d not answered in time, %d failed\n",
		s.name, s.equal, s.equalProved, s.worse, s.wrong, s.open, s.failed)
	for i, n := range s.worseBy {
		if n > 0 {
			fmt.Fprintf(out, "  worse first in %s: %d\n", partNames[i], n)
		}
	}
	if len(s.took) > 0 {
		fmt.Fprintf(out, "  processor seconds: median %.2f, total %.0f\n", median(s.took), total)
	}
}
