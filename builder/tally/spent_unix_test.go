//go:build unix

package tally_test

import (
	"syscall"
	"time"
)

// spent is the processor time that the program has used, its garbage collector's too: other
// work on the computer doesn't lengthen it.
func spent() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
