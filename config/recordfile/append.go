package recordfile

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"ripeby/config/fault"
	"ripeby/resources"
	"ripeby/schedule/record"
)

// Writer has the sole right to add to a record, from Begin to End. So what it knows of the
// record stays true until it has written.
//
// What a failed write may leave: the line whole, the line cut, or nothing. It is never
// tried again by the same Writer. Whoever sent a word with it (once) says it again, and the
// next Writer looks for that word first.
type Writer struct {
	disk   Disk
	unlock func()
	zone   *time.Location
	months map[string][]byte
	month  Month // all that could be read
	lastNr int
	failed error // of an earlier write
}

// Begin locks the record and reads it. The error is ErrBusy when another run keeps the
// lock. Lines that cannot be read keep nobody from adding: Faults has them.
func Begin(disk Disk, zone *time.Location) (w *Writer, err error) {
	unlock, err := disk.Lock()
	if err != nil {
		return nil, cannot(err)
	}
	defer func() {
		if err != nil {
			unlock()
		}
	}()
	w = &Writer{disk: disk, unlock: unlock, zone: zone, months: map[string][]byte{}}
	return w, w.read()
}

// Look reads a record without the right to add to it: to see what would be written.
func Look(disk Disk, zone *time.Location) (*Writer, error) {
	w := &Writer{disk: disk, unlock: func() {}, zone: zone, months: map[string][]byte{}, failed: errors.New("this was only to look")}
	return w, w.read()
}

// read reads all months.
func (w *Writer) read() error {
	names, err := w.disk.Names()
	if err != nil {
		return cannot(err)
	}
	for _, name := range InOrder(names) {
		if !OfMonth(name) {
			continue
		}
		text, err := w.disk.Read(name, MaxBytes)
		if err != nil {
			return cannot(err)
		}
		w.months[name] = text
		w.lastNr = max(w.lastNr, highest(text))
		m := Read(Below(name), text, w.zone)
		w.month.Entries = append(w.month.Entries, m.Entries...)
		w.month.Cut = append(w.month.Cut, m.Cut...)
		w.month.Faults = append(w.month.Faults, m.Faults...)
	}
	return nil
}

// End gives up the right to add.
func (w *Writer) End() { w.unlock() }

// Book is the record as it stands.
func (w *Writer) Book() *record.Book { return record.NewBook(w.month.Entries) }

// Faults are the lines that cannot be read, and those that were cut.
func (w *Writer) Faults() fault.Faults {
	return append(append(fault.Faults{}, w.month.Cut...), w.month.Faults...)
}

// numbered finds the number of a line, whatever else the line is.
var numbered = regexp.MustCompile(`(?m)^[ \t]*-[ \t]*\{[ \t]*"?nr"?[ \t]*:[ \t]*"?(\d{1,9})`)

// highest is the highest number in a file, of lines that are cut or wrong too: no number is
// given twice.
func highest(text []byte) int {
	last := 0
	for _, m := range numbered.FindAllSubmatch(text, -1) {
		n, _ := strconv.Atoi(string(m[1])) // nine digits at the most
		last = max(last, n)
	}
	return last
}

// Add puts entries down, numbered, in the order given, and gives them as they now stand. It
// comes back only when they are on the disk. An entry whose word was taken before is the
// one that was written then. day is the local date on which they are written.
//
// The error is [*NotKept] when something may have been written all the same.
func (w *Writer) Add(day resources.Date, entries ...record.Entry) ([]record.Entry, error) {
	if w.failed != nil {
		return nil, w.failed
	}
	p := page{name: monthOf(day)}
	old := w.months[p.name]
	if len(old) > 0 && old[len(old)-1] != '\n' {
		p.lines = append(p.lines, '\n') // the last line was cut, or written by hand
	}
	row := lineAfter(old) - 1
	added := make([]record.Entry, len(entries))
	for i, e := range entries {
		if before := w.taken(e.Once, added[:i]); before != nil {
			added[i] = *before
			p.again = append(p.again, strings.TrimPrefix(before.File, Folder+"/"))
			continue
		}
		row++
		e.Nr, e.File, e.Line = w.lastNr+len(p.fresh)+1, Below(p.name), row
		line := Line(e, w.zone) + "\n"
		if err := w.readable(line, &e); err != nil {
			return nil, err
		}
		p.lines = append(p.lines, line...)
		p.fresh = append(p.fresh, e)
		added[i] = e
	}
	if len(old)+len(p.lines) > MaxBytes {
		return nil, tooLarge(p.name)
	}
	if err := w.put(&p); err != nil {
		w.failed = &NotKept{err}
		return nil, w.failed
	}
	return added, nil
}

