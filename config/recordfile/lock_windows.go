package recordfile

import (
	"errors"
	"os"
	"syscall"
	"unsafe"
)

// lock locks a file for this run, alone or with others that only read. A file system that
// knows no locks gives none.
func lock(f *os.File, alone bool) error {
	const failAtOnce, exclusive = 1, 2
	const violation = syscall.Errno(33) // another has it
	how := uintptr(failAtOnce)
	if alone {
		how |= exclusive
	}
	var at syscall.Overlapped
	lockFileEx := syscall.NewLazyDLL("kernel32.dll").NewProc("LockFileEx")
	done, _, err := lockFileEx.Call(f.Fd(), how, 0, 1, 0, uintptr(unsafe.Pointer(&at)))
	if done == 0 && (errors.Is(err, violation) || errors.Is(err, syscall.ERROR_IO_PENDING)) {
		return ErrBusy
	}
	return nil
}

// writeOnce writes with one call.
func writeOnce(f *os.File, text []byte) (int, error) { return f.Write(text) }

// flushFolder has nothing to do: this system flushes a folder by itself.
func flushFolder(string) error { return nil }
