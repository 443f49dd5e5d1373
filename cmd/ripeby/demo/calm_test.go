package demo_test

import (
	"context"
	"io/fs"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"ripeby/cmd/ripeby/demo"
	"ripeby/resources"
	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planfile"
	"ripeby/schedule/planner"
	"ripeby/schedule/record"
	"ripeby/schedule/record/follows"
	"ripeby/schedule/testrun"
)

// files are the demo's, to be changed.
func files(t *testing.T) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	err := fs.WalkDir(demo.Files(), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(demo.Files(), name)
		out[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// carriedOn plans a folder after an earlier plan, nil for none, by what was said since, has the judge
// look, and gives the plan as its file keeps it.
func carriedOn(t *testing.T, folder fs.FS, from string, earlier *schedule.Plan, said ...record.Entry) (*schedule.Problem, *schedule.Plan) {
	t.Helper()
	p := loadFrom(t, folder, from)
	p.Earlier = earlier
	p = follows.Of(p, record.NewBook(said)).Problem
	plan, err := planner.Plan(context.Background(), p, planner.Options{Budget: planner.WorkFor(p)})
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range judge.Check(p, plan) {
		t.Errorf("from %s: judge: %v", from, v)
	}
	text, err := planfile.Encode(plan, p.Kitchen.Zone)
	if err != nil {
		t.Fatal(err)
	}
	kept, err := planfile.Decode(text)
	if err != nil {
		t.Fatal(err)
	}
	return p, kept
}

// Half of a batch is spoilt in the middle of the plan, and nothing else was said: of no batch does that
// move what was told for the next days, and what changes later is told with its gain.
func TestHalfABatchSpoiltMovesNothingSettled(t *testing.T) {
	_, first := carriedOn(t, demo.Files(), demo.From, nil)
	const from = "2027-03-10 07:00"
	before := loadFrom(t, demo.Files(), from)
	spoilt, later := 0, 0
	for _, b := range first.Batches {
		if b.Stages[0].Start >= before.From || b.Stages[len(b.Stages)-1].Start < before.From {
			continue
		}
		if spoilt++; spoilt > testrun.Rounds(2, 20) {
			break
		}
		p, plan := carriedOn(t, demo.Files(), from, first, record.Entry{At: before.From.Add(-10), Who: "Maud",
			Subject: record.Subject{Kind: record.OfBatch, Name: b.ID}, Batch: record.BatchFacts{Pieces: record.Say(b.Pieces / 2), Why: "spoilt"}})
		if plan.Score.Moved != 0 {
			t.Errorf("half of %s spoilt: got %d moved, want none", b.ID, plan.Score.Moved)
		}
		for _, c := range plan.Changes {
			later++
			if at := c.Was; at != 0 && at < p.Settled().Until || c.Because == "" {
				t.Errorf("half of %s spoilt: %+v changes within the settled days, or for nothing", b.ID, c)
			}
		}
		t.Logf("half of %s spoilt: short %d, %d changes later", b.ID, plan.Score.Short, len(plan.Changes))
	}
	if spoilt < testrun.Rounds(2, 4) || later == 0 {
		t.Errorf("got %d batches spoilt and %d changes: nothing is tested", spoilt, later)
	}
}

// A week is worked exactly to plan with nothing put down, then one order is dropped and another comes:
// what the stall was to have it has.
func TestAnOrderSwappedAfterASilentWeek(t *testing.T) {
	folder := files(t)
	_, first := carriedOn(t, folder, demo.From, nil)
	targets := string(folder["targets.yaml"].Data)
	order := regexp.MustCompile(`(?s)  - name: Lambing supper.*?\n\n`)
	if !order.MatchString(targets) {
		t.Fatal("the demo has no Lambing supper")
	}
	folder["targets.yaml"] = &fstest.MapFile{Data: []byte(order.ReplaceAllString(targets, `  - name: Quarry supper
    by: 2027-03-20 18:00
    want:
      - {cheese: Alder drum, pieces: 5, price: 5.80, promised: true}
      - {cheese: Spoon curd, pieces: 4, price: 3.90, promised: true}

`))}
	p, plan := carriedOn(t, folder, "2027-03-08 05:00", first)
	if plan.Score.Moved != 0 {
		t.Errorf("got %d moved in the settled days, want none", plan.Score.Moved)
	}
	stalls := 0
	for _, w := range plan.Targets {
		if !strings.HasPrefix(w.Target, "Thursday stall") {
			continue
		}
		stalls++
		was := slices.IndexFunc(first.Targets, func(o schedule.WantResult) bool { return o.Target == w.Target && o.Want == w.Want })
		if was < 0 || w.Met < first.Targets[was].Met {
			t.Errorf("%s, %s: got %d of %d, want as many as before", w.Target, w.Cheese, w.Met, w.Wanted)
		}
	}
	if stalls == 0 {
		t.Error("no stall is left: nothing is tested")
	}
	if made := len(p.Earlier.Batches); made == 0 {
		t.Error("the plan before has no batches")
	}
}

// begun.yaml left as it was from one plan to the next is the same as one whose batches were taken out
// once a plan had read them.
func TestBegunLeftUntouchedIsAsTakenOut(t *testing.T) {
	folder, cleared := files(t), files(t)
	begun := regexp.MustCompile(`(?s)begun:.*?\nstock:`)
	text := string(folder["begun.yaml"].Data)
	if !begun.MatchString(text) {
		t.Fatal("the demo's begun.yaml has no batches before its stock")
	}
	cleared["begun.yaml"] = &fstest.MapFile{Data: []byte(begun.ReplaceAllString(text, "stock:"))}
	_, first := carriedOn(t, folder, demo.From, nil)
	for _, from := range []string{"2027-03-04 07:00", "2027-03-15 07:00", "2027-03-24 12:00"} {
		_, left := carriedOn(t, folder, from, first)
		_, out := carriedOn(t, cleared, from, first)
		if left.Score != out.Score || !reflect.DeepEqual(left.Batches, out.Batches) {
			t.Errorf("from %s: left untouched %+v, taken out %+v", from, left.Score, out.Score)
		}
		if left.Score.Moved > 0 || len(left.Changes) > 0 {
			t.Errorf("from %s: all went as planned, and yet %+v", from, left.Changes)
		}
	}
}

// Eight weeks go as planned with nothing put down. Each morning the plan is made again: where it is
// proved in all parts nothing is ever told to move, elsewhere only with its gain.
func TestSilentWeeksMoveNothing(t *testing.T) {
	_, plan := carriedOn(t, demo.Files(), demo.From, nil)
	start := loadFrom(t, demo.Files(), demo.From).From
	proved, gone := 0, map[string]bool{}
	for day := range testrun.Rounds(3, 56) {
		from := start.Add(resources.Day * resources.Minutes(day+1)).In(time.UTC).Format(time.RFC3339)
		_, next := carriedOn(t, demo.Files(), from, plan)
		if next.Score.Moved > 0 {
			t.Errorf("from %s: %d moved of what is settled: %+v", from, next.Score.Moved, next.Changes)
		}
		if plan.Proof.Best && next.Proof.Best {
			proved++
			if len(next.Changes) > 0 {
				t.Errorf("from %s: proved in all parts, and yet %+v", from, next.Changes)
			}
		}
		for _, c := range next.Changes {
			if c.Because == "" {
				t.Errorf("from %s: %+v changes for nothing that is told", from, c)
			}
		}
		for _, b := range next.Batches {
			if gone[b.ID] {
				t.Errorf("from %s: %s is there again, and was over", from, b.ID)
			}
		}
		for _, b := range plan.Batches {
			gone[b.ID] = next.Batch(b.ID) == nil
		}
		plan = next
	}
	if proved == 0 {
		t.Error("no plan was proved in all parts: nothing is tested")
	}
}
