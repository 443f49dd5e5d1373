package config

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// ErrChanged means that a file is no longer what it was when it was read.
var ErrChanged = errors.New("the file has changed since it was read")

// WriteTargets puts a new text in place of the old one of a folder's targets.yaml,
// whole or not at all; the file keeps its permissions. A link stays a link: the file
// that it leads to is replaced. When the file does not hold the old text any more the
// error is [ErrChanged] and nothing is written.
//
// The look at the old text comes just before the move. An editor that saves between
// the two is overwritten; no file system offers a move that looks first.
func WriteTargets(folder string, oldText, newText []byte) error {
	path := filepath.Join(folder, targetsFile)
	if err := replace(path, oldText, newText); err != nil {
		return fmt.Errorf("%s is left as it was: %w", path, WithoutPath(err))
	}
	return nil
}

// replace writes the new text beside the file, down to the disk, and moves it to the
// file's place.
func replace(path string, oldText, newText []byte) (err error) {
	if path, err = filepath.EvalSymlinks(path); err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() {
		return errors.New("it is not a regular file")
	}
	return Put(path, info.Mode().Perm(), newText, func() error { return holds(path, oldText) })
}

// holds sees that a file holds a text and nothing else.
func holds(path string, text []byte) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	now, err := io.ReadAll(io.LimitReader(f, int64(len(text))+1))
	if err == nil && !bytes.Equal(now, text) {
		err = ErrChanged
	}
	return err
}
