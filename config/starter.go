package config

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"text/template"
	"time"

	"ripeby/config/recordfile"
	"ripeby/resources"
)

// starter holds a kitchen folder to begin with. {{day 40}} is the date forty days
// after today, {{saturday 28}} the first Saturday not before that many days.
//
//go:embed starter
var starter embed.FS

// NewAt writes a commented starter folder whose dates are counted from today, and
// which can be planned at once, with an empty folder for the record. The folder is made
// when it is not there. Nothing is ever overwritten: when one of the files exists, the
// error names it and nothing is written. dir is a path of the machine; today is the local date.
func NewAt(dir string, today resources.Date) error {
	files, err := starterFiles(today)
	if err != nil {
		return err
	}
	for _, f := range files {
		switch _, err := os.Lstat(filepath.Join(dir, f.name)); {
		case err == nil:
			return fmt.Errorf("%s is there already and is not overwritten; choose another folder%w", filepath.Join(dir, f.name), quiet{fs.ErrExist})
		case !errors.Is(err, fs.ErrNotExist):
			return fmt.Errorf("the kitchen folder %s cannot be made: %w", dir, WithoutPath(err))
		}
	}
	for _, f := range files {
		if err := writeNew(filepath.Join(dir, f.name), f.text); err != nil {
			return fmt.Errorf("the kitchen folder %s cannot be made: %w", dir, WithoutPath(err))
		}
	}
	if err := os.MkdirAll(filepath.Join(dir, recordfile.Folder), 0o755); err != nil {
		return fmt.Errorf("the kitchen folder %s cannot be made: %w", dir, WithoutPath(err))
	}
	return nil
}

// starterFile is one file of the starter folder.
type starterFile struct {
	name string // below the folder, with the machine's separators
	text []byte
}

// starterFiles fills in the dates.
func starterFiles(today resources.Date) ([]starterFile, error) {
	later := template.FuncMap{
		"day": func(days int) string { return today.AddDays(days).String() },
		"saturday": func(days int) string {
			d := today.AddDays(days)
			for d.Weekday() != time.Saturday {
				d = d.AddDays(1)
			}
			return d.String()
		},
	}
	root, err := fs.Sub(starter, "starter")
	if err != nil {
		return nil, err
	}
	var files []starterFile
	err = fs.WalkDir(root, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		t, err := template.New(name).Funcs(later).Parse(string(text))
		if err != nil {
			return err
		}
		var b bytes.Buffer
		if err := t.Execute(&b, nil); err != nil {
			return err
		}
		files = append(files, starterFile{filepath.FromSlash(name), b.Bytes()})
		return nil
	})
	return files, err
}

// writeNew writes a file that is not there yet, and the folders above it.
func writeNew(path string, text []byte) (err error) {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	_, err = f.Write(text)
	return err
}
