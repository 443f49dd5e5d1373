package week

import (
	"strings"
	"testing"
	"time"

	"ripeby/calendar/sample"
	"ripeby/calendar/words"
	"ripeby/resources"
	"ripeby/schedule"
)

// needing is the sample with rennet in each make, and salt of curd that is not weighed in one mould.
func needing() (*schedule.Problem, *schedule.Plan) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	for i := range plan.Batches {
		for k := range plan.Batches[i].Stages {
			switch t := &plan.Batches[i].Stages[k]; {
			case t.Stage == "make":
				t.Needs = []schedule.Dose{{What: "rennet|x", Amount: 2_857_143, Rounded: 2_900_000, Unit: "mL", Strength: "280 IMCU/mL", Lot: "R-55"}}
			case t.Stage == "mould" && i == 0:
				t.Needs = []schedule.Dose{{What: "salt", Amount: 1_500_000, Rounded: 1_500_000, Unit: "%"}}
			}
		}
	}
	return p, plan
}

// What goes in stands with its task in every form, and is added up under the table.
func TestWhatGoesInIsShown(t *testing.T) {
	p, plan := needing()
	of := resources.Date{Year: 2027, Month: 3, Day: 16}
	next := resources.MomentOf(time.Date(2027, 3, 24, 9, 0, 0, 0, time.UTC))
	plan.Warnings = append(plan.Warnings, schedule.Warning{Code: "packet-empty", At: next, Text: "The rennet R-55 will not last."},
		schedule.Warning{Code: "packet-empty", At: next.Add(7 * resources.Day), Text: "Later on."})
	for _, c := range []struct {
		format Format
		want   []string
	}{
		{Terminal, []string{"rennet|x 2.9 mL", "packet R-55", "Have in the house", "- rennet|x: 5.8 mL, for 2 batches, by Tue 16 Mar 07:30; packet R-55.", "- salt: by the weight of the curd, for 1 batch", "- The rennet R-55 will not last.", words.DosesAreYours}},
		{Markdown, []string{`rennet\|x 2.9 mL (exactly 2.857), of 280 IMCU/mL, packet R-55`, `salt \_\_\_\_ g (1.5 % of the curd)`, "### Have in the house"}},
		{CSV, []string{"rennet|x 2.9 mL (exactly 2.857), of 280 IMCU/mL, packet R-55", "critical,needs,measures\r\n"}},
	} {
		text := tableText(t, p, plan, Options{Of: of, Format: c.format, Width: 130})
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in it:\n%s", c.format, want, text)
			}
		}
		if strings.Contains(text, "Later on") {
			t.Errorf("%s: what runs out in a fortnight is told", c.format)
		}
	}
	jobs, _, err := ShowJobs(p, plan)
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	for _, j := range jobs {
		for _, f := range j.Facts {
			if f.Label == "Goes in" {
				told++
			} else if strings.Contains(f.Text, "rennet") {
				t.Errorf("%s, %s: got %q, want what goes in in a line of its own", j.What, f.Label, f.Text)
			}
		}
	}
	if told != 3 {
		t.Errorf("got what goes in with %d jobs, want 3", told)
	}
	sheet, err := ShowSheet(p, plan, &plan.Batches[0])
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"rennet|x 2.9 mL (exactly 2.857), of 280 IMCU/mL, packet R-55", "salt ____ g (1.5 % of the curd)"} {
		stage := sheet.Stages[[]int{0, stageNamed(sheet, "mould")}[i]]
		found := false
		for _, f := range stage.Facts {
			found = found || f.Label == "Goes in" && words.Unglue(f.Text) == want
		}
		if !found {
			t.Errorf("%s of the sheet: %q is not among %v", stage.Name, want, stage.Facts)
		}
	}
}

func stageNamed(s *SheetShown, name string) int {
	for i := range s.Stages {
		if s.Stages[i].Name == name {
			return i
		}
	}
	return 0
}
