package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"ripeby/config"
	"ripeby/schedule"
	"ripeby/schedule/planfile"
)

// planName is the file that holds the plan itself.
const planName = "plan.json"

// pageNames are the files of a plan, in the order in which they are put in place.
func pageNames() []string { return []string{planName, "tasks.ics", "week.txt", "plan.svg"} }

// output is the folder in which a plan is kept.
type output struct{ dir string }

// page is one file of a plan, made in memory.
type page struct {
	name string
	text []byte
}

func (o output) path(name string) string { return filepath.Join(o.dir, name) }

func (o output) planPath() string { return o.path(planName) }

// earlier reads the plan that is there, nil when there is none.
func (o output) earlier() (*schedule.Plan, error) {
	text, err := o.readPlan()
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	plan, err := planfile.Decode(text)
	if err != nil {
		return nil, &failure{exitWrong, &damagedPlan{o.planPath(), err}}
	}
	return plan, nil
}

// readPlan gives the bytes of the plan; the error is fs.ErrNotExist when there is
// none.
func (o output) readPlan() ([]byte, error) {
	text, err := config.ReadRegular(o.planPath(), planfile.MaxBytes)
	var not *config.NotRegular
	var large *config.TooLarge
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fs.ErrNotExist
	case errors.As(err, &not):
		return nil, wrong("%s, the earlier plan, cannot be read: %s, or plan with --fresh", o.planPath(), not)
	case errors.As(err, &large):
		return nil, wrong("%s is larger than the limit of %d bytes; put back a good copy of it, or plan with --fresh", o.planPath(), large.Most)
	case err != nil:
		return nil, other("%s, the earlier plan, cannot be read: %w", o.planPath(), config.WithoutPath(err))
	}
	return text, nil
}

// damagedPlan says what is wrong with a plan.json and what to do about it.
type damagedPlan struct {
	path string
	err  error
}

// Error gives file:line:column and the ways out.
func (d *damagedPlan) Error() string {
	text := d.path + ": " + d.err.Error()
	var f *planfile.Fault
	if errors.As(d.err, &f) && f.Line > 0 {
		text = fmt.Sprintf("%s:%d:%d: %s", d.path, f.Line, f.Column, f.Message())
	}
	return text + "\nThis is the earlier plan. Put back a good copy of it; or plan with --fresh, which leaves it out of account:\n" +
		"then what is under way must stand in begun.yaml, and batch numbers start anew."
}

// Unwrap gives the fault itself.
func (d *damagedPlan) Unwrap() error { return d.err }

// probe finds out before the long work whether the folder can be written to,
// without leaving anything behind: it tries the nearest folder that exists.
func (o output) probe() error {
	dir := o.dir
	for {
		info, err := os.Stat(dir)
		if err == nil && !info.IsDir() {
			return other("the plan cannot be kept in %s: %s is a file, not a folder; choose another with --out", o.dir, dir)
		}
		if err == nil {
			break
		}
		parent := filepath.Dir(dir)
		// ENOTDIR: the path leads through a file, which the next round finds.
		if !errors.Is(err, fs.ErrNotExist) && !errors.Is(err, syscall.ENOTDIR) || parent == dir {
			return o.cannot(err)
		}
		dir = parent
	}
	for _, name := range pageNames() {
		if info, err := os.Lstat(o.path(name)); err == nil && info.IsDir() {
			return other("the plan cannot be kept in %s: %s is a folder; want a file", o.dir, o.path(name))
		}
	}
	f, err := os.CreateTemp(dir, config.ScratchPattern)
	if err != nil {
		return other("the plan cannot be kept in %s: it cannot be written to (%w); choose another folder with --out", o.dir, config.WithoutPath(err))
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
}

// Files are written beside their place under a scratch name and moved there when
// they are whole. A scratch file that a kill or a power cut left behind is swept
// away by a later run, once it is too old to be another run's.
const scratchOld = 10 * time.Minute

// write puts the pages into the folder, each whole or not at all, in their order, and keeps what
// was made (nil for none). All are on the disk under scratch names before the first is moved to
// its place, so a full disk changes nothing.
//
// The batches go first. What is over is in no plan but the one before, so a plan that was new
// beside batches that are old would have it forgotten; the other way round the next run writes
// them anew, from the plan before, as if this one had not been.
//
// plan.json is to be the first of the pages: it remembers batch numbers and how often each
// event changed. If a kill falls between two moves, the plan is new and the
// calendar old, and the next run makes the calendar that belongs to it. The other
// way round, a calendar could have gone out with a number or a revision that no
// plan remembers, and that would then be given a second time.
func (o output) write(pages []page, batches *batchChange, now time.Time) (err error) {
	defer batches.end()
	if err := os.MkdirAll(o.dir, 0o777); err != nil {
		return o.cannot(err)
	}
	if err := batches.prepare(now); err != nil {
		return err
	}
	sweep(o.dir, now)
	scratch := make([]string, 0, len(pages))
	defer func() {
		for _, path := range scratch {
			os.Remove(path) // those that were moved are gone already
		}
	}()
	for _, p := range pages {
		path, err := config.WriteScratch(o.dir, 0o644, p.text) // readable by whatever serves the calendar
		if err != nil {
			return o.cannot(err)
		}
		scratch = append(scratch, path)
	}
	if err := batches.place(); err != nil {
		return err
	}
	for i, p := range pages {
		if err := os.Rename(scratch[i], o.path(p.name)); err != nil {
			return o.cannot(err)
		}
		if i == 0 {
			config.SyncFolder(o.dir)
		}
	}
	config.SyncFolder(o.dir)
	return nil
}

func (o output) cannot(err error) error {
	return other("the plan cannot be kept in %s: %w; choose another folder with --out", o.dir, config.WithoutPath(err))
}

// sweep removes scratch files of a folder that no run can still be writing.
func sweep(dir string, now time.Time) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return // writing will say so
	}
	for _, e := range entries {
		old, _ := filepath.Match(config.ScratchPattern, e.Name())
		if info, err := e.Info(); old && err == nil && now.Sub(info.ModTime()) > scratchOld {
			os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}
