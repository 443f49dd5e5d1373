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

// A page shows the week that the other forms show: the cells of the Markdown table,
// row by row, but for its marks.
func TestShownWeekIsTheWeek(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	of := resources.Date{Year: 2027, Month: 3, Day: 16}
	w, err := Show(p, plan, of)
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	markdown := strings.ReplaceAll(tableText(t, p, plan, Options{Of: of, Format: Markdown}), `\`, "")
	plainRow := strings.NewReplacer("- ", "", " ", "")
	table := strings.ReplaceAll(plainRow.Replace(markdown), "|today|", "|anytime|") // the table is read under its day
	for _, d := range w.Days {
		for _, r := range d.Rows {
			rows++
			if line := plainRow.Replace(words.Unglue("| " + strings.Join(r.Cells, "|"))); !strings.Contains(table, line) {
				t.Errorf("%s: %q is not in the week table", d.Name, line)
			}
			if r.Batch != "" && plan.Batch(r.Batch) == nil {
				t.Errorf("%s: leads to the batch %q, which is none", d.Name, r.Batch)
			}
		}
	}
	if rows == 0 {
		t.Error("no rows")
	}
	// A day's lines are its rows: what is a part of the row above goes with that one's line.
	for _, d := range w.Days {
		heads, parts := 0, 0
		for _, r := range d.Rows {
			if r.Detail {
				parts++
			} else {
				heads++
			}
		}
		with := 0
		for _, l := range d.Lines {
			with += len(l.Care) + len(l.Goes) + len(l.Missing)
			if l.At == "" || l.What == "" || l.Leaves != (l.Who == "" && l.Milk == nil && !l.Anytime) || words.Wide(l.Name) > nameMost {
				t.Errorf("%s: got the line %+v", d.Name, l)
			}
		}
		if len(d.Lines) != heads || with != parts {
			t.Errorf("%s: got %d lines with %d parts, want %d with %d", d.Name, len(d.Lines), with, heads, parts)
		}
	}
	for _, l := range w.Lists {
		for _, line := range l.Lines {
			if !strings.Contains(markdown, words.Unglue(line)) {
				t.Errorf("%s: %q is not under the week table", l.Title, line)
			}
		}
	}
}

// Every piece of work and every round is one job, at its own time, and every target
// leaves once.
func TestShownJobsAreThePlan(t *testing.T) {
	p := sample.Kitchen()
	plan := sample.Plan(p)
	jobs, leaving, err := ShowJobs(p, plan)
	if err != nil {
		t.Fatal(err)
	}
	want := len(plan.Rounds)
	for _, b := range plan.Batches {
		for _, s := range b.Stages {
			if s.Work > 0 {
				want++
			}
		}
	}
	got, milk := 0, 0
	for i, j := range jobs {
		if i > 0 && j.Start < jobs[i-1].Start {
			t.Errorf("%s stands after what is later", j.What)
		}
		switch {
		case j.Anytime:
			continue
		case j.Milk != nil:
			if milk++; j.Until != j.Start || j.Who != "" {
				t.Errorf("%s: got %v to %v by %q, want a moment and nobody", j.What, j.Start, j.Until, j.Who)
			}
			continue
		}
		got++
		if j.Until <= j.Start || j.Who == "" {
			t.Errorf("%s: got %v to %v by %q", j.What, j.Start, j.Until, j.Who)
		}
	}
	if got != want {
		t.Errorf("got %d jobs, want %d", got, want)
	}
	if milk != 2 { // both batches draw on one collection, which is ordered
		t.Errorf("got %d jobs with milk, want 2", milk)
	}
	seen := map[string]bool{}
	for _, l := range leaving {
		if seen[l.Name] || len(l.Goes)+len(l.Missing) == 0 {
			t.Errorf("%s leaves twice, or with nothing", l.Name)
		}
		seen[l.Name] = true
	}
	if len(seen) == 0 {
		t.Error("nothing leaves")
	}
}

// How far a stage may slip, in words.
func TestSlipInWords(t *testing.T) {
	n := &cellPen{words.Pen{Zone: time.UTC}}
	for _, c := range []struct {
		name string
		in   schedule.Task
		want string
	}{
		{"begun", schedule.Task{Start: 60, SlipFrom: 60, SlipUntil: 60, Begun: true}, "it has begun"},
		{"not known", schedule.Task{Start: 60}, "not known"},
		{"both ways", schedule.Task{Start: 60, SlipFrom: 0, SlipUntil: 120}, "from Thu 1 Jan 00:00 to Thu 1 Jan 02:00"},
		{"no way", schedule.Task{Start: 60, SlipFrom: 60, SlipUntil: 60}, "at this moment only"},
		{"critical", schedule.Task{Start: 60, SlipFrom: 60, SlipUntil: 60, Critical: true}, "no later than planned, or a target breaks: sharp"},
		{"critical, but earlier", schedule.Task{Start: 60, SlipFrom: 30, SlipUntil: 60, Critical: true}, "from Thu 1 Jan 00:30, and no later than planned, or a target breaks: sharp"},
	} {
		if got := words.Unglue(n.slip(&c.in)); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
