package recordfile

import "errors"

// Disk is the folder of a record as far as adding to it goes. It is an interface so that
// tests can lie: fail at the n-th write, be full, tear a line, or lose what was not
// flushed.
type Disk interface {
	// Lock takes the sole right to add; unlock gives it up. The system ends it with the
	// run, however the run ends. The error is ErrBusy when another run keeps it.
	Lock() (unlock func(), err error)
	// Names lists the folder's files; none where there is no folder.
	Names() ([]string, error)
	// Read gives a file whole. One beyond most bytes is an error.
	Read(name string, most int64) ([]byte, error)
	// Append opens a file to write at its end, and makes it where it is not there.
	Append(name string) (File, error)
	// Flush makes what files the folder has last through a power cut.
	Flush() error
}

// File is a file that is written at its end. Write writes once: what does not fit is not
// tried a second time.
type File interface {
	Write([]byte) (int, error)
	Sync() error
	Close() error
}

// ErrBusy says that another run keeps the lock.
var ErrBusy = errors.New("another ripeby is writing into the record just now")
