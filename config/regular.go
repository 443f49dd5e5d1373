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

// TooLarge says that a file holds more than is read of it: its beginning alone may well be
// understood, and mean something else than the whole.
type TooLarge struct{ Most int64 }

// Error gives the limit, and what is to be done where nobody knows better.
func (e *TooLarge) Error() string {
	return fmt.Sprintf("this file is larger than the limit of %d bytes; take out what is not needed", e.Most)
}

// ReadRegular reads the file at a path of the machine. The error is [fs.ErrNotExist] only
// where nothing at all has the name, [*NotRegular] where something else than a file has it,
// and [*TooLarge] where the file has more than most bytes; no more than one beyond is read.
func ReadRegular(path string, most int64) ([]byte, error) {
	dir, name := filepath.Split(path)
	return ReadRegularFS(os.DirFS(filepath.Clean(dir)), name, most)
}

// ReadRegularFS is [ReadRegular] below a folder.
func ReadRegularFS(fsys fs.FS, name string, most int64) ([]byte, error) {
	if err := look(fsys, name, false); err != nil {
		return nil, err
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, most+1))
	if err == nil && int64(len(text)) > most {
		err = &TooLarge{most}
	}
	if err != nil {
		return nil, err
	}
	return text, nil
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
