package note

import (
	"slices"
	"testing"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Two cheeses and two people over two days: what is to be minded on a day stands with its first work,
// and in the calendar of each with the first work of theirs.
func TestCautionsStandOnceADay(t *testing.T) {
	const day, hour = 1440, 60
	stage := func(name, who string, start int) schedule.Task {
		return schedule.Task{Stage: name, Who: who, Start: resources.Moment(20_000*day + start), Work: 30}
	}
	plan := &schedule.Plan{
		Batches: []schedule.Batch{
			{ID: "A1", Cheese: "Ash", Stages: []schedule.Task{stage("make", "Nell", 9*hour), stage("drain", "Ivo", 18*hour), stage("pack", "Nell", day+8*hour)}},
			{ID: "B1", Cheese: "Brook", Stages: []schedule.Task{stage("make", "Ivo", 8*hour), stage("pack", "Nell", day+7*hour)}},
		},
		Cautions: []schedule.Caution{
			{Cheese: "Ash", Text: "If the milk is raw."}, {Cheese: "Ash", Stage: "drain", Text: "Look often."},
			{Cheese: "Brook", Text: "If the milk is raw."}, {Cheese: "Other", Text: "Not here."},
		},
	}
	c := CautionsOf(plan, time.UTC)
	raw := func(cheeses ...string) Caution { return Caution{"If the milk is raw.", cheeses} }
	look := Caution{"Look often.", []string{"Ash"}}
	for _, want := range []struct {
		batch, stage string
		all, own     []Caution
	}{
		{"B1", "make", []Caution{raw("Brook", "Ash"), look}, []Caution{raw("Brook"), look}}, // the day's first, and Ivo's
		{"A1", "make", nil, []Caution{raw("Ash")}},                                          // Nell's first
		{"A1", "drain", nil, nil},
		{"B1", "pack", []Caution{raw("Brook", "Ash")}, []Caution{raw("Brook", "Ash")}}, // the next day's
		{"A1", "pack", nil, nil},
	} {
		same := func(a, b []Caution) bool {
			return slices.EqualFunc(a, b, func(x, y Caution) bool { return x.Text == y.Text && slices.Equal(x.Cheeses, y.Cheeses) })
		}
		if all, own := c.Of(want.batch, want.stage, false), c.Of(want.batch, want.stage, true); !same(all, want.all) || !same(own, want.own) {
			t.Errorf("%s %s: got %v and of one's own %v, want %v and %v", want.batch, want.stage, all, own, want.all, want.own)
		}
	}
}
