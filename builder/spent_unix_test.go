//go:build unix

package builder_test

import (
	"os"
	"runtime"
	"syscall"
	"time"
)

// spent is the processor time that this program has used: other work on the
// computer hardly lengthens it.
func spent() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// peak is the most memory that a program that has ended held, in MB; 0 where the
// system does not tell.
func peak(ended *os.ProcessState) int64 {
	u, ok := ended.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	most := int64(u.Maxrss) // KB, and bytes on one system
	if runtime.GOOS == "darwin" {
		most /= 1024
	}
	return most / 1024
}
