package heard

import (
	"testing"
	"time"

	"ripeby/calendar/said"
	"ripeby/calendar/week"
	"ripeby/resources"
	"ripeby/schedule"
)

// beside is a plan of one batch, whose drain was to be done at 8:00 and 8:30, an hour before now.
func beside(told ...said.Word) (*Beside, []week.Job) {
	at := func(h, m int) resources.Moment {
		return resources.MomentOf(time.Date(2027, 3, 4, h, m, 0, 0, time.UTC))
	}
	p := &schedule.Problem{}
	p.Kitchen.Zone = time.UTC
	plan := &schedule.Plan{Batches: []schedule.Batch{{ID: "QC-270303-1", Cheese: "Quick curd", Stages: []schedule.Task{
		{Stage: "make", Start: at(7, 0), Work: 30}, {Stage: "drain", Start: at(8, 0), Work: 30}}}}}
	jobs := []week.Job{{Batch: "QC-270303-1", Stage: "drain", Start: at(8, 0), Until: at(8, 30), Who: "Nell"}}
	return &Beside{Problem: p, Plan: plan, Told: &said.Told{Lately: told}, Now: at(9, 30)}, jobs
}

func TestWhatIsToBeAnswered(t *testing.T) {
	for _, c := range []struct {
		name string
		told []said.Word
		want int
	}{
		{"nobody spoke", nil, 1},
		{"it was done", []said.Word{{Batch: "QC-270303-1", Did: "drain"}}, 0},
		{"an earlier stage was done", []said.Word{{Batch: "QC-270303-1", Did: "make"}}, 1},
		{"it was not yet, before its time", []said.Word{{Batch: "QC-270303-1", NotYet: "drain", At: 1}}, 1},
		{"the batch is lost", []said.Word{{Batch: "QC-270303-1", Lost: true}}, 0},
		{"another batch is lost", []said.Word{{Batch: "QC-270303-2", Lost: true}}, 1},
	} {
		b, jobs := beside(c.told...)
		got := b.Questions(jobs, true)
		if len(got) != c.want {
			t.Errorf("%s: got %d to be answered, want %d", c.name, len(got), c.want)
		}
		if asked := IsAsked(jobs[0], got); asked != (c.want > 0) {
			t.Errorf("%s: got asked %v, want %v", c.name, asked, c.want > 0)
		}
	}
	b, jobs := beside()
	if got := b.Questions(jobs, false); len(got) != 0 {
		t.Errorf("who only reads: got %d to be answered, want none", len(got))
	}
	b.Now = b.Now.Add(8 * resources.Day)
	if got := b.Questions(jobs, true); len(got) != 0 {
		t.Errorf("more than a week later: got %d to be answered, want none", len(got))
	}
}
