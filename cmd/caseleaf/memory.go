package main

import (
	"os"
	"runtime/debug"
)

// memoryAim is the memory, in bytes, that a build tries to stay within: an old
// laptop has little. Far from it, memory is collected when it has grown by
// collectAt per cent, which takes less time than Go's own 100; near it, more often.
// A bank that needs more gets more.
const (
	memoryAim = 480 << 20
	collectAt = 200
)

// aimForMemory sets the aim, unless whoever runs the program has set one by the
// variables that Go itself reads.
func aimForMemory() {
	if os.Getenv("GOMEMLIMIT") == "" && os.Getenv("GOGC") == "" {
		debug.SetGCPercent(collectAt)
		debug.SetMemoryLimit(memoryAim)
	}
}
