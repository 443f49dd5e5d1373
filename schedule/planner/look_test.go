package planner_test

import (
	"context"
	"strings"
	"testing"

	"ripeby/config"
	"ripeby/schedule/cp/explain"
	"ripeby/schedule/cp/problem"
	"ripeby/schedule/cp/search"
	"ripeby/schedule/planner"
)

// The reasons of a kitchen that is tight take no more of a plan's work than they are given, which
// is a small part of what the plan took, and are not open where the plan is proved.
func TestReasonsTakeASmallPartOfTheWork(t *testing.T) {
	proved := 0
	for name, from := range map[string]string{"tight-moulds": "2027-06-07 06:00", "tight-shelves": "2027-09-06 06:00", "promises": "2027-09-13 06:00", "few-boxes": "2027-08-02 06:00", "no-way": "2027-06-14 06:00"} {
		p, err := config.Load("../../testdata/kitchens/"+name, config.Options{From: from})
		if err != nil {
			t.Fatal(err)
		}
		r, s, given := search.Find(context.Background(), planner.State(p, p.From).Model(), search.Options{Budget: 4_000_000})
		if most := max(s.Spent/32, 250_000); given > most {
			t.Errorf("%s: %d given for reasons after %d, want at most %d", name, given, s.Spent, most)
		}
		before := s.Spent
		list, better := explain.Reasons(context.Background(), s, r.Bound, given)
		took := s.Spent - before
		t.Logf("%s: %d taken of the %d given, after %d", name, took, given, before)
		if took > given+given/5 || took == 0 {
			t.Errorf("%s: that is not what they are given", name)
		}
		if r.Cost.Short > r.Bound.Short || r.Cost.PromisedShort > r.Bound.PromisedShort {
			continue
		}
		if better != nil || len(list) == 0 {
			t.Errorf("%s: got %d reasons, better plan %v", name, len(list), better != nil)
		}
		for _, why := range list {
			if proved++; why.Kind == problem.ReasonOpen {
				t.Errorf("%s: open, of a plan that is proved", name)
			}
		}
	}
	if proved < 6 {
		t.Errorf("got %d reasons of plans that are proved: too few to mean much", proved)
	}
}

// A plan that is proved says nothing of more work for what is short, and one that ran out of
// work does.
func TestTheProofOfATightKitchenIsSaid(t *testing.T) {
	p, err := config.Load("../../testdata/kitchens/promises", config.Options{From: "2027-09-13 06:00"})
	if err != nil {
		t.Fatal(err)
	}
	for work, open := range map[int64]bool{4_000_000: false, 2_000: true} {
		plan, short := planFor(t, p, work), 0
		for i := range plan.Targets {
			w := &plan.Targets[i]
			if w.Short == 0 {
				continue
			}
			if short++; strings.Contains(w.Because, "none is proved impossible") != open {
				t.Errorf("with %d: %s", work, w.Because)
			}
		}
		if short == 0 {
			t.Errorf("with %d: nothing is short, so nothing is said", work)
		}
	}
}
