package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// While one run plans into a folder no other does; when it is done, or gives up,
// the next one may, and no file is left behind.
func TestOneRunATime(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("folders are not locked there")
	}
	dir, folder := t.TempDir(), newFolder(t)
	first, err := output{dir}.takeTurn()
	if err != nil || !first.held {
		t.Fatalf("got held %v and %v, want the turn", first.held, err)
	}
	got := runWith(t.Context(), nil, "plan", "-C", folder, "--out", dir)
	if got.code != exitOther || got.out != "" || !strings.Contains(got.err, "another ripeby is planning into it just now; wait until that is done") {
		t.Errorf("got exit code %d, output %q and %q, want 1 and the reason", got.code, got.out, got.err)
	}
	// Reading the plan and printing a new one need no turn.
	if got := runWith(t.Context(), nil, "plan", "-C", folder, "--json"); got.code != exitMet && got.code != exitShort {
		t.Errorf("--json: got exit code %d and %q, want a plan", got.code, got.err)
	}
	first.end()
	if second, err := (output{dir}).takeTurn(); err != nil || !second.held {
		t.Errorf("after the end: got held %v and %v, want the turn", second.held, err)
	}
	if left := names(t, dir); len(left) != 0 {
		t.Errorf("the folder holds %v, want nothing", left)
	}
}

// A folder that is not there is locked when it is made.
func TestTurnOfANewFolder(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("folders are not locked there")
	}
	out := output{filepath.Join(t.TempDir(), "new", "plan")}
	first, err := out.takeTurn()
	if err != nil || first.held {
		t.Fatalf("got held %v and %v, want no turn yet", first.held, err)
	}
	if _, err := os.Stat(out.dir); !os.IsNotExist(err) {
		t.Fatalf("the folder was made before there was a plan (%v)", err)
	}
	second, err := out.takeTurn()
	if err != nil {
		t.Fatal(err)
	}
	if err := first.toWrite(); err != nil || !first.held {
		t.Fatalf("got held %v and %v, want the turn", first.held, err)
	}
	if err := second.toWrite(); err == nil || !strings.Contains(err.Error(), "another ripeby") {
		t.Errorf("got %v, want that another has its turn", err)
	}
	first.end()
	if err := second.toWrite(); err != nil {
		t.Errorf("after the end: %v", err)
	}
	second.end()
}
