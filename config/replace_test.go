package config

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// folderWith is a folder on the disk with a targets.yaml.
func folderWith(t *testing.T, text string, mode fs.FileMode) (dir, file string) {
	t.Helper()
	dir = t.TempDir()
	file = filepath.Join(dir, targetsFile)
	if err := errors.Join(os.WriteFile(file, []byte(text), 0o600), os.Chmod(file, mode)); err != nil {
		t.Fatal(err)
	}
	return dir, file
}

// wantFile sees what a file holds, and that nothing else lies in its folder.
func wantFile(t *testing.T, file, text string) {
	t.Helper()
	if got, err := os.ReadFile(file); err != nil || string(got) != text {
		t.Errorf("%s holds %q (%v), want %q", filepath.Base(file), got, err, text)
	}
	entries, err := os.ReadDir(filepath.Dir(file))
	if err != nil || len(entries) != 1 {
		t.Errorf("the folder holds %v (%v), want one file", entries, err)
	}
}

func TestWriteTargetsReplacesTheFile(t *testing.T) {
	for _, mode := range []fs.FileMode{0o644, 0o600, 0o664} {
		dir, file := folderWith(t, "old", mode)
		if err := WriteTargets(dir, []byte("old"), []byte("new text")); err != nil {
			t.Fatal(err)
		}
		wantFile(t, file, "new text")
		info, err := os.Stat(file)
		if err != nil {
			t.Fatal(err)
		}
		if runtime.GOOS != "windows" && info.Mode().Perm() != mode {
			t.Errorf("the file has the permissions %v, want %v", info.Mode().Perm(), mode)
		}
	}
}

func TestWriteTargetsLeavesAChangedFile(t *testing.T) {
	for _, now := range []string{"", "ol", "older", "OLD"} {
		dir, file := folderWith(t, now, 0o644)
		err := WriteTargets(dir, []byte("old"), []byte("new"))
		if want := file + " is left as it was: the file has changed since it was read"; !errors.Is(err, ErrChanged) || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
		wantFile(t, file, now)
	}
}

func TestWriteTargetsWithoutAFile(t *testing.T) {
	dir := t.TempDir()
	err := WriteTargets(dir, nil, []byte("new"))
	if !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("got %v, want an error that is fs.ErrNotExist", err)
	}
	if entries, _ := os.ReadDir(dir); len(entries) != 0 {
		t.Errorf("the folder holds %v, want nothing", entries)
	}
	if err := os.Mkdir(filepath.Join(dir, targetsFile), 0o755); err != nil {
		t.Fatal(err)
	}
	if err = WriteTargets(dir, nil, []byte("new")); err == nil || !strings.HasSuffix(err.Error(), "it is not a regular file") {
		t.Errorf("got %v, want that a folder is in the way", err)
	}
}

func TestWriteTargetsFollowsALink(t *testing.T) {
	_, file := folderWith(t, "old", 0o640)
	dir := t.TempDir()
	link := filepath.Join(dir, targetsFile)
	if err := os.Symlink(file, link); err != nil {
		t.Skip("links cannot be made here:", err)
	}
	if err := WriteTargets(dir, []byte("old"), []byte("new")); err != nil {
		t.Fatal(err)
	}
	wantFile(t, file, "new")
	if got, err := os.Readlink(link); err != nil || got != file {
		t.Errorf("the link leads to %q (%v), want %q", got, err, file)
	}
}

// A folder that takes no further file is left as it was, with a reason that names no
// scratch file.
func TestWriteTargetsInALockedFolder(t *testing.T) {
	dir, file := folderWith(t, "old", 0o644)
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(dir, 0o755)
	if f, err := os.Create(filepath.Join(dir, "probe")); err == nil {
		f.Close()
		t.Skip("this user may write anywhere")
	}
	err := WriteTargets(dir, []byte("old"), []byte("new"))
	if !errors.Is(err, fs.ErrPermission) || strings.Contains(err.Error(), ".part") {
		t.Errorf("got %v, want one about permissions", err)
	}
	wantFile(t, file, "old")
}
