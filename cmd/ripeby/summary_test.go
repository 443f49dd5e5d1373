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
		{"all", best, best, "Proved: no plan needs fewer batches; none with as few batches needs less milk; none with as little milk gives less bother; none with as little bother makes the cheese later and so fresher. There is no better plan."},
		{"bother", best, than(func(s *schedule.Score) { s.MakeStarts += 90 }),
			"Proved: no plan needs fewer batches; none with as few batches needs less milk; none with as little milk gives less bother. Not proved: the cheese might be made later, by at most 1 h 30 min over all batches. A longer search may tell: --work 70."},
		{"litres", best, than(func(s *schedule.Score) { s.Bother = 90 }),
			"Proved: no plan needs fewer batches; none with as few batches needs less milk. Not proved: less bother might be possible, 90 points at best. A longer search may tell: --work 70."},
		{"batches", best, than(func(s *schedule.Score) { s.Litres = 60_500 }),
			"Proved: no plan needs fewer batches. Not proved: less milk might do, 60.5 L at best. A longer search may tell: --work 70."},
		{"met, fewer batches open", best, than(func(s *schedule.Score) { s.Batches = 7 }),
			"Not proved: fewer batches might do, 7 at best. A longer search may tell: --work 70."},
		{"a bound that says nothing", best, schedule.Score{},
			"Not proved: fewer batches might do. A longer search may tell: --work 70."},
		{"promised short, proved", short, than(func(s *schedule.Score) { s.PromisedShort = 1800; s.Short = 400 }),
			"Proved: no plan meets more of what is promised. Not proved: more of what is wanted might be met, but 4.00 worth is short in any plan. A longer search may tell: --work 70."},
		{"both short, proved", short, than(func(s *schedule.Score) { s.PromisedShort = 1800; s.Short = 5800; s.Batches = 8 }),
			"Proved: no plan meets more of what is promised; none as good in that meets more of what else is wanted. Not proved: fewer batches might do, 8 at best. A longer search may tell: --work 70."},
		{"nothing proved", short, best,
			"Not proved: more of what is promised might be met. A longer search may tell: --work 70."},
	} {
		got := summary{plan: proved(schedule.Met, c.score, c.bound), work: 7}.proof()
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
		{"all that is short is promised", proved(schedule.Short, schedule.Score{PromisedShort: 1300, Batches: 2, Litres: 12_000}, some,
			schedule.WantResult{Wanted: 4, Met: 2, Short: 2, Promised: true}),
			"Short by 2 of the 4 pieces wanted, worth 13.00, all of them promised. What can be met takes 2 batches, 12 L of milk."},
		{"nothing met", proved(schedule.Short, schedule.Score{Short: 1300}, some, schedule.WantResult{Wanted: 2, Short: 2}),
			"Short by 2 of the 2 pieces wanted, worth 13.00. Nothing can be met."},
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
	for _, want := range []string{"\nShort:\n- Stall?[31m, Thu 1 Jan 1970 00:00: 1 of\n  3 pieces of Quick curd missing. No pot\n  is free on any morning of that week.\n",
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
		{"at first", planner.Progress{}, "Looking for a first plan; Ctrl-C stops"},
		{"proving batches", planner.Progress{Found: true, Score: schedule.Score{Batches: 9, Litres: 64_000, Bother: 118},
			Bound: schedule.Score{Batches: 8}, Proving: schedule.LevelBatches, Spent: 17, Budget: 50},
			"All met, 9 batches, 64 L; Ctrl-C keeps this plan; 34 % done; bother 118 points; working on batches (at least 8)"},
		{"proving lateness", planner.Progress{Found: true, Score: schedule.Score{Late: 14, Batches: 2, Litres: 9_000, Bother: 1},
			Bound: schedule.Score{Late: 12}, Proving: schedule.LevelLate},
			"All met, 2 batches, 9 L; Ctrl-C keeps this plan; bother 1 point; working on lateness (at least 12 points)"},
		{"proving bother", planner.Progress{Found: true, Score: schedule.Score{Batches: 2, Litres: 9_000, Bother: 3},
			Bound: schedule.Score{Bother: 1}, Proving: schedule.LevelBother},
			"All met, 2 batches, 9 L; Ctrl-C keeps this plan; bother 3 points; working on bother (at least 1 point)"},
		{"short", planner.Progress{Found: true, Score: schedule.Score{Short: 650, Batches: 1, Litres: 500}},
			"6.50 worth short, 1 batch, 0.5 L; Ctrl-C keeps this plan; bother 0 points"},
	} {
		if got := progressText(c.in); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

// Ctrl-C is answered at once, and nothing is drawn over the answer.
func TestProgressSaysThatItStops(t *testing.T) {
	var b bytes.Buffer
	g := &progress{w: &b, now: time.Now, width: 80}
	g.draw(planner.Progress{})
	g.stop()
	g.draw(planner.Progress{Found: true})
	g.clear()
	g.stop()
	want := "\r\x1b[KLooking for a first plan; Ctrl-C stops\r\x1b[KStopping with the best plan so far; Ctrl-C again quits\r\x1b[K"
	if b.String() != want {
		t.Errorf("got  %q\nwant %q", b.String(), want)
	}
	off := &progress{w: &b, now: time.Now}
	off.stop()
	if b.String() != want {
		t.Errorf("off a terminal: got %q more", b.String()[len(want):])
	}
}
