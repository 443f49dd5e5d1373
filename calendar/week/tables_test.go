package week

import (
	"bytes"
	"fmt"
	"io"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/resources"
	"ripeby/schedule"
)

// Many weeks of one plan are the tables of each, one under the other, and what is the whole plan's is
// gathered once: with thousands of targets that is nearly all of it.
func TestManyWeeksGatherThePlanOnce(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	for i := range 3000 {
		plan.Targets = append(plan.Targets, schedule.WantResult{Target: fmt.Sprintf("Stall %d", i), By: plan.From.Add(400 * resources.Day),
			Cheese: p.Recipes[0].Name, Price: 100, Wanted: 1, Met: 1})
	}
	var days []resources.Date
	var want bytes.Buffer
	for i := range 30 {
		days = append(days, resources.Date{Year: 2027, Month: 3, Day: 1}.AddDays(7*i))
		if i > 0 {
			want.WriteString("\n\n")
		}
		want.WriteString(tableText(t, p, plan, Options{Of: days[i]}))
	}
	var got bytes.Buffer
	if err := Tables(&got, p, plan, days, Options{}); err != nil || got.String() != want.String() {
		t.Fatalf("got %d bytes, %v; want the %d of the weeks one by one", got.Len(), err, want.Len())
	}
	many := testing.AllocsPerRun(1, func() { _ = Tables(io.Discard, p, plan, days, Options{}) })
	one := testing.AllocsPerRun(1, func() { _ = Table(io.Discard, p, plan, Options{Of: days[0]}) })
	if many > 10*one {
		t.Errorf("got %.0f allocations for 30 weeks, %.0f for one; want ten times as many at most", many, one)
	}
}
