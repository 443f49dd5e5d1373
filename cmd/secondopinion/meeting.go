package main

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"ripeby/cmd/internal/processor"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
)

// meeting is one kitchen, the planner's plan for it, and what solvers say.
type meeting struct {
	name string
	p    *schedule.Problem
	has  map[string]bool

	plan    *schedule.Plan
	worth   worth
	faults  []judge.Violation
	spent   []float64 // processor seconds of each run of the planner
	st      *statement
	refused string // why it is not stated, "" when it is
	answers []*answer
}

// answer is what one solver says of a kitchen.
type answer struct {
	by     string
	best   worth
	proved int               // parts of best that are proved
	none   bool              // it says that nothing at all is allowed
	says   string            // what else it says
	plan   *schedule.Plan    // its own, nil for none
	broken []judge.Violation // by that plan
	failed string            // what it failed with
	spent  []float64         // processor seconds of each run
}

// decide has the kitchen planned and judged, and counts the processor time.
func (m *meeting) decide(ctx context.Context) error {
	before := processor.Spent()
	plan, err := planner.Plan(ctx, m.p, planner.Options{})
	if err != nil {
		return fmt.Errorf("%s: %w", m.name, err)
	}
	m.spent = append(m.spent, (processor.Spent() - before).Seconds())
	if m.plan == nil {
		m.plan, m.worth, m.faults = plan, worthOf(plan.Score, overdueIn(m.p, plan)), judge.Check(m.p, plan)
	}
	return nil
}

// state puts the kitchen into whole numbers, or says why it is not.
//
// Where nothing is short in the plan, a better one has no more batches, so that as many
// slots of each cheese are enough. Elsewhere all that a best plan can need are stated.
func (m *meeting) state() error {
	slots := 0
	if m.plan.Score.PromisedShort == 0 && m.plan.Score.Short == 0 {
		slots = max(1, m.plan.Score.Batches)
	}
	st, err := newStatement(m.p, slots)
	var no *refusal
	if errors.As(err, &no) {
		m.refused = no.Error()
		return nil
	}
	m.st = st
	return err
}

// solve has the kitchen answered by a solver; beside has it know the plan. An answer of a
// further run adds its time alone.
func (m *meeting) solve(s solver, beside bool) error {
	var plan []int64
	if beside {
		plan = m.st.measured(m.plan.Score, overdueIn(m.p, m.plan))
	}
	r, err := s.ask(m.st, plan)
	if err != nil {
		return fmt.Errorf("%s: %s: %w", m.name, s.name(), err)
	}
	if i := slices.IndexFunc(m.answers, func(a *answer) bool { return a.by == s.name() }); i >= 0 {
		m.answers[i].spent = append(m.answers[i].spent, r.Spent)
		return nil
	}
	a := &answer{by: s.name(), spent: []float64{r.Spent}, says: r.Text}
	m.answers = append(m.answers, a)
	if r.Status == "fault" {
		a.failed = r.Text
		return nil
	}
	a.best, a.proved, a.none = m.st.worthOf(r.Parts), len(r.Parts), r.Status == "none"
	// What has begun is told by the planner only; the judge would miss it.
	if len(r.Last.Size) > 0 && len(m.p.Begun) == 0 {
		a.plan = m.st.plan(&r.Last)
		a.broken = breaches(m.p, a.plan)
		if a.proved < len(a.best) { // what is not proved yet may be counted too high
			a.broken = slices.DeleteFunc(a.broken, func(v judge.Violation) bool { return v.Rule == "score" })
		}
	}
	if a.none && slices.ContainsFunc(m.plan.Warnings, func(w schedule.Warning) bool { return w.Code == "boxes-do-not-fit" }) {
		m.refused = "boxes that stand where they do not fit"
	}
	return nil
}
