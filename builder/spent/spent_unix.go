//go:build unix

package spent

import (
	"os"
	"runtime"
	"syscall"
	"time"
)

// Time is the processor time that this program has used, its garbage collector's
// too: other work on the computer hardly lengthens it.
func Time() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// Peak is the most memory that a program that has ended held, in MB; 0 where the
// system does not tell.
func Peak(ended *os.ProcessState) int64 {
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
