package config

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// What stands under a file's name is looked at before it is opened: a named pipe would keep
// the reader waiting for ever, a device may never end, and a link that leads nowhere is a
// file that somebody meant to be there, not one that is left out.

// NotRegular says that something else than a file stands under a name.
type NotRegular struct {
	What string // what it is, as in "this is a named pipe"
	Want string // what to do about it
}

// Error gives both in one line.
func (e *NotRegular) Error() string { return e.What + "; " + e.Want }

// ReadRegular reads the file at a path of the machine, most bytes and one more at the most.
// The error is [fs.ErrNotExist] only where nothing at all has the name, and [*NotRegular]
// where something else than a file has it.
func ReadRegular(path string, most int64) ([]byte, error) {
	dir, name := filepath.Split(path)
	return readRegular(os.DirFS(filepath.Clean(dir)), name, most)
}

// readRegular is [ReadRegular] below a folder.
func readRegular(fsys fs.FS, name string, most int64) ([]byte, error) {
	if err := look(fsys, name, false); err != nil {
		return nil, err
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most+1))
}

// look reports what stands under a name where that is not what is wanted: a folder, or else
// a file.
func look(fsys fs.FS, name string, folder bool) error {
	info, err := fs.Stat(fsys, name)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := fs.Lstat(fsys, name); err != nil {
			return fs.ErrNotExist // nothing has the name; or the file system knows no links
		}
		to, err := fs.ReadLink(fsys, name)
		if err != nil {
			return err
		}
		return &NotRegular{fmt.Sprintf("this is a link to %s, which is not there", clip(to)), "put that back, or take the link away"}
	}
	if err != nil {
		return err
	}
	kind, wanted := "", "file"
	switch mode := info.Mode(); {
	case mode.IsDir():
		kind = "a folder"
	case mode.IsRegular():
		kind = "a file"
	case mode&fs.ModeNamedPipe != 0:
		kind = "a named pipe"
	case mode&fs.ModeSocket != 0:
		kind = "a socket"
	case mode&fs.ModeDevice != 0:
		kind = "a device"
	default:
		kind = "no file of the usual kind"
	}
	if folder {
		wanted = "folder"
	}
	if kind == "a "+wanted {
		return nil
	}
	return &NotRegular{"this is " + kind, "move it away, and put a " + wanted + " in its place"}
}
