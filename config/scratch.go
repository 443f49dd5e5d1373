package config

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// ScratchPattern is what a file is called until it is whole and moved to its place.
const ScratchPattern = ".ripeby-*.part"

// WriteScratch writes a file down to the disk under a scratch name.
func WriteScratch(dir string, mode fs.FileMode, text []byte) (path string, err error) {
	f, err := os.CreateTemp(dir, ScratchPattern)
	if err != nil {
		return "", err
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
		}
	}()
	_, err = f.Write(text)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	return f.Name(), errors.Join(err, f.Close())
}

// Put writes a file down to the disk and moves it to its place, whole or not at all. Just
// before the move it asks once more; nil for no question.
func Put(path string, mode fs.FileMode, text []byte, ask func() error) (err error) {
	scratch, err := WriteScratch(filepath.Dir(path), mode, text)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			os.Remove(scratch)
		}
	}()
	if ask != nil {
		if err := ask(); err != nil {
			return err
		}
	}
	if err := os.Rename(scratch, path); err != nil {
		return err
	}
	SyncFolder(filepath.Dir(path))
	return nil
}

// SyncFolder makes moves within the folder last through a power cut where the
// system can do so; where it cannot, the files themselves are still whole.
func SyncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		d.Close()
	}
}
