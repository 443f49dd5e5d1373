package readings

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"sync"
	"time"

	"ripeby/config/recordfile"
	"ripeby/resources"
	"ripeby/schedule/readings"
)

// Keeper adds readings to the files of one kitchen. Several, of several runs too, may add to the same files.
type Keeper struct {
	disk recordfile.Disk

	mu      sync.Mutex
	flushed string // the file that was last seen to be on the disk as it is
}

// NewKeeper adds to readings on a disk, such as [recordfile.InFolder] of [Folder].
func NewKeeper(disk recordfile.Disk) *Keeper { return &Keeper{disk: disk} }

// Keep adds a reading, unless its place has one of the same quarter of an hour, and reports whether it did.
// Either way there is one on the disk then. zone is the kitchen's, by which months begin.
//
// The error is [recordfile.ErrBusy] where another run keeps the lock. After any error nothing counts that was
// not whole, and the same may be sent again.
func (k *Keeper) Keep(line Line, zone *time.Location) (added bool, err error) {
	text, err := line.text(zone)
	if err != nil {
		return false, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	unlock, err := k.disk.Lock()
	if err != nil {
		return false, err
	}
	defer unlock()
	name := monthOf(line.At.DateIn(zone))
	old, err := k.disk.Read(name, MaxBytes)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return false, err
	}
	if has(old, line, zone) {
		if k.flushed == name {
			return false, nil
		}
		return false, k.put(name, old, "") // who wrote it may have died before it was on the disk
	}
	if text = joint(old) + text; len(old)+len(text) > MaxBytes {
		return false, fmt.Errorf("%s is as large as it may be (limit %d bytes)", below(name), MaxBytes)
	}
	return true, k.put(name, old, text)
}

// joint is what a new line begins with: the header, or what ends a last line that has no end.
func joint(old []byte) string {
	last := string(old[bytes.LastIndexByte(old, '\n')+1:])
	switch {
	case len(old) == 0:
		return header + "\n"
	case last == "":
		return ""
	case whole(strings.TrimSuffix(last, "\r")):
		return "\n"
	}
	return cutMark + "\n"
}

// has reports whether a place has a line of a quarter of an hour. Of the file only what is dated a day before
// to a day after is read, since some may be written with another offset.
func has(text []byte, line Line, zone *time.Location) bool {
	day := line.At.DateIn(zone)
	near := []string{day.AddDays(-1).String(), day.String(), day.AddDays(1).String()}
	p := parser{zone: zone}
	for row := range bytes.Lines(text) {
		row, ended := bytes.CutSuffix(row, []byte("\n"))
		begins := bytes.TrimLeft(row, "\ufeff \t\"")
		if !bytes.HasPrefix(begins, []byte(near[0])) && !bytes.HasPrefix(begins, []byte(near[1])) && !bytes.HasPrefix(begins, []byte(near[2])) {
			continue
		}
		if !ended && !whole(string(row)) {
			continue
		}
		other, read, _ := p.parse(string(row))
		if read && other.Place == line.Place && quarter(other.At) == quarter(line.At) {
			return true
		}
	}
	return false
}

// quarter is the number of a moment's quarter of an hour.
func quarter(m resources.Moment) int64 { return int64(m) / int64(readings.Quarter) }

// put adds a text to a file with one write, and has the file and the folder on the disk. What failed half way
// is taken out again as far as the disk lets it, and only what was added here.
func (k *Keeper) put(name string, old []byte, text string) error {
	k.flushed = ""
	f, err := k.disk.Append(name)
	if err != nil {
		return err
	}
	if text != "" {
		_, err = f.Write([]byte(text))
	}
	if err == nil {
		err = f.Sync()
	}
	if err != nil {
		err = errors.Join(err, takeOut(f, int64(len(old)), int64(len(text))))
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = k.disk.Flush()
	}
	if err == nil {
		k.flushed = name
	}
	return err
}

// shortened is a file that can be cut back.
type shortened interface {
	Stat() (fs.FileInfo, error)
	Truncate(int64) error
}

// takeOut cuts a file back to what it was before up to so many bytes were added; not where somebody else, who
// knows of no lock, has added to it since.
func takeOut(f recordfile.File, old, added int64) error {
	s, ok := f.(shortened)
	if !ok || added == 0 {
		return nil
	}
	info, err := s.Stat()
	if err != nil || info.Size() <= old || info.Size() > old+added {
		return err
	}
	return s.Truncate(old)
}
