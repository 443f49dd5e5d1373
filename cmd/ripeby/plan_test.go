package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ripeby/schedule"
	"ripeby/schedule/judge"
	"ripeby/schedule/planner"
)

// demoPlan plans the demo kitchen.
func demoPlan(t *testing.T) (*schedule.Problem, *schedule.Plan) {
	t.Helper()
	problem, err := kitchen{demo: true}.load("", time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	plan, err := newPlan(context.Background(), standsAlone(problem), planner.Options{Budget: 1})
	if err != nil {
		t.Fatal(err)
	}
	return problem, plan
}

// ran is what one run of ripeby gave.
type ran struct {
	code     int
	out, err string
}

// runWith runs ripeby with a program that the test may change first.
func runWith(ctx context.Context, change func(*program), args ...string) ran {
	var out, errs bytes.Buffer
	p := newProgram(streams{nil, &out, &errs}, func(string) string { return "" })
	if change != nil {
		change(p)
	}
	code := p.execute(ctx, args)
	return ran{code, out.String(), errs.String()}
}

// A plan that the judge does not pass is ripeby's fault, and never reaches a file.
func TestPlanThatDoesNotHold(t *testing.T) {
	out := filepath.Join(t.TempDir(), "plan")
	bad := func(p *program) {
		p.judge = func(*schedule.Problem, *schedule.Plan) []judge.Violation {
			return []judge.Violation{{Rule: "overlap", Batch: "BH-270316-1", Text: "Nell does two things at once"}}
		}
	}
	got := runWith(t.Context(), bad, "plan", "-C", newFolder(t), "--out", out)
	if got.code != exitOther {
		t.Errorf("exit code is %d, want %d", got.code, exitOther)
	}
	if got.out != "" {
		t.Errorf("standard output has %q, want nothing", got.out)
	}
	for _, want := range []string{"a fault of ripeby, not of your kitchen folder", "breaks\nits own rules in 1 place.",
		"overlap BH-270316-1: Nell does two things at once", "Please report it", "the earlier plan.json", "targets.yaml"} {
		if !strings.Contains(got.err, want) {
			t.Errorf("%q is not in the report:\n%s", want, got.err)
		}
	}
	if _, err := os.Stat(out); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("%s was made (%v), want nothing written", out, err)
	}
}

// A panic ends with exit code 1: the Go runtime's own code 2 would say that the
// folder is wrong.
func TestPanicIsNotTheFoldersFault(t *testing.T) {
	broken := func(p *program) {
		p.judge = func(*schedule.Problem, *schedule.Plan) []judge.Violation { panic("broken invariant") }
	}
	got := runWith(t.Context(), broken, "plan", "-C", newFolder(t), "--json")
	if got.code != exitOther || !strings.Contains(got.err, "a fault of ripeby") || !strings.Contains(got.err, "broken invariant") {
		t.Errorf("got exit code %d and %q, want 1 and a report", got.code, got.err)
	}
}

// A plan that was stopped early either is there, holds and says what is not
// proved, or the program says that there is none.
func TestPlanStoppedAtOnce(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	out := filepath.Join(t.TempDir(), "plan")
	got := runWith(ctx, nil, "plan", "--demo", "--out", out)
	switch got.code {
	case exitMet, exitShort:
		if !strings.Contains(got.out, "Planning was stopped early") {
			t.Errorf("the summary does not say that it was stopped:\n%s", got.out)
		}
		if plan, err := (output{out}).earlier(); plan == nil || err != nil {
			t.Errorf("got plan %v (%v), want the best so far", plan, err)
		}
	case exitOther:
		if !strings.Contains(got.err, "stopped before a first plan was found; nothing was written") {
			t.Errorf("got %q", got.err)
		}
	default:
		t.Errorf("exit code is %d", got.code)
	}
}

// fullDisk takes no bytes.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// A result that cannot be printed is an error, not a success.
func TestResultThatCannotBePrinted(t *testing.T) {
	for _, args := range [][]string{{"plan", "-C", newFolder(t), "--json"}, {"check", "--demo"}, {"version"}, {"--help"}} {
		full := func(p *program) { p.out.to = fullDisk{} }
		got := runWith(t.Context(), full, args...)
		if got.code != exitOther || !strings.Contains(got.err, "no space left on device") {
			t.Errorf("%v: got exit code %d and %q, want 1 and the reason", args, got.code, got.err)
		}
	}
}

// Off a terminal there is no progress line: standard error stays empty.
func TestNoProgressOffATerminal(t *testing.T) {
	var errs bytes.Buffer
	if newProgress(&errs, time.Now, func(string) string { return "" }).callback() != nil {
		t.Error("got a callback, want none for a buffer")
	}
}
