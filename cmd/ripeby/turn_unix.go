//go:build unix && !solaris && !illumos && !aix

package main

import (
	"errors"
	"os"
	"syscall"
)

// lockFolder locks a folder for this run alone; unlock is nil when the folder is
// not there or its file system knows no locks. The error is errBusy.
func lockFolder(dir string) (unlock func(), err error) {
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, nil // to open a named pipe would wait for ever
	}
	d, err := os.Open(dir)
	if err != nil {
		return nil, nil // what else is wrong with it, writing will say
	}
	switch err := syscall.Flock(int(d.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); {
	case err == nil:
		return func() { d.Close() }, nil
	case errors.Is(err, syscall.EWOULDBLOCK):
		d.Close()
		return nil, errBusy
	}
	d.Close()
	return nil, nil
}
