package builder

import (
	"cmp"
	"errors"
	"runtime"
	"slices"
	"sync"
)

// fill plans the pages of a site and writes every file, several at a time, while
// more are being planned.
func (g *stage) fill(made prepared) error {
	q := newQueue(made.site.Options.Progress)
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() { q.work(func(f file) error { return g.fillOne(made.site, f) }) })
	}
	q.end(made.rounds(q.add))
	workers.Wait()
	return q.err()
}

// fillOne carries a file over, or makes and writes it.
func (g *stage) fillOne(s *Site, f file) error {
	if done, err := s.past.carryInto(g, f.path, f.key); done || err != nil {
		return err
	}
	data, err := f.make()
	if err != nil {
		return err
	}
	if done, err := s.past.carrySame(g, s.keys, f, data); done || err != nil {
		return err
	}
	return g.write(f.path, f.key, data)
}

// queue holds the files that are planned and not yet taken. Those that keep much
// in memory are taken first, and no more are planned until they are: so there is
// never more of that than one planner makes.
type queue struct {
	mu       sync.Mutex
	changed  *sync.Cond
	heavy    []file
	light    []file
	over     bool // no more will be added
	errs     []error
	done     int
	total    int
	progress func(done, total int)
}

func newQueue(progress func(done, total int)) *queue {
	q := &queue{progress: progress}
	q.changed = sync.NewCond(&q.mu)
	return q
}

// errStopped says that work has ended with an error elsewhere.
var errStopped = errors.New("stopped")

// add takes files in and waits until all that are heavy are taken.
func (q *queue) add(files []file) error {
	q.mu.Lock()
	defer q.mu.Unlock()
	for _, f := range files {
		if f.light {
			q.light = append(q.light, f)
		} else {
			q.heavy = append(q.heavy, f)
		}
	}
	q.total += len(files)
	q.changed.Broadcast()
	for len(q.heavy) > 0 && len(q.errs) == 0 {
		q.changed.Wait()
	}
	if len(q.errs) > 0 {
		return errStopped
	}
	return nil
}

// end says that no more will be added, and what went wrong in planning.
func (q *queue) end(err error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	q.over = true
	if err != nil && err != errStopped {
		q.errs = append(q.errs, err)
	}
	q.changed.Broadcast()
}

// work does the files one after another until there are no more, or until one
// has failed.
func (q *queue) work(do func(file) error) {
	for {
		f, ok := q.take()
		if !ok {
			return
		}
		q.note(do(f))
	}
}

// take waits for a file.
func (q *queue) take() (f file, ok bool) {
	q.mu.Lock()
	defer q.mu.Unlock()
	for {
		switch {
		case len(q.errs) > 0:
			return file{}, false
		case len(q.heavy) > 0:
			f, q.heavy = pop(q.heavy)
			if len(q.heavy) == 0 {
				q.changed.Broadcast()
			}
			return f, true
		case len(q.light) > 0:
			f, q.light = pop(q.light)
			return f, true
		case q.over:
			return file{}, false
		}
		q.changed.Wait()
	}
}

// pop takes the first file off a list, which lets go of it.
func pop(list []file) (file, []file) {
	f := list[0]
	list[0] = file{}
	return f, list[1:]
}

// note counts a file that is done, or stops the work.
func (q *queue) note(err error) {
	q.mu.Lock()
	q.done++
	done, total := q.done, q.total
	if err != nil {
		q.errs = append(q.errs, err)
		q.changed.Broadcast()
	}
	q.mu.Unlock()
	if err == nil && q.progress != nil {
		q.progress(done, total)
	}
}

// err is what went wrong, in an order that does not depend on the processors.
func (q *queue) err() error {
	slices.SortFunc(q.errs, func(a, b error) int { return cmp.Compare(a.Error(), b.Error()) })
	return errors.Join(q.errs...)
}
