//go:build unix

package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A plan.json that is no file is told at once by whatever reads it: a pipe would be read
// for ever, and behind a link that leads nowhere there may be batches under way.
func TestPlanThatIsNoFile(t *testing.T) {
	for want, make := range map[string]func(path string) error{
		"this is a named pipe; move it away": func(path string) error { return syscall.Mkfifo(path, 0o600) },
		"this is a folder; move it away":     func(path string) error { return os.Mkdir(path, 0o700) },
		"this is a device; move it away":     func(path string) error { return os.Symlink("/dev/zero", path) },
		"this is a link to lost.json, which is not there; put that back, or take the link away": func(path string) error {
			return os.Symlink("lost.json", path)
		},
	} {
		folder := newFolder(t)
		path := filepath.Join(folder, "plan", "plan.json")
		if err := os.Mkdir(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := make(path); err != nil {
			t.Fatal(err)
		}
		want = path + ", the earlier plan, cannot be read: " + want
		for _, command := range []string{"plan", "plan --json", "week", "check", "why"} {
			want, code := want, exitWrong
			if info, err := os.Stat(path); err == nil && info.IsDir() && command == "plan" { // it looks where it will write first
				want, code = path+" is a folder; want a file", exitOther
			}
			got := runWith(t.Context(), nil, append(strings.Fields(command), "-C", folder)...)
			if got.code != code || got.out != "" || !strings.Contains(got.err, want) {
				t.Errorf("%s: got exit code %d, output %q and %q, want %d and %q", command, got.code, got.out, got.err, code, want)
			}
		}
	}
}

// Settings from a pipe are refused, not waited for.
func TestSettingsThatAreNoFile(t *testing.T) {
	home := t.TempDir()
	path := filepath.Join(home, "ripeby", "settings.yaml")
	if err := os.Mkdir(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Fatal(err)
	}
	got := runWith(t.Context(), func(p *program) {
		p.env = func(name string) string { return map[string]string{"XDG_CONFIG_HOME": home}[name] }
	}, "week", "-C", newFolder(t))
	if got.code != exitWrong || !strings.Contains(got.err, path+" cannot be read: this is a named pipe") {
		t.Errorf("got exit code %d and %q, want 2 and what it is", got.code, got.err)
	}
}
