package main

import (
	"io"
	"os"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// progressAfter is how long work must take before progress is shown, so that a
// quick build stays quiet.
const progressAfter = 700 * time.Millisecond

// progress shows how far a build is, when it is long and somebody watches. The
// second function ends the display.
func progress(w io.Writer) (show func(done, total int), end func()) {
	file, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) {
		return nil, func() {}
	}
	var mu sync.Mutex
	var bar *progressbar.ProgressBar
	started := time.Now()
	show = func(done, total int) {
		mu.Lock()
		defer mu.Unlock()
		if bar == nil {
			if time.Since(started) < progressAfter {
				return
			}
			bar = progressbar.NewOptions(total, progressbar.OptionSetWriter(w), progressbar.OptionSetDescription("writing"),
				progressbar.OptionThrottle(100*time.Millisecond), progressbar.OptionClearOnFinish())
		}
		_ = bar.Set(done)
	}
	return show, func() {
		if bar != nil {
			_ = bar.Finish()
		}
	}
}
