//go:build !unix

package tally_test

import "time"

var started = time.Now()

// spent is the time that has passed, where the processor's isn't told.
func spent() time.Duration { return time.Since(started) }
