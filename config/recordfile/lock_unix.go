//go:build unix && !solaris && !illumos && !aix

package recordfile

import (
	"errors"
	"os"
	"syscall"
)

// lock locks a file for this run, alone or with others that only read. A file system that
// knows no locks gives none.
func lock(f *os.File, alone bool) error {
	how := syscall.LOCK_SH
	if alone {
		how = syscall.LOCK_EX
	}
	if err := syscall.Flock(int(f.Fd()), how|syscall.LOCK_NB); errors.Is(err, syscall.EWOULDBLOCK) {
		return ErrBusy
	}
	return nil
}

// writeOnce writes with one call; Go's own Write would go on with the rest.
func writeOnce(f *os.File, text []byte) (n int, err error) {
	raw, err := f.SyscallConn()
	if err != nil {
		return 0, err
	}
	failed := raw.Write(func(fd uintptr) bool {
		for {
			n, err = syscall.Write(int(fd), text)
			if !errors.Is(err, syscall.EINTR) { // nothing was written then
				return true
			}
		}
	})
	if failed != nil {
		err = failed
	}
	return max(n, 0), err
}

// flushFolder makes what a folder holds last through a power cut. Some file systems cannot
// do so, and say that the folder is no file for it.
func flushFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); !errors.Is(err, syscall.EINVAL) && !errors.Is(err, syscall.ENOTSUP) {
		return err
	}
	return nil
}
