//go:build unix

package processor

import (
	"syscall"
	"time"
)

// Spent is the processor time that this process has taken; what is told is the difference of two.
func Spent() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
