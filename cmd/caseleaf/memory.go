package main

import (
	"os"
	"runtime/debug"
)

// memoryAim is the memory, in bytes, that a build tries to stay within: an old
// laptop has little. Far from it, memory is collected when it has grown by so
// many per cent; near it, more often. A bank that needs more gets more.
//
// While a bank is read, what stays is laid down among what is soon thrown away.
// Collected often, it lies close together; collected seldom, it leaves gaps that
// take memory to the end.
const (
	memoryAim  = 530 << 20
	whileRead  = 50
	afterwards = 200 // less time than with Go's own 100
)

// aimForMemory sets the aim for a command that is about to read a bank; call what
// it gives back when the bank is read. It does nothing when whoever runs the
// program has set an aim by the variables that Go itself reads.
func aimForMemory() (bankIsRead func()) {
	if os.Getenv("GOMEMLIMIT") != "" || os.Getenv("GOGC") != "" {
		return func() {}
	}
	debug.SetGCPercent(whileRead)
	debug.SetMemoryLimit(memoryAim)
	return func() { debug.SetGCPercent(afterwards) }
}
