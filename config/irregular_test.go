//go:build unix

package config

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// A pipe would be read for ever, and a link may lead to a file or nowhere.
func TestIrregularFiles(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/saltgrass")); err != nil {
		t.Fatal(err)
	}
	targets := filepath.Join(dir, "targets.yaml")
	if err := os.Rename(targets, filepath.Join(dir, "elsewhere")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("elsewhere", targets); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("nowhere", filepath.Join(dir, "recipes", ".#ash-button.yaml")); err != nil {
		t.Fatal(err) // an editor's lock
	}
	if _, err := Load(dir, Options{From: saltgrassFrom}); err != nil {
		t.Errorf("got %v, want links to be followed and hidden files passed over", err)
	}
	begun := filepath.Join(dir, "begun.yaml")
	if err := os.Remove(begun); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(begun, 0o600); err != nil {
		t.Skip("no pipes here")
	}
	if _, err := Load(dir, Options{From: saltgrassFrom}); err == nil || err.Error() != "begun.yaml: this is not a regular file" {
		t.Errorf("got %v, want a fault about the pipe", err)
	}
}
