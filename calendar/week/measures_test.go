package week

import (
	"strings"
	"testing"

	"ripeby/calendar/sample"
	"ripeby/resources"
	"ripeby/schedule"
)

// What is to be written down stands with its task in every form, with the recipe's limits and its unit once.
func TestWhatIsToBeMeasuredIsShown(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	for i := range plan.Batches {
		if t := plan.Batches[i].Stage("make"); t != nil {
			t.Measures = []schedule.Measure{
				{What: "curd|temperature", Stage: "make", From: resources.Reading{Num: 25, Den: 1, Unit: "°C"}, To: resources.Reading{Num: 27, Den: 1, Unit: "°C"}, Else: "warm it"},
				{What: "smell", Stage: "make"}}
		}
	}
	of := resources.Date{Year: 2027, Month: 3, Day: 16}
	for _, c := range []struct {
		format Format
		want   string
	}{
		{Terminal, "measure: curd|temperature 25 to 27 °C, smell"},
		{Markdown, `measure: curd\|temperature 25 to 27 °C, smell`},
		{CSV, `"curd|temperature 25 to 27 °C, smell"`},
	} {
		text := strings.Join(strings.Fields(tableText(t, p, plan, Options{Of: of, Format: c.format, Width: 200})), " ")
		if !strings.Contains(text, c.want) {
			t.Errorf("%s: %q is not in it:\n%s", c.format, c.want, text)
		}
	}
	jobs, _, err := ShowJobs(p, plan)
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := ShowSheet(p, plan, &plan.Batches[0])
	if err != nil {
		t.Fatal(err)
	}
	told := 0
	count := func(facts []Fact) {
		for _, f := range facts {
			if f.Label == "Measure" && f.Text == "curd|temperature 25 to 27 °C, smell" {
				told++
			} else if strings.Contains(f.Text, "smell") {
				t.Errorf("%s: got %q, want what is measured in a line of its own", f.Label, f.Text)
			}
		}
	}
	for _, j := range jobs {
		count(j.Facts)
	}
	for _, s := range sheet.Stages {
		count(s.Facts)
	}
	if told != 3 {
		t.Errorf("told %d times, want of two jobs and in one sheet", told)
	}
}
