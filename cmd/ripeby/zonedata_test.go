package main

import (
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"
)

func TestZoneEdition(t *testing.T) {
	put := func(folder, name, text string) {
		path := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	compact, versioned, untold, empty := t.TempDir(), t.TempDir(), t.TempDir(), t.TempDir()
	for _, folder := range []string{compact, versioned, untold} {
		put(folder, "Europe/Dublin", "")
	}
	put(compact, "tzdata.zi", "# version 2025b\n# redo posix_only\n")
	put(versioned, "+VERSION", "2024a\n")
	newer := t.TempDir()
	put(newer, "tzdata.zi", "# version 2025c\n")
	gone := filepath.Join(empty, "gone")
	if got, want := newestFirst([]string{gone, untold, versioned, compact, newer}).folders, []string{newer, compact, versioned, untold, gone}; !slices.Equal(got, want) {
		t.Errorf("the newest edition comes first: got %q, want %q", got, want)
	}
	built := "built into ripeby with " + runtime.Version()
	for _, c := range []struct {
		name    string
		folders []string
		zone    string
		want    string
	}{
		{"tzdata.zi", []string{compact}, "Europe/Dublin", "2025b, from " + compact},
		{"+VERSION", []string{versioned}, "Europe/Dublin", "2024a, from " + versioned},
		{"not told", []string{untold}, "Europe/Dublin", "edition not told, from " + untold},
		{"the first folder that has the zone", []string{empty, versioned, compact}, "Europe/Dublin", "2024a, from " + versioned},
		{"no folder has it", []string{empty}, "Europe/Dublin", built},
		{"a folder is no zone", []string{compact}, "Europe", built},
	} {
		if got := (zoneSource{c.folders}).edition(c.zone); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
