package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"ripeby/config"
	"ripeby/config/recordfile"
	"ripeby/schedule"
	"ripeby/schedule/planfile"
)

// batchFolder is where a kitchen keeps what was made, below its record: a file for each batch
// that has begun. Nothing is planned from it.
type batchFolder struct{ kitchen string }

// batchesBelow is the folder as faults name it.
const batchesBelow = recordfile.Folder + "/batches"

// mostBatchFiles is how many are read: at three a day those of nine years.
const mostBatchFiles = 10_000

func (d batchFolder) dir() string { return filepath.Join(d.kitchen, filepath.FromSlash(batchesBelow)) }

func (d batchFolder) path(name string) string { return filepath.Join(d.dir(), name) }

// batchFile is the name of a batch's file. What a file system may take for something else is
// written as its bytes are: %2F.
func batchFile(id string) string {
	var b strings.Builder
	for i, r := range id {
		switch {
		case unicode.IsLetter(r), unicode.IsDigit(r), r == '-', r == '_', (r == '.' || r == ' ') && i > 0:
			b.WriteRune(r)
		default:
			for _, c := range []byte(string(r)) {
				fmt.Fprintf(&b, "%%%02X", c)
			}
		}
	}
	return b.String() + ".json"
}

// badBatchFile says what is wrong with a file of a batch, and what to do about it.
type badBatchFile struct {
	name string
	err  error
}

// Error gives file:line:column and the way out.
func (e *badBatchFile) Error() string {
	at := batchesBelow + "/" + e.name
	var f *planfile.Fault
	if errors.As(e.err, &f) && f.Line > 0 {
		return fmt.Sprintf("%s:%d:%d: %s; it is passed over: put back a good copy of it, or take it away", at, f.Line, f.Column, f.Message())
	}
	return fmt.Sprintf("%s: %v; it is passed over: put back a good copy of it, or take it away", at, e.err)
}

// Unwrap gives the fault itself.
func (e *badBatchFile) Unwrap() error { return e.err }

// read gives the bytes of a file and what it says; nothing where it is not there. The error is a
// [*badBatchFile].
func (d batchFolder) read(name string) (text []byte, b *schedule.KeptBatch, err error) {
	text, err = config.ReadRegular(d.path(name), planfile.MaxBatchBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil, nil
	}
	if err == nil {
		b, err = planfile.DecodeBatch(text)
	}
	if err == nil && batchFile(b.ID) != name {
		err = fmt.Errorf("it is of the batch %s, whose file is %s", plain(b.ID), batchFile(b.ID))
	}
	if err != nil {
		return text, nil, &badBatchFile{name, config.WithoutPath(err)}
	}
	return text, b, nil
}

// all reads every file, in the order of ids. What cannot be read is told, and does not stop the
// rest.
func (d batchFolder) all() (kept []schedule.KeptBatch, bad []error) {
	entries, err := os.ReadDir(d.dir())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, []error{fmt.Errorf("%s cannot be read: %w", batchesBelow, config.WithoutPath(err))}
	}
	for i, e := range entries {
		if strings.HasPrefix(e.Name(), ".") || filepath.Ext(e.Name()) != ".json" {
			continue
		}
		if i >= mostBatchFiles {
			bad = append(bad, fmt.Errorf("%s holds more than the limit of %d files: the rest is passed over", batchesBelow, mostBatchFiles))
			break
		}
		_, b, err := d.read(e.Name())
		if err != nil {
			bad = append(bad, err)
			continue
		}
		kept = append(kept, *b)
	}
	slices.SortFunc(kept, func(a, b schedule.KeptBatch) int { return schedule.CompareIDs(a.ID, b.ID) })
	return kept, bad
}

// batchChange is what is to be done to the folder when a plan is put in force.
type batchChange struct {
	folder  batchFolder
	pages   []page   // files that change
	drop    []string // files of batches that never began
	scratch []string
	unlock  func()
}

// none reports whether nothing is to be done, as for an output that keeps no batches.
func (c *batchChange) none() bool { return c == nil || len(c.pages)+len(c.drop) == 0 }

// add has a batch kept, unless its file says just that.
func (c *batchChange) add(b *schedule.KeptBatch, was []byte, zone *time.Location) error {
	text, err := planfile.EncodeBatch(b, zone)
	if err == nil && !bytes.Equal(text, was) {
		c.pages = append(c.pages, page{batchFile(b.ID), text})
	}
	return err
}

// prepare takes the record's lock, so that nobody reads one half of the change and another of
// the record, and has every file on the disk under a scratch name.
func (c *batchChange) prepare(now time.Time) (err error) {
	if c.none() {
		return nil
	}
	if c.unlock, err = recordfile.OnDisk(c.folder.kitchen).Lock(); err != nil {
		return c.cannot(err)
	}
	dir := c.folder.dir()
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return c.cannot(err)
	}
	sweep(dir, now)
	for _, p := range c.pages {
		path, err := config.WriteScratch(dir, 0o644, p.text)
		if err != nil {
			return c.cannot(err)
		}
		c.scratch = append(c.scratch, path)
	}
	return nil
}

// place moves every file to its place.
func (c *batchChange) place() error {
	if c.none() {
		return nil
	}
	for i, p := range c.pages {
		if err := os.Rename(c.scratch[i], c.folder.path(p.name)); err != nil {
			return c.cannot(err)
		}
	}
	for _, name := range c.drop {
		if err := os.Remove(c.folder.path(name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return c.cannot(err)
		}
	}
	config.SyncFolder(c.folder.dir())
	return nil
}

// end gives up the lock, and clears what was not moved.
func (c *batchChange) end() {
	if c == nil {
		return
	}
	for _, path := range c.scratch {
		os.Remove(path) // those that were moved are gone already
	}
	if c.unlock != nil {
		c.unlock()
	}
}

func (c *batchChange) cannot(err error) error {
	return other("what was made cannot be kept in %s: %w; the plan was not written", c.folder.dir(), config.WithoutPath(err))
}
