package main

import (
	"os"
	"runtime/debug"
)

// memoryAim is the memory, in bytes, that a build tries to stay within: an old
// laptop has little. Near it, memory is collected more often and a build takes a
// little longer; a bank that needs more gets more.
const memoryAim = 480 << 20

// aimForMemory sets the aim, unless whoever runs the program has set one by the
// variable that Go itself reads.
func aimForMemory() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryAim)
	}
}