// lineAfter is the number of the line that comes after a text, from 1.
func lineAfter(text []byte) int {
	n := bytes.Count(text, []byte("\n")) + 1
	if len(text) > 0 && text[len(text)-1] != '\n' {
		n++
	}
	return n
}

// page is what is to be added to one month.
type page struct {
	name  string
	lines []byte
	fresh []record.Entry // that are new in it
	again []string       // files that hold what was taken before
}

// readable sees that a line gives the entry back: nothing is written that the next reading
// would refuse. Mended texts are the entry's own from then on.
func (w *Writer) readable(line string, e *record.Entry) error {
	m := Read(e.File, []byte(line), w.zone)
	if len(m.Faults) > 0 {
		return m.Faults
	}
	if len(m.Entries) != 1 {
		return fmt.Errorf("the line %s would not be read as an entry", line)
	}
	number := e.Line
	*e = m.Entries[0]
	e.Line = number
	return nil
}

// Taken finds the entry that was written with a word; nil for none, and for no word.
func (w *Writer) Taken(once string) *record.Entry { return w.taken(once, nil) }

// taken finds the entry with a word, on file or among those that are being added.
func (w *Writer) taken(once string, adding []record.Entry) *record.Entry {
	if once = mend(once); once == "" {
		return nil
	}
	for _, all := range [][]record.Entry{w.month.Entries, adding} {
		for i := range all {
			if all[i].Once == once {
				return &all[i]
			}
		}
	}
	return nil
}

// put adds a page with one write, and flushes it; and flushes what holds entries that were
// taken before, and the folder, whether or not a file in it is new: the run that made them
// may have died before it could.
func (w *Writer) put(p *page) error {
	if len(p.fresh) > 0 {
		if err := w.flushed(p.name, p.lines); err != nil {
			return err
		}
	}
	for i, name := range p.again {
		if slices.Contains(p.again[:i], name) || len(p.fresh) > 0 && name == p.name {
			continue
		}
		if err := w.flushed(name, nil); err != nil {
			return err
		}
	}
	if err := w.disk.Flush(); err != nil {
		return err
	}
	if len(p.fresh) > 0 {
		w.months[p.name] = append(w.months[p.name], p.lines...)
		w.month.Entries = append(w.month.Entries, p.fresh...)
		w.lastNr += len(p.fresh)
	}
	return nil
}

// flushed adds lines to a file, if there are any, and has the file on the disk.
func (w *Writer) flushed(name string, lines []byte) error {
	f, err := w.disk.Append(name)
	if err != nil {
		return err
	}
	if len(lines) > 0 {
		_, err = f.Write(lines)
	}
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// tooLarge says that a month has no room for more.
func tooLarge(name string) error {
	return fmt.Errorf("%s is larger than the limit of %d bytes, or would be", Below(name), MaxBytes)
}

// cannot says that the record cannot be read or added to.
func cannot(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		err = fmt.Errorf("%s: %w", path.Path, path.Err)
	}
	return fmt.Errorf("the record cannot be read: %w", err)
}

// NotKept says that adding failed on its way to the disk: the entries may be there, whole
// or cut, or not.
type NotKept struct{ Err error }

// Error says what to do before it is said again.
func (e *NotKept) Error() string {
	return "it may not have been kept: " + e.Err.Error()
}

// Unwrap gives the error of the disk.
func (e *NotKept) Unwrap() error { return e.Err }
