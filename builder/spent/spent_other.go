//go:build !unix

package spent

import (
	"os"
	"time"
)

var begun = time.Now()

// Time is the time that has passed, where the processor's isn't told.
func Time() time.Duration { return time.Since(begun) }

// Peak is not told here: 0.
func Peak(*os.ProcessState) int64 { return 0 }
