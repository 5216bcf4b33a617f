package builder

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"github.com/gofrs/flock"
)

// stage is a folder beside the handout in which the new one is made.
type stage struct {
	out    string // the handout's folder
	folder string // where files are written until the exchange
	lock   *flock.Flock

	gate *outputGate // looks at every file before it is written

	mu    sync.Mutex
	files []ManifestFile
	made  map[string]bool // folders
}

// stagePrefix begins the names of the folders that builds work in. One that is
// left after a crash is removed by the next build.
const stagePrefix = ".caseleaf-new-"

func newStage(out string) (*stage, error) {
	out, err := filepath.Abs(out)
	if err != nil {
		return nil, err
	}
	if err := checkOut(out); err != nil {
		return nil, err
	}
	parent := filepath.Dir(out)
	if err := os.MkdirAll(parent, 0o777); err != nil {
		return nil, err
	}
	lock, err := lockHandout(out)
	if err != nil {
		return nil, err
	}
	g := &stage{out: out, lock: lock, made: map[string]bool{}}
	if g.folder, err = freshFolder(parent, stagePrefix+filepath.Base(out)+"-"); err != nil {
		return nil, errors.Join(err, lock.Unlock())
	}
	return g, nil
}

// freshFolder makes a folder to work in, after removing what a build that was
// killed left there. The caller holds the handout's lock, so none is in use.
func freshFolder(parent, prefix string) (string, error) {
	list, err := os.ReadDir(parent)
	if err != nil {
		return "", err
	}
	for _, d := range list {
		number, ours := strings.CutPrefix(d.Name(), prefix)
		if d.IsDir() && ours && strings.Trim(number, "0123456789") == "" {
			if err := os.RemoveAll(filepath.Join(parent, d.Name())); err != nil {
				return "", err
			}
		}
	}
	folder, err := os.MkdirTemp(parent, prefix)
	if err != nil {
		return "", err
	}
	return folder, os.Chmod(folder, 0o755)
}

// write writes one file of the new handout; path is slash-separated.
func (g *stage) write(path string, data []byte) error {
	g.gate.look(path, data)
	full := filepath.Join(g.folder, filepath.FromSlash(path))
	if err := g.makeFolder(filepath.Dir(full)); err != nil {
		return err
	}
	if err := os.WriteFile(full, data, 0o644); err != nil {
		return err
	}
	sum := sha256.Sum256(data)
	g.mu.Lock()
	g.files = append(g.files, ManifestFile{Path: path, Size: int64(len(data)), SHA256: hex.EncodeToString(sum[:])})
	g.mu.Unlock()
	return nil
}

func (g *stage) makeFolder(folder string) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.made[folder] {
		return nil
	}
	g.made[folder] = true
	return os.MkdirAll(folder, 0o755)
}

// seal writes the manifest of all files written so far; it is looked at like
// every other file.
func (g *stage) seal(m Manifest) error {
	slices.SortFunc(g.files, func(a, b ManifestFile) int { return cmp.Compare(a.Path, b.Path) })
	m.Files = g.files
	manifest := m.Encode()
	g.gate.look(manifestName, manifest)
	return os.WriteFile(filepath.Join(g.folder, manifestName), manifest, 0o644)
}

// publish carries over what others put into the old handout and exchanges the
// folders.
func (g *stage) publish() error {
	old, err := ReadManifest(g.out)
	if errors.Is(err, fs.ErrNotExist) {
		// The folder is missing or empty; an empty one makes room.
		if err := os.Remove(g.out); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		return os.Rename(g.folder, g.out)
	}
	if err != nil {
		return err
	}
	if err := g.carryOver(old); err != nil {
		return err
	}
	return exchange(g.folder, g.out)
}

// carryOver copies files of the old handout's folder that caseleaf did not
// write into the new one, where their names are free.
func (g *stage) carryOver(old Manifest) error {
	ours := map[string]bool{manifestName: true}
	for _, f := range old.Files {
		ours[f.Path] = true
	}
	return filepath.WalkDir(g.out, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(g.out, name)
		if err != nil || ours[filepath.ToSlash(rel)] {
			return err
		}
		target := filepath.Join(g.folder, rel)
		if d.IsDir() {
			return os.MkdirAll(target, 0o755) // an empty one may matter to whoever made it
		}
		if _, err := os.Lstat(target); err == nil {
			return fmt.Errorf("%w: %s was not written by caseleaf and would be overwritten; move it away first", ErrForeignFolder, name)
		}
		if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
			return err
		}
		return carry(name, target, d.Type())
	})
}

// carry puts one file of somebody else's into the new folder: a link as a link,
// never followed, and a file as a second name for it, or as a copy.
func carry(name, target string, mode fs.FileMode) error {
	if mode&fs.ModeSymlink != 0 {
		to, err := os.Readlink(name)
		if err != nil {
			return err
		}
		return os.Symlink(to, target)
	}
	if os.Link(name, target) == nil || !mode.IsRegular() {
		return nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	return os.WriteFile(target, data, 0o644)
}

// discard removes the folder the stage worked in, which after an exchange
// holds the old handout, and lets the next build begin.
func (g *stage) discard() {
	_ = os.RemoveAll(g.folder)
	_ = g.lock.Unlock()
}
