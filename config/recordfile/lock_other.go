//go:build !windows && (!unix || solaris || illumos || aix)

package recordfile

import "os"

// lock gives no lock: this system has none of the kind.
func lock(*os.File, bool) error { return nil }

// writeOnce writes with one call as far as the system does.
func writeOnce(f *os.File, text []byte) (int, error) { return f.Write(text) }

// flushFolder does nothing where folders cannot be flushed.
func flushFolder(string) error { return nil }
