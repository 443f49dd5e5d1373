package main

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"ripeby/schedule/planfile"
)

// names lists a folder.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

func TestWritePutsAllPagesInPlace(t *testing.T) {
	out := output{filepath.Join(t.TempDir(), "deep", "plan")}
	pages := []page{{planName, []byte("new plan")}, {"tasks.ics", []byte("new calendar")}}
	if err := out.write(pages, nil, time.Now()); err != nil {
		t.Fatal(err)
	}
	if got, want := names(t, out.dir), []string{"plan.json", "tasks.ics"}; !slices.Equal(got, want) {
		t.Errorf("the folder holds %v, want %v", got, want)
	}
	for _, p := range pages {
		if got, err := os.ReadFile(out.path(p.name)); err != nil || string(got) != string(p.text) {
			t.Errorf("%s is %q (%v), want %q", p.name, got, err, p.text)
		}
	}
}

// When a file cannot be moved to its place, those after it stay as they were, and
// nothing is left lying about. plan.json goes first: a calendar is never newer
// than the plan that remembers its numbers.
func TestWriteStopsAtTheFirstFailure(t *testing.T) {
	out := output{t.TempDir()}
	if err := os.MkdirAll(filepath.Join(out.path(planName), "in the way"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(out.path("tasks.ics"), []byte("old calendar"), 0o644); err != nil {
		t.Fatal(err)
	}
	err := out.write([]page{{planName, []byte("new plan")}, {"tasks.ics", []byte("new calendar")}}, nil, time.Now())
	var f *failure
	if !errors.As(err, &f) || f.code != exitOther {
		t.Fatalf("got %v, want a failure with exit code 1", err)
	}
	if got, _ := os.ReadFile(out.path("tasks.ics")); string(got) != "old calendar" {
		t.Errorf("tasks.ics is %q, want the old one", got)
	}
	if got, want := names(t, out.dir), []string{"plan.json", "tasks.ics"}; !slices.Equal(got, want) {
		t.Errorf("the folder holds %v, want %v", got, want)
	}
}

// The first page is in its place before any other: this is what a kill between
// two moves leaves behind.
func TestPlanIsTheFirstPage(t *testing.T) {
	problem, plan := demoPlan(t)
	pages, err := pagesOf(problem, plan)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, p := range pages {
		got = append(got, p.name)
		if len(p.text) == 0 {
			t.Errorf("%s is empty", p.name)
		}
	}
	if want := []string{"plan.json", "tasks.ics", "week.txt", "plan.svg"}; !slices.Equal(got, want) {
		t.Errorf("pages are %v, want %v", got, want)
	}
}

func TestSweepTakesOnlyOldScratchFiles(t *testing.T) {
	now := time.Date(2027, 3, 1, 6, 0, 0, 0, time.UTC)
	out := output{t.TempDir()}
	for name, age := range map[string]time.Duration{
		".ripeby-1.part": time.Hour,        // left by a kill
		".ripeby-2.part": time.Minute,      // another run is writing it
		".ripeby-notes":  1000 * time.Hour, // not ours
		"old.part":       1000 * time.Hour,
	} {
		if err := os.WriteFile(out.path(name), nil, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(out.path(name), now.Add(-age), now.Add(-age)); err != nil {
			t.Fatal(err)
		}
	}
	sweep(out.dir, now)
	if got, want := names(t, out.dir), []string{".ripeby-2.part", ".ripeby-notes", "old.part"}; !slices.Equal(got, want) {
		t.Errorf("left are %v, want %v", got, want)
	}
}

func TestProbeLeavesNothingBehind(t *testing.T) {
	dir := t.TempDir()
	if err := (output{filepath.Join(dir, "not", "there", "yet")}).probe(); err != nil {
		t.Fatal(err)
	}
	if got := names(t, dir); len(got) != 0 {
		t.Errorf("the folder holds %v, want nothing", got)
	}
}

// A file beside the plan that is far too large is not taken for its beginning, and what is
// said to do about it is right for that file.
func TestKeptFilesBeyondTheirLimit(t *testing.T) {
	out := output{t.TempDir()}
	for name, most := range map[string]int64{planName: planfile.MaxBytes, "feeds.json": ownMost} {
		if err := os.WriteFile(out.path(name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Truncate(out.path(name), most+1); err != nil {
			t.Fatal(err)
		}
	}
	_, plan := out.earlier()
	_, own := ownFiles{out: out}.Read("feeds.json")
	for _, c := range []struct {
		err  error
		want string
	}{
		{plan, out.planPath() + " is larger than the limit of 67108864 bytes; put back a good copy of it, or plan with --fresh"},
		{own, out.path("feeds.json") + " is larger than the limit of 4194304 bytes; put back a good copy of it, or take it away"},
	} {
		if c.err == nil || c.err.Error() != c.want {
			t.Errorf("got %v, want %s", c.err, c.want)
		}
	}
}
