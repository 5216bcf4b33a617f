package preview

import (
	"context"
	"fmt"
	"path/filepath"
	"time"

	"github.com/fsnotify/fsnotify"
)

// lookEvery is how often the folder is looked at without any event: where the
// system gives none (network drives, shared folders, too many watches), and for
// what events may have missed. A folder that takes long to look at is looked at
// less often; see spare.
const (
	lookEvery = time.Second
	spare     = 20 // at most this part of a processor's time is spent on looking
)

// watcher tells when a source of the bank may have changed.
type watcher struct {
	events *fsnotify.Watcher // nil where the system gives no events
	say    func(string)
	told   changes
}

// changes are the sources that may have changed.
type changes struct {
	names map[string]bool // as the system names them
	all   bool            // any may have, and folders too
}

// name takes in what an event names. Only of sources it is known that nothing else
// has changed.
func (c *changes) name(name string) {
	if !isSource(name) {
		c.all = true
		return
	}
	if c.names == nil {
		c.names = map[string]bool{}
	}
	c.names[name] = true
}

// add takes in other changes.
func (c *changes) add(more changes) {
	for name := range more.names {
		c.name(name)
	}
	c.all = c.all || more.all
}

func newWatcher(say func(string)) *watcher {
	w := &watcher{say: say}
	var err error
	if w.events, err = fsnotify.NewWatcher(); err != nil {
		w.fallBack(err)
	}
	return w
}

// fallBack gives events up and says so once.
func (w *watcher) fallBack(err error) {
	w.say(fmt.Sprintf("The system tells of no changes here (%v); the bank is looked at every second instead.", err))
	if w.events != nil {
		_ = w.events.Close()
	}
	w.events, w.told.all = nil, true
}

// follow watches the folders. Every folder is named again each time: one that
// was moved away and back is another folder to the system.
func (w *watcher) follow(folders []string) {
	for _, folder := range folders {
		if w.events == nil {
			return
		}
		if err := w.events.Add(folder); gone(err) != nil {
			w.fallBack(err)
		}
	}
}

// heard gives what events have told since it was last asked.
func (w *watcher) heard() changes {
	told := w.told
	w.told = changes{}
	return told
}

// next waits until a source may have changed, until the wait is over, or until
// the context ends. It reports whether an event came. Events of files that are
// no sources are passed over, however many there are.
func (w *watcher) next(ctx context.Context, wait time.Duration) bool {
	timer := time.NewTimer(wait)
	defer timer.Stop()
	for {
		var events chan fsnotify.Event
		var errs chan error
		if w.events != nil {
			events, errs = w.events.Events, w.events.Errors
		}
		select {
		case <-ctx.Done():
			return false
		case <-timer.C:
			return false
		case e, ok := <-events:
			if !ok {
				w.events, w.told.all = nil, true
			} else if isSource(e.Name) || filepath.Ext(e.Name) == "" && !isSidecar(filepath.Base(e.Name)) {
				w.told.name(e.Name) // a source, or perhaps a folder
				return true
			}
		case err, ok := <-errs:
			if ok {
				w.fallBack(err)
			}
		}
	}
}

func (w *watcher) close() {
	if w.events != nil {
		_ = w.events.Close()
	}
}
