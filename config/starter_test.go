package config

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"ripeby/resources"
)

func TestNewAtWritesAFolderThatLoads(t *testing.T) {
	for _, today := range []resources.Date{
		{Year: 2027, Month: time.March, Day: 1},
		{Year: 2026, Month: time.December, Day: 31},
		{Year: 2028, Month: time.February, Day: 29},
	} {
		dir := filepath.Join(t.TempDir(), "new kitchen")
		if err := NewAt(dir, today); err != nil {
			t.Fatalf("NewAt(%s): %v", today, err)
		}
		p, err := Load(dir, Options{From: today.String()})
		if err != nil {
			t.Fatalf("NewAt(%s): the folder has faults:\n%v", today, err)
		}
		if len(p.Warnings) != 0 {
			t.Errorf("NewAt(%s): got warnings %v, want none", today, p.Warnings)
		}
		if got, want := len(p.Targets), 3; got != want {
			t.Errorf("NewAt(%s): got %d targets, want %d", today, got, want)
		}
		for _, target := range p.Targets {
			if day := target.By.DateIn(p.Kitchen.Zone); today.DaysUntil(day) < 28 || day.Weekday() != time.Saturday {
				t.Errorf("NewAt(%s): got a target by %s, want a Saturday from the 28th day on", today, day)
			}
		}
	}
}

func TestNewAtOverwritesNothing(t *testing.T) {
	dir := t.TempDir()
	mine := filepath.Join(dir, "targets.yaml")
	if err := os.WriteFile(mine, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	err := NewAt(dir, resources.Date{Year: 2027, Month: time.March, Day: 1})
	if !errors.Is(err, fs.ErrExist) {
		t.Fatalf("got %v, want an error that is fs.ErrExist", err)
	}
	if text, _ := os.ReadFile(mine); string(text) != "mine" {
		t.Errorf("got %q in targets.yaml, want it untouched", text)
	}
	if _, err := os.Stat(filepath.Join(dir, "kitchen.yaml")); err == nil {
		t.Error("kitchen.yaml was written beside a file that was there already")
	}
}
