package main

import (
	"errors"
	"io/fs"
	"os"
	"runtime"

	"ripeby/cmd/internal/authority"
	"ripeby/config"
)

// ownFiles keeps the server's own files beside the plan. They hold keys, so nobody
// but their owner may read them.
type ownFiles struct {
	out output
	say func(string)
}

// ownMost is how large such a file may be.
const ownMost = 4 << 20

// Read gives a file's bytes. One that others may read is closed to them, with a
// word about it.
func (o ownFiles) Read(name string) ([]byte, error) {
	text, err := config.ReadRegular(o.out.path(name), ownMost)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fs.ErrNotExist
	}
	var large *config.TooLarge
	if errors.As(err, &large) {
		return nil, other("%s is larger than the limit of %d bytes; put back a good copy of it, or take it away", o.out.path(name), large.Most)
	}
	var info fs.FileInfo
	if err == nil {
		info, err = os.Stat(o.out.path(name))
	}
	if err != nil {
		return nil, other("%s cannot be read: %w", o.out.path(name), config.WithoutPath(err))
	}
	if open := info.Mode().Perm() & 0o077; open != 0 && runtime.GOOS != "windows" {
		if err := os.Chmod(o.out.path(name), 0o600); err != nil {
			return nil, other("%s can be read by others, and this cannot be changed: %w", o.out.path(name), config.WithoutPath(err))
		}
		advice := "make new addresses with --new-addresses"
		if name == authority.File {
			advice = "remove it and take the authority back on each phone: then a new one is made"
		}
		o.say(o.out.path(name) + " could be read by others; now it cannot. If somebody may have read it, " + advice)
	}
	return text, nil
}

// Write puts a file in place, whole or not at all.
func (o ownFiles) Write(name string, text []byte) error {
	if err := os.MkdirAll(o.out.dir, 0o777); err != nil {
		return o.out.cannot(err)
	}
	if err := config.Put(o.out.path(name), 0o600, text, nil); err != nil {
		return o.out.cannot(err)
	}
	return nil
}
