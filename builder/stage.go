package builder

import (
	"cmp"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"caseleaf/builder/cache"

	"github.com/gofrs/flock"
)

// stage is a folder beside the handout in which the new one is made.
type stage struct {
	disk   disk
	out    string // the handout's folder
	folder string // where files are written until the exchange
	lock   *flock.Flock

	gate *outputGate // looks at every file before it is written

	mu    sync.Mutex
	files []ManifestFile
	kept  map[string]kept // files that a later build may carry over, by path
	count int             // of files carried over
	made  map[string]bool // folders

	stamps map[string]cache.Stamp // of all files, as they were when they were written
}

// stagePrefix begins the names of the folders that builds work in. One that is
// left after a crash is removed by the next build.
const stagePrefix = ".caseleaf-new-"

func newStage(d disk, out string) (*stage, error) {
	out, err := filepath.Abs(out)
	if err != nil {
		return nil, err
	}
	if err := checkOut(d, out); err != nil {
		return nil, err
	}
	parent := filepath.Dir(out)
	if err := d.MkdirAll(parent, 0o777); err != nil {
		return nil, err
	}
	lock, err := lockHandout(out)
	if err != nil {
		return nil, err
	}
	g := &stage{disk: d, out: out, lock: lock, kept: map[string]kept{}, made: map[string]bool{}, stamps: map[string]cache.Stamp{}}
	if err := putBack(d, out); err != nil {
		return nil, errors.Join(err, lock.Unlock())
	}
	if g.folder, err = freshFolder(d, parent, stagePrefix+filepath.Base(out)+"-"); err != nil {
		return nil, errors.Join(err, lock.Unlock())
	}
	return g, nil
}

// freshFolder makes a folder to work in, after removing what a build that was
// killed left there. The caller holds the handout's lock, so none is in use.
func freshFolder(disk disk, parent, prefix string) (string, error) {
	list, err := disk.ReadDir(parent)
	if err != nil {
		return "", err
	}
	for _, d := range list {
		number, ours := strings.CutPrefix(d.Name(), prefix)
		if d.IsDir() && ours && strings.Trim(number, "0123456789") == "" {
			if err := disk.RemoveAll(filepath.Join(parent, d.Name())); err != nil {
				return "", err
			}
		}
	}
	folder, err := disk.MkdirTemp(parent, prefix)
	if err != nil {
		return "", err
	}
	if err := disk.Chmod(folder, 0o755); err != nil {
		return "", errors.Join(err, disk.RemoveAll(folder))
	}
	return folder, nil
}

// write writes one file of the new handout; path is slash-separated. One that the
// last look finds something in is not kept, so that every build finds it again.
func (g *stage) write(path, key string, data []byte) error {
	clean := g.gate.look(path, data)
	full := filepath.Join(g.folder, filepath.FromSlash(path))
	if err := g.makeFolder(filepath.Dir(full)); err != nil {
		return err
	}
	if err := g.disk.WriteFile(full, data, 0o644); err != nil {
		return err
	}
	stamp, _ := stampIn(g.disk, g.folder, path)
	f := ManifestFile{Path: path, Size: int64(len(data)), SHA256: sumOf(data)}
	g.add(f, stamp)
	if clean {
		g.keep(f, key)
	}
	return nil
}

// add lists a file of the new handout.
func (g *stage) add(f ManifestFile, stamp cache.Stamp) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.files = append(g.files, f)
	g.stamps[f.Path] = stamp
}

// keep notes a file for later builds to carry over.
func (g *stage) keep(f ManifestFile, key string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.kept[f.Path] = kept{Key: key, SHA256: f.SHA256, Size: f.Size}
}

func (g *stage) makeFolder(folder string) error {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.made[folder] {
		return nil
	}
	if err := g.disk.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	g.made[folder] = true
	return nil
}

// seal writes the manifest of all files written so far; it is looked at like
// every other file.
func (g *stage) seal(m Manifest) error {
	slices.SortFunc(g.files, func(a, b ManifestFile) int { return cmp.Compare(a.Path, b.Path) })
	m.Files = g.files
	manifest := m.Encode()
	g.gate.look(manifestName, manifest)
	if err := g.disk.WriteFile(filepath.Join(g.folder, manifestName), manifest, 0o644); err != nil {
		return err
	}
	g.stamps[manifestName], _ = stampIn(g.disk, g.folder, manifestName)
	return nil
}

// publish carries over what others put into the old handout and exchanges the
// folders.
func (g *stage) publish() error {
	old, err := readManifest(g.disk, g.out)
	if errors.Is(err, fs.ErrNotExist) {
		// The folder is missing or empty; an empty one makes room.
		if err := g.disk.Remove(g.out); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		return g.disk.Rename(g.folder, g.out)
	}
	if err != nil {
		return err
	}
	if err := g.carryOver(old); err != nil {
		return err
	}
	return g.disk.exchange(g.folder, g.out)
}

// discard removes the folder the stage worked in, which after an exchange
// holds the old handout, and lets the next build begin.
func (g *stage) discard() {
	_ = g.disk.RemoveAll(g.folder)
	_ = g.lock.Unlock()
}
