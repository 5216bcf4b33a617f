package content

import (
	"errors"
	"io/fs"
	"slices"
	"time"

	"caseleaf/content/diagnose"
)

// walked is what lies in a folder and in the folders below it, sorted.
type walked struct {
	files []string
	odd   []oddFile
	dirs  []dirSeen
	begun time.Time
}

// dirSeen is a folder and when something was last put into it, taken out or
// renamed.
type dirSeen struct {
	name    string
	changed time.Time
}

// settled is how long a folder must have stood unchanged when it was listed for its
// list to be believed later: longer than any disk's clock is coarse, or a server's
// is wrong by a little.
const settled = time.Minute

// stands reports whether all folders are as they were when they were listed.
func (w *walked) stands(fsys fs.FS) bool {
	for _, d := range w.dirs {
		if d.changed.IsZero() || w.begun.Sub(d.changed) < settled {
			return false
		}
		info, err := fs.Lstat(fsys, d.name)
		if err != nil || !info.IsDir() || !info.ModTime().Equal(d.changed) {
			return false
		}
	}
	return len(w.dirs) > 0
}

// oddFile is what is neither a file nor a folder.
type oddFile struct {
	name string
	mode fs.FileMode
}

// walk lists a folder and the folders below it. It looks once, and not at all where
// the last reading's list stands.
func (l *loader) walk(folder string) *walked {
	if w, done := l.walks[folder]; done {
		return w
	}
	if w := l.memo.list(folder); w != nil && w.stands(l.fsys) {
		l.walks[folder] = w
		return w
	}
	w := &walked{begun: time.Now()}
	if err := l.walkAll(folder, w); err != nil {
		l.fail(err)
		w.dirs = nil // not to be believed again
	}
	slices.Sort(w.files)
	l.walks[folder] = w
	return w
}

func (l *loader) walkAll(folder string, w *walked) error {
	info, err := fs.Lstat(l.fsys, folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case info.Mode()&fs.ModeSymlink != 0:
		l.bag.Error("not-read", diagnose.Span{Source: diagnose.NewSource(folder, nil)}, "%s is a link to another folder and is not read; put the folder itself there", quoteShort(folder))
		return nil
	}
	return fs.WalkDir(l.fsys, folder, func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case ignored(d.Name()) && name != folder:
			if d.IsDir() {
				return fs.SkipDir
			}
		case d.IsDir():
			return w.enter(name, d)
		case d.Type().IsRegular():
			w.files = append(w.files, name)
		default:
			w.odd = append(w.odd, oddFile{name, d.Type()})
		}
		return nil
	})
}

// enter notes a folder before it is listed.
func (w *walked) enter(name string, d fs.DirEntry) error {
	info, err := d.Info()
	if err == nil {
		w.dirs = append(w.dirs, dirSeen{name, info.ModTime()})
	}
	return err
}
