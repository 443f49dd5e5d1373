package config

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strings"
)

// The files of a kitchen folder.
const (
	kitchenFile  = "kitchen.yaml"
	targetsFile  = "targets.yaml"
	begunFile    = "begun.yaml"
	recipeFolder = "recipes"
)

// readFile gives one file's bytes; ok is false when it could not be read, after a
// fault that says why, or when it is not there and need not be.
func (l *loader) readFile(name string, required bool) (text []byte, ok bool) {
	text, err := ReadRegularFS(l.fsys, name, MaxFileBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if required {
			l.fault(Fault{File: name, What: "this file is not there; every kitchen folder needs it", Missing: true})
		}
		return nil, false
	case err != nil:
		l.unreadable(name, err)
		return nil, false
	}
	return text, true
}

// unreadable says that a file is there but cannot be read, and why.
func (l *loader) unreadable(name string, err error) {
	var other *NotRegular
	var large *TooLarge
	if errors.As(err, &other) || errors.As(err, &large) {
		l.fault(Fault{File: name, What: err.Error()})
		return
	}
	kind := "file"
	if name == recipeFolder {
		kind = "folder"
	}
	one := Fault{File: name, What: "this " + kind + " cannot be read: " + oneLine(WithoutPath(err).Error())}
	if errors.Is(err, fs.ErrPermission) {
		one.What += "; let yourself read it, with: chmod u+rX " + name
	}
	l.fault(one)
}

// recipeFiles lists recipes/*.yaml in the order of their names. A folder without
// recipes/ has no recipes.
func (l *loader) recipeFiles() []string {
	var entries []fs.DirEntry
	err := look(l.fsys, recipeFolder, true)
	if err == nil {
		entries, err = fs.ReadDir(l.fsys, recipeFolder)
	}
	if err != nil {
		if !errors.Is(err, fs.ErrNotExist) {
			l.unreadable(recipeFolder, err)
			l.recipesUnsure = true
		}
		return nil
	}
	var files []string
	for _, e := range entries {
		name := path.Join(recipeFolder, e.Name())
		if strings.HasPrefix(e.Name(), ".") { // an editor's or the system's own
			continue
		}
		if path.Ext(name) == ".yaml" {
			files = append(files, name)
		} else if misnamed(name) {
			l.misnamed(name)
			l.recipesUnsure = true
		}
	}
	if len(files) > MaxRecipes {
		l.fault(Fault{File: recipeFolder, What: fmt.Sprintf("%d recipes are more than the limit of %d", len(files), MaxRecipes)})
		l.recipesUnsure = true
		files = files[:MaxRecipes]
	}
	return files
}

// misnamed reports whether a file was surely meant as YAML but has another end.
func misnamed(name string) bool {
	end := strings.ToLower(path.Ext(name))
	return (end == ".yml" || end == ".yaml") && path.Ext(name) != ".yaml"
}

// misnamed complains of a file that would be passed over without a word.
func (l *loader) misnamed(name string) {
	l.fault(Fault{File: name, What: "only files that end in .yaml are read; rename it to " +
		strings.TrimSuffix(name, path.Ext(name)) + ".yaml"})
}

// strayFiles complains of kitchen.yml and the like.
func (l *loader) strayFiles() {
	entries, err := fs.ReadDir(l.fsys, ".")
	if err != nil {
		return // each file says for itself that it cannot be read
	}
	for _, e := range entries {
		switch strings.ToLower(strings.TrimSuffix(e.Name(), path.Ext(e.Name()))) {
		case "kitchen", "targets", "begun":
			if misnamed(e.Name()) {
				l.misnamed(e.Name())
			}
		}
	}
}

// oneLine keeps an error's text on one line.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// WithoutPath takes the path off an error where the message says it already, or
// where it is a scratch file's, which nobody knows.
func WithoutPath(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
