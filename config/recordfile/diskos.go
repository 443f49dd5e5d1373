package recordfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"time"
)

// osDisk is the folder of a record on the machine's own disk.
type osDisk struct{ dir string }

// OnDisk is the record of a kitchen folder. The folder record in it is made when something
// is first added.
func OnDisk(kitchen string) Disk { return InFolder(kitchen, Folder) }

// InFolder is another folder of a kitchen folder that is added to in the same way.
func InFolder(kitchen, folder string) Disk { return osDisk{filepath.Join(kitchen, folder)} }

// lockFile is what is locked. It stays, empty: to take it away would let two runs hold a
// lock of the same name.
const lockFile = ".lock"

// Another run adds a line within milliseconds, so a few seconds are waited for its end.
const (
	lockTries = 200
	lockPause = 25 * time.Millisecond
)

// Lock makes the folder where it is not there, and locks it.
func (d osDisk) Lock() (func(), error) {
	if err := d.makeFolder(); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(filepath.Join(d.dir, lockFile), os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	if err := lockPatiently(f, true); err != nil {
		f.Close()
		return nil, err
	}
	return func() { f.Close() }, nil
}

// Shared waits until nobody adds to the record of a kitchen folder, and keeps it so until
// done: a line that is half written would look like one that was cut. Where there is no
// record, or the folder cannot be written to, there is nothing to wait for.
func Shared(kitchen string) (done func(), err error) { return SharedIn(kitchen, Folder) }

// SharedIn is the same of another folder of a kitchen folder.
func SharedIn(kitchen, folder string) (done func(), err error) {
	f, err := os.OpenFile(filepath.Join(kitchen, folder, lockFile), os.O_RDWR, 0)
	if err != nil {
		return func() {}, nil
	}
	if err := lockPatiently(f, false); err != nil {
		f.Close()
		return nil, err
	}
	return func() { f.Close() }, nil
}

func lockPatiently(f *os.File, alone bool) error {
	for try := 1; ; try++ {
		err := lock(f, alone)
		if !errors.Is(err, ErrBusy) || try == lockTries {
			return err
		}
		time.Sleep(lockPause)
	}
}

// makeFolder makes the folder, and flushes the one that it stands in.
func (d osDisk) makeFolder() error {
	err := os.Mkdir(d.dir, 0o777)
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	if err != nil {
		return err
	}
	return flushFolder(filepath.Dir(d.dir))
}

// Names lists files, in the order of their names.
func (d osDisk) Names() ([]string, error) {
	entries, err := os.ReadDir(d.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	var names []string
	for _, e := range entries {
		if !e.IsDir() {
			names = append(names, e.Name())
		}
	}
	return names, err
}

// Read opens only what is a file: a named pipe would keep the reader waiting for ever.
func (d osDisk) Read(name string, most int64) ([]byte, error) {
	full := filepath.Join(d.dir, name)
	if info, err := os.Stat(full); err != nil {
		return nil, err
	} else if !info.Mode().IsRegular() {
		return nil, &fs.PathError{Op: "read", Path: full, Err: errors.New("this is no file of the usual kind")}
	}
	f, err := os.Open(full)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(text)) > most {
		err = fmt.Errorf("%s is larger than the limit of %d bytes", path.Join(filepath.Base(d.dir), name), most)
	}
	return text, err
}

// Append opens a file at its end.
func (d osDisk) Append(name string) (File, error) {
	f, err := os.OpenFile(filepath.Join(d.dir, name), os.O_WRONLY|os.O_APPEND|os.O_CREATE, 0o644)
	if err != nil {
		return nil, err
	}
	return onceFile{f}, nil
}

// Flush flushes the folder itself.
func (d osDisk) Flush() error { return flushFolder(d.dir) }

// onceFile writes with a single call of the system.
type onceFile struct{ *os.File }

// Write leaves what was not written for nobody: a second half, written later, could end
// behind somebody else's line.
func (f onceFile) Write(text []byte) (int, error) {
	n, err := writeOnce(f.File, text)
	if err == nil && n < len(text) {
		err = io.ErrShortWrite
	}
	return n, err
}
