package demo_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
)

// A kitchen in which something goes wrong is proved in all parts like any other, in at most three
// times the counted work of the one in which all is in time.
func TestLateKitchensAreProvedLikeAnyOther(t *testing.T) {
	// set has a further batch in the kettle, whose set may take 20 h.
	set := func(make, began string) func(string) string {
		return func(text string) string {
			entry := fmt.Sprintf("  - {id: AD-1, cheese: Alder drum, litres: 12, stages: {make: %s, set: %s}, has: {pot: kettle}}\n\nstock:", make, began)
			return strings.Replace(text, "\nstock:", entry, 1)
		}
	}
	inTime, overdue := set("2027-02-28 10:00", "2027-02-28 11:00"), set("2027-02-27 22:00", "2027-02-28 00:00")
	ill := func(text string) string {
		return strings.Replace(text, "    away:\n", "    away:\n      - {from: 2027-03-01, until: 2027-03-02}\n", 1)
	}
	closed := func(text string) string {
		return strings.Replace(text, "temperature: 5 °C\n", "temperature: 5 °C\n    taken: [{from: 2027-03-03 00:00, until: 2027-03-05 00:00}]\n", 1)
	}
	same := func(text string) string { return text }
	for _, c := range []struct {
		name           string
		begun, kitchen func(string) string
		beside         func(string) string // begun.yaml of the kitchen in time
		late           bool
	}{
		{"a set twelve hours past its most", overdue, same, inTime, true},
		{"ill for two days", inTime, ill, inTime, true},
		{"a fridge closed for two days", same, closed, same, false},
	} {
		plain, _ := proved(t, edited(t, 0, map[string]func(string) string{"begun.yaml": c.beside}))
		work, plan := proved(t, edited(t, 0, map[string]func(string) string{"begun.yaml": c.begun, "kitchen.yaml": c.kitchen}))
		t.Logf("%s: %d of %d in time, %+v", c.name, work, plain, plan.Score)
		if late := plan.Score.Late > 0; late != c.late {
			t.Errorf("%s: got %d late, want some: %v", c.name, plan.Score.Late, c.late)
		}
		if work > 3*plain {
			t.Errorf("%s: got %d of counted work, want at most three times the %d of the same in time", c.name, work, plain)
		}
	}
}

// proved plans a kitchen by default and gives the counted work that it took to be proved.
func proved(t *testing.T, p *schedule.Problem) (work int64, plan *schedule.Plan) {
	t.Helper()
	plan, err := planner.Plan(context.Background(), p, planner.Options{Progress: func(at planner.Progress) { work = max(work, at.Spent) }})
	if err != nil {
		t.Fatal(err)
	}
	if !plan.Proof.Best {
		t.Errorf("got %+v with %+v, want all proved", plan.Score, plan.Proof)
	}
	for _, v := range judge.Check(p, plan) {
		t.Errorf("judge: %v", v)
	}
	return work, plan
}
