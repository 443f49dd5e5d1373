package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"ripeby/schedule"
	"ripeby/schedule/planner"
)

// plan with a score and the bound up to which it is proved.
func proved(outcome schedule.Outcome, score, bound schedule.Score, wants ...schedule.WantResult) *schedule.Plan {
	level := schedule.LevelOf(score, bound)
	return &schedule.Plan{Kitchen: "Small Kitchen", Outcome: outcome, Score: score, Targets: wants,
		Proof: schedule.Proof{Best: level == schedule.LevelAll, Level: level, Bound: bound}}
}

func TestSummaryProof(t *testing.T) {
	best := schedule.Score{Batches: 9, Litres: 64_000, Bother: 118, MakeStarts: 61_230}
	than := func(change func(*schedule.Score)) schedule.Score { s := best; change(&s); return s }
	short := than(func(s *schedule.Score) { s.Short = 5800; s.PromisedShort = 1800 })
	for _, c := range []struct {
		name         string
		score, bound schedule.Score
		want         string
	}{
		{"all", best, best, "Proved: no plan needs fewer batches, needs less milk, gives less bother or makes the cheese later, the first of these counting most."},
		{"bother", best, than(func(s *schedule.Score) { s.MakeStarts += 90 }),
			"Proved: no plan needs fewer batches, needs less milk or gives less bother, the first of these counting most. Not proved: whether the cheese could be made later (by at most 1 h 30 min over all batches). More work (--work) may tell."},
		{"litres", best, than(func(s *schedule.Score) { s.Bother = 90 }),
			"Proved: no plan needs fewer batches or needs less milk, the first of these counting most. Not proved: whether it can be done with less bother (at least 90). More work (--work) may tell."},
		{"batches", best, than(func(s *schedule.Score) { s.Litres = 60_500 }),
			"Proved: no plan needs fewer batches. Not proved: whether less milk would do (at least 60.5 L). More work (--work) may tell."},
		{"met, fewer batches open", best, than(func(s *schedule.Score) { s.Batches = 7 }),
			"Not proved: whether fewer batches would do (at least 7). More work (--work) may tell."},
		{"promised short, proved", short, than(func(s *schedule.Score) { s.PromisedShort = 1800; s.Short = 400 }),
			"Proved: no plan has more of what is promised. Not proved: whether more can be met (at least 4.00 worth will be short). More work (--work) may tell."},
		{"nothing proved", short, best,
			"Not proved: whether more of what is promised can be met. More work (--work) may tell."},
	} {
		got := summary{plan: proved(schedule.Met, c.score, c.bound)}.proof()
		if got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestSummaryOutcome(t *testing.T) {
	some := schedule.Score{Batches: 1, Litres: 8500}
	for _, c := range []struct {
		name string
		plan *schedule.Plan
		want string
	}{
		{"met", proved(schedule.Met, some, some, schedule.WantResult{Wanted: 3, Met: 3}),
			"Everything wanted is met: 1 batch, 8.5 L of milk."},
		{"met from stock", proved(schedule.Met, schedule.Score{}, schedule.Score{}, schedule.WantResult{Wanted: 3, Met: 3}),
			"Everything wanted is met: no new batch."},
		{"nothing wanted", proved(schedule.Met, schedule.Score{}, schedule.Score{}),
			"Nothing is wanted from the planning start on: no new batch."},
		{"short", proved(schedule.Short, schedule.Score{Short: 650, PromisedShort: 1300, Batches: 2, Litres: 12_000}, some,
			schedule.WantResult{Wanted: 3, Met: 2, Short: 1}, schedule.WantResult{Wanted: 4, Met: 2, Short: 2, Promised: true}),
			"Short by 3 of the 7 pieces wanted, worth 19.50; 2 of them promised, worth 13.00. What can be met takes 2 batches, 12 L of milk."},
	} {
		if got := (summary{plan: c.plan}).outcome(); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

// What is short, what is warned of and what to be careful with is all there, in
// lines that fit, and a name cannot steer the terminal.
func TestSummaryLists(t *testing.T) {
	plan := proved(schedule.Short, schedule.Score{Short: 650}, schedule.Score{Short: 650},
		schedule.WantResult{Target: "Stall\x1b[31m", Cheese: "Quick curd", Wanted: 3, Met: 2, Short: 1, Because: "No pot is free on any morning of that week."})
	plan.Warnings = []schedule.Warning{{Code: "w", Text: "The round is too short."}}
	plan.Cautions = []schedule.Caution{{Cheese: "Quick curd", Stage: "drain", Text: "Keep it cool."}}
	var b bytes.Buffer
	summary{plan: plan, zone: time.UTC, width: 40, stopped: true}.write(&b)
	for _, want := range []string{"\nShort:\n- Stall?[31m, Thu 1 Jan 1970 00:00: 2 of\n  3 Quick curd. No pot is free on any\n  morning of that week.\n",
		"\nWarnings:\n- The round is too short.\n", "\n1 food-safety caution for Quick curd:", "Planning was stopped early"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is not in\n%s", want, b.String())
		}
	}
	for _, l := range strings.Split(b.String(), "\n") {
		if len(l) > 40 {
			t.Errorf("a line of %d columns: %q", len(l), l)
		}
	}
}

func TestProgressText(t *testing.T) {
	for _, c := range []struct {
		name string
		in   planner.Progress
		want string
	}{
		{"at first", planner.Progress{}, "Looking for a first plan; Ctrl-C ends it"},
		{"proving batches", planner.Progress{Found: true, Score: schedule.Score{Batches: 9, Litres: 64_000, Bother: 118},
			Bound: schedule.Score{Batches: 8}, Proving: schedule.LevelBatches, Spent: 17, Budget: 50},
			"Best: all met, 9 batches, 64 L, bother 118; proving batches (at least 8); 34 %; Ctrl-C takes it"},
		{"short", planner.Progress{Found: true, Score: schedule.Score{Short: 650, Batches: 1, Litres: 500}},
			"Best: short 6.50, 1 batch, 0.5 L, bother 0; Ctrl-C takes it"},
	} {
		if got := progressText(c.in); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}
