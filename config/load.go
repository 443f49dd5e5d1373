package config

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"ripeby/resources"
	"ripeby/schedule"
)

// Options says from when to plan.
type Options struct {
	From string    // the planning start as somebody wrote it; "" for Now
	Now  time.Time // the present, for a planning start that nobody wrote
}

// Load reads the kitchen folder dir. The error is [Faults] when the folder can be
// read but something in it, or the planning start, is wrong; then no Problem is
// given. Any other error means that there is no such folder.
//
// Problem.Earlier is left nil: the earlier plan is no part of the kitchen folder.
func Load(dir string, opt Options) (*schedule.Problem, error) {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("the kitchen folder %s is not there%w", dir, quiet{fs.ErrNotExist})
	case err != nil:
		return nil, fmt.Errorf("the kitchen folder %s cannot be read: %w", dir, err)
	case !info.IsDir():
		return nil, fmt.Errorf("%s is a file: name the kitchen folder that holds it, %s", dir, filepath.Dir(dir))
	}
	return LoadFS(os.DirFS(dir), opt)
}

// quiet carries an error that the message has said already.
type quiet struct{ err error }

// Error is empty: the words stand before it.
func (quiet) Error() string { return "" }

// Unwrap gives the error itself.
func (q quiet) Unwrap() error { return q.err }

// LoadFS is [Load] for a folder that is not on the disk.
func LoadFS(fsys fs.FS, opt Options) (*schedule.Problem, error) {
	l := &loader{fsys: fsys, sure: map[string]bool{}, sound: map[string]bool{}}
	l.problem.Kitchen.Zone = time.UTC
	l.strayFiles()
	if p, ok := l.page(kitchenFile, true); ok {
		l.kitchen(p)
	}
	l.from(opt)
	for _, name := range l.recipeFiles() {
		if p, ok := l.page(name, true); ok {
			l.recipe(p)
		} else {
			l.recipesUnsure = true
		}
	}
	if p, ok := l.page(targetsFile, true); ok {
		l.targets(p)
	}
	if p, ok := l.page(begunFile, false); ok {
		l.begunFile(p)
	}
	if len(l.faults) > 0 {
		return nil, l.faults.Sorted()
	}
	return &l.problem, nil
}

// loader carries what is known while a folder is read.
type loader struct {
	fsys    fs.FS
	problem schedule.Problem
	faults  Faults

	// sure holds the lists of kitchen.yaml that were read without a fault, so that
	// a name that is not on one is worth a fault of its own. recipesUnsure is the
	// same for recipes, the other way round.
	sure          map[string]bool
	recipesUnsure bool
	// zoneKnown and fromKnown: local times mean something, and past and future do.
	zoneKnown, fromKnown bool
	// sound holds the recipes that were read without a fault, so that what
	// builds on them is checked only where that makes sense.
	sound map[string]bool

	recipeNames, codes, targetsAt register
}

// fault adds to what is wrong.
func (l *loader) fault(f Fault) { l.faults = append(l.faults, f) }

// warn adds to what reading the folder has to say.
func (l *loader) warn(code, text string, at resources.Moment) {
	l.problem.Warnings = append(l.problem.Warnings, schedule.Warning{Code: code, Text: text, At: at})
}

// page reads a file and makes nodes of it.
func (l *loader) page(name string, required bool) (*page, bool) {
	text, ok := l.readFile(name, required)
	if !ok {
		return nil, false
	}
	p := &page{loader: l, file: name}
	return p, p.parse(text)
}

// from sets the planning start. Without a word of the maker's it is the present,
// a begun minute going up to the next.
func (l *loader) from(opt Options) {
	const name = "--from"
	if opt.From == "" {
		if y := opt.Now.Year(); y < resources.FirstYear || y > resources.LastYear {
			l.fault(Fault{File: name, What: fmt.Sprintf("the present year is given as %d; is the clock right?", y)})
			return
		}
		l.problem.From = resources.MomentOf(opt.Now)
		if opt.Now.Second() != 0 || opt.Now.Nanosecond() != 0 {
			l.problem.From++
		}
		l.fromKnown = true
		return
	}
	if !l.zoneKnown {
		return // the local time that it is written in is not known
	}
	m, err := resources.ParseStart(opt.From, l.problem.Kitchen.Zone)
	if err != nil {
		f := quantityFault(err)
		f.File = name
		l.fault(f)
		return
	}
	l.problem.From, l.fromKnown = m, true
}
