package week

import (
	"slices"
	"strings"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// A carry is a row of the week and a job of the page, with from where to where; until then cheese is
// shown where it still stands.
func TestCarriesInTheWeek(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	b := &plan.Batches[0]
	ripen := b.Stage("ripen")
	since := ripen.Start.Add(600)
	plan.Carries = []schedule.Carry{
		{Batch: b.ID, Stage: "ripen", Stock: -1, Start: since + 30, Minutes: 5, Who: "Nell", From: "kitchen fridge", To: "cheese cave", Since: since,
			Stood: []schedule.Standing{{Place: "kitchen fridge", Shelf: "middle", Layer: 1}}},
		{Stock: 0, Start: since + 35, Minutes: 5, Who: "Nell", From: "cheese cave", To: "kitchen fridge", Since: since},
	}
	jobs, _, err := ShowJobs(p, plan)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, j := range jobs {
		if strings.HasPrefix(j.What, "carry") {
			line := []string{j.Who, j.What, j.Batch}
			for _, f := range j.Facts {
				line = append(line, f.Label+" "+f.Text)
			}
			got = append(got, words.Unglue(strings.Join(line, "|")))
		}
	}
	want := []string{
		"Nell|carry Bramble hoop to the cheese cave|BH-270316-1|Batch BH-270316-1|How much 16 pieces|Takes 5 min|Where, with kitchen fridge, then cheese cave",
		"Nell|carry Bramble hoop to the kitchen fridge||Batch stock|How much 4 pieces|Takes 5 min|Where, with cheese cave, then kitchen fridge: middle",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	k := slices.IndexFunc(b.Stages, func(t schedule.Task) bool { return t.Stage == "ripen" })
	if r := workRow(plan, b, k); r.place != "kitchen fridge" || !slices.Equal(r.shelves, []string{"middle"}) {
		t.Errorf("when its work was done: got it in the %s on %q, want the kitchen fridge", r.place, r.shelves)
	}
	for at, place := range map[resources.Moment]string{since - 1: "kitchen fridge", since: "cheese cave"} {
		r := row{}
		if whereIsIt(&r, plan, b, at); r.place != place {
			t.Errorf("%d min from then: got it in the %s, want the %s", at-since, r.place, place)
		}
	}
}
