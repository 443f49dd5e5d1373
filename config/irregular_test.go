//go:build unix

package config

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// saltgrassAt is the kitchen folder of the tests on the disk.
func saltgrassAt(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("testdata/saltgrass")); err != nil {
		t.Fatal(err)
	}
	return dir
}

// A link leads to a file, and an editor's lock leads nowhere and is none of the folder's.
func TestLinksAreFollowed(t *testing.T) {
	dir := saltgrassAt(t)
	targets := filepath.Join(dir, "targets.yaml")
	if err := os.Rename(targets, filepath.Join(dir, "elsewhere")); err != nil {
		t.Fatal(err)
	}
	for link, to := range map[string]string{targets: "elsewhere", filepath.Join(dir, "recipes", ".#ash-button.yaml"): "nowhere"} {
		if err := os.Symlink(to, link); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := Load(dir, Options{From: saltgrassFrom}); err != nil {
		t.Errorf("got %v, want links to be followed and hidden files passed over", err)
	}
}

// What is no file is told at once, whichever of the folder's files it stands for: a pipe
// would be read for ever, and a link that leads nowhere would pass for a file that need not
// be there.
func TestNoFileAtAll(t *testing.T) {
	const pipe, folder, device, nowhere = "this is a named pipe; move it away, and put a file in its place",
		"this is a folder; move it away, and put a file in its place",
		"this is a device; move it away, and put a file in its place",
		"this is a link to ../lost/file, which is not there; put that back, or take the link away"
	files := []string{"kitchen.yaml", "targets.yaml", "begun.yaml", "recipes/ash-button.yaml"}
	made := map[string]func(path string) error{
		pipe:    func(path string) error { return syscall.Mkfifo(path, 0o600) },
		folder:  func(path string) error { return os.Mkdir(path, 0o700) },
		device:  func(path string) error { return os.Symlink("/dev/zero", path) },
		nowhere: func(path string) error { return os.Symlink("../lost/file", path) },
	}
	for want, make := range made {
		for _, file := range files {
			dir := saltgrassAt(t)
			path := filepath.Join(dir, filepath.FromSlash(file))
			if err := os.Remove(path); err != nil && !os.IsNotExist(err) {
				t.Fatal(err)
			}
			if err := make(path); err != nil {
				t.Fatal(err)
			}
			_, err := Load(dir, Options{From: saltgrassFrom})
			faults, _ := err.(Faults)
			if len(faults) == 0 || faults[0].Error() != file+": "+want {
				t.Errorf("%s: got %v, want %q first", file, err, want)
			}
		}
	}
	for want, make := range map[string]func(path string) error{
		"recipes: this is a named pipe; move it away, and put a folder in its place":                        made[pipe],
		"recipes: this is a link to ../lost/file, which is not there; put that back, or take the link away": made[nowhere],
		"recipes: this is a file; move it away, and put a folder in its place": func(path string) error {
			return os.WriteFile(path, nil, 0o600)
		},
	} {
		dir := saltgrassAt(t)
		path := filepath.Join(dir, "recipes")
		if err := os.RemoveAll(path); err != nil {
			t.Fatal(err)
		}
		if err := make(path); err != nil {
			t.Fatal(err)
		}
		_, err := Load(dir, Options{From: saltgrassFrom})
		if faults, _ := err.(Faults); len(faults) == 0 || faults[0].Error() != want {
			t.Errorf("got %v, want %q first", err, want)
		}
	}
}
