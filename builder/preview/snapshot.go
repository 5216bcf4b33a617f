package preview

import (
	"crypto/sha256"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"caseleaf/builder"
)

// sourceEndings are the endings of files that a handout may be made from. Logs,
// editors' own files and the like are no sources, so they rebuild nothing.
var sourceEndings = map[string]bool{
	".md": true, ".yaml": true, ".yml": true, ".csv": true, ".tmpl": true, ".css": true, ".js": true,
	".jpg": true, ".jpeg": true, ".png": true, ".webp": true, ".gif": true, ".svg": true,
	".mp4": true, ".mov": true, ".vtt": true, ".srt": true, ".tgz": true,
}

// isSource reports whether a file of a bank, by its name, may be a source.
func isSource(name string) bool {
	base := path.Base(filepath.ToSlash(name))
	return !isSidecar(base) && sourceEndings[strings.ToLower(path.Ext(base))]
}

// isSidecar reports names that systems and editors give to files of their own.
func isSidecar(base string) bool {
	return strings.HasPrefix(base, ".") || strings.HasPrefix(base, "~") || strings.HasPrefix(base, "#") || strings.HasSuffix(base, "~")
}

// fileState is what is known of one source.
type fileState struct {
	size     int64
	modified time.Time
	sum      [sha256.Size]byte
}

// snapshot is the state of every source below a folder, by slash-separated path.
type snapshot map[string]fileState

// take looks at the folder. Files whose size and time are as before are not
// read again. A folder that is away for the moment has an empty snapshot.
func take(folder string, before snapshot) (snapshot, []string, error) {
	now, folders := snapshot{}, []string(nil)
	err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) {
			return nil // it went away between being listed and being looked at
		}
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name != folder && (isSidecar(d.Name()) || isHandout(name)) {
				return fs.SkipDir
			}
			folders = append(folders, name)
			return nil
		}
		if !d.Type().IsRegular() || !isSource(d.Name()) {
			return nil
		}
		rel, err := filepath.Rel(folder, name)
		if err != nil {
			return err
		}
		key := filepath.ToSlash(rel)
		info, err := d.Info()
		if err != nil {
			return gone(err)
		}
		state, err := look(name, info, before[key])
		if err == nil {
			now[key] = state
		}
		return gone(err)
	})
	return now, folders, err
}

// again is a later snapshot that differs from the first in the files of these
// names alone, and which of them do differ.
func (s snapshot) again(folder string, names map[string]bool) (now snapshot, changed []string, err error) {
	now = maps.Clone(s)
	for name := range names {
		rel, err := filepath.Rel(folder, name)
		if err != nil {
			return nil, nil, err
		}
		key := filepath.ToSlash(rel)
		before, had := s[key]
		state, has, err := lookAt(name, before)
		switch {
		case err != nil:
			return nil, nil, err
		case has:
			now[key] = state
		default:
			delete(now, key)
		}
		if had != has || before.sum != state.sum {
			changed = append(changed, key)
		}
	}
	return now, changed, nil
}

// lookAt is look for a file of which nothing is known but its name.
func lookAt(name string, before fileState) (state fileState, there bool, err error) {
	info, err := os.Lstat(name)
	if err != nil || !info.Mode().IsRegular() {
		return fileState{}, false, gone(err)
	}
	state, err = look(name, info, before)
	if err != nil {
		return fileState{}, false, gone(err)
	}
	return state, true, nil
}

// look returns the state of one file, reading it only when it may have changed.
func look(name string, info fs.FileInfo, before fileState) (fileState, error) {
	if info.Size() == before.size && info.ModTime().Equal(before.modified) {
		return before, nil
	}
	data, err := os.ReadFile(name)
	return fileState{info.Size(), info.ModTime(), sha256.Sum256(data)}, err
}

// gone turns the error of a file that has just gone away into none.
func gone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// isHandout reports a folder that a build wrote; one inside a bank is not a
// source of it.
func isHandout(folder string) bool {
	_, err := builder.ReadManifest(folder)
	return err == nil
}

// sum is the digest of a source's bytes.
func (s snapshot) sum(name string) ([sha256.Size]byte, bool) {
	state, ok := s[name]
	return state.sum, ok
}

// changed reports the sources that differ between two snapshots in what they
// hold. A new time alone is no change.
func (s snapshot) changed(now snapshot) []string {
	var list []string
	for name, state := range now {
		if old, ok := s[name]; !ok || old.sum != state.sum {
			list = append(list, name)
		}
	}
	for name := range s {
		if _, ok := now[name]; !ok {
			list = append(list, name)
		}
	}
	return list
}

// doubtful reports whether a change looks like a save that is not over: a file
// that is empty, away, or has lost much of its length.
func (s snapshot) doubtful(now snapshot, changed []string) bool {
	for _, name := range changed {
		old, had := s[name]
		state, has := now[name]
		if had && (!has || state.size == 0 || state.size < old.size*2/3) || !had && state.size == 0 {
			return true
		}
	}
	return false
}
