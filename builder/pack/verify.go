package pack

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Kind is how a file of a copy differs from what was sent.
type Kind string

// The kinds, as they are told to people.
const (
	Changed  Kind = "changed" // other bytes than were sent
	Missing  Kind = "missing" // listed, and not there
	Extra    Kind = "extra"   // there, and not listed
	Twice    Kind = "twice"   // two entries that a disk may take for one
	Damaged  Kind = "damaged" // can't be read: cut short, a wrong check sum, enciphered
	Linked   Kind = "a link"  // a link or device in place of a file
	Unsafely Kind = "unsafe"  // a name that leads out of the folder, or that some system can't store
	Hidden   Kind = "hidden"  // bytes of a zip that belong to no file, or files that share bytes
)

// Difference is one thing that differs. Path is empty when it is the zip itself.
type Difference struct {
	Path string
	Kind Kind
}

// Report is what a check found.
type Report struct {
	Manifest    Manifest
	Files       int    // files that were sent as they are here
	Bytes       int64  // of those
	SHA256      string // of the zip file; empty for a folder
	Differences []Difference
	Left        []string // what a system left in the folder; no difference
}

// Verify holds a zip or folder to the manifest inside it, byte for byte.
//
// It says that the copy is what its manifest lists, not who made it: whoever
// changes a file can change the manifest too. To know that, compare the SHA-256
// of the zip with the one that the sender got.
//
// Errors are [ErrNotHandout] for what holds no manifest of caseleaf, and those
// of the file system.
func Verify(name string) (Report, error) {
	t, err := openTree(name)
	if err != nil {
		return Report{}, err
	}
	report, err := t.verify()
	if err != nil {
		err = fmt.Errorf("%s: %w", name, err)
	}
	return report, errors.Join(err, t.close())
}

func (t *tree) verify() (Report, error) {
	r := Report{Differences: t.found, Left: t.left}
	if t.zip != nil {
		sum, err := t.sum()
		if err != nil {
			return r, err
		}
		r.SHA256 = sum
	}
	if t.unreadable {
		return r, nil
	}
	m, damaged, err := t.manifest()
	if damaged {
		r.Differences = append(r.Differences, Difference{ManifestName, Damaged})
	}
	if damaged || err != nil {
		return r, err
	}
	r.Manifest = m
	return r, t.compare(&r)
}

// sum is the digest of the zip file itself.
func (t *tree) sum() (string, error) {
	if _, err := t.zip.Seek(0, io.SeekStart); err != nil {
		return "", err
	}
	h := sha256.New()
	if _, err := io.Copy(h, t.zip); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// manifest reads the copy's manifest; damaged says that it is there and can't be
// read.
func (t *tree) manifest() (m Manifest, damaged bool, err error) {
	for _, e := range t.entries {
		if e.name != ManifestName {
			continue
		}
		data, err := e.read(maxManifest)
		if broken(err) || e.odd != "" {
			return m, true, nil
		}
		if err != nil {
			return m, false, err
		}
		m, err = Decode(data)
		return m, false, err
	}
	return m, false, ErrNotHandout
}

// read returns at most limit bytes of an entry.
func (e entry) read(limit int64) ([]byte, error) {
	if e.odd != "" {
		return nil, nil
	}
	f, err := e.open()
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(f, limit))
	return data, errors.Join(err, f.Close())
}

// broken tells a fault of the copy from one of the machine.
func broken(err error) bool {
	var path *fs.PathError
	return err != nil && !errors.As(err, &path)
}

// compare holds every entry to the list and the list to the entries.
func (t *tree) compare(r *Report) error {
	listed := map[string]File{}
	room := int64(maxListed)
	for _, f := range r.Manifest.Files {
		if _, twice := listed[f.Path]; twice || f.Size < 0 || f.Size > room {
			r.Differences = append(r.Differences, Difference{ManifestName, Damaged})
			continue
		}
		room -= f.Size
		listed[f.Path] = f
	}
	seen, names := map[string]bool{}, map[string]bool{}
	for _, e := range t.entries {
		kind, err := e.against(listed, seen, names)
		if err != nil {
			return err
		}
		if kind != "" {
			r.Differences = append(r.Differences, Difference{e.name, kind})
		} else if e.name != ManifestName {
			r.Files++
			r.Bytes += listed[e.name].Size
		}
	}
	for path := range listed {
		if !seen[path] {
			r.Differences = append(r.Differences, Difference{path, Missing})
		}
	}
	slices.SortFunc(r.Differences, func(a, b Difference) int {
		return cmp.Or(cmp.Compare(a.Path, b.Path), cmp.Compare(a.Kind, b.Kind))
	})
	r.Differences = slices.Compact(r.Differences)
	return nil
}

// against says how one entry differs; "" when it doesn't.
func (e entry) against(listed map[string]File, seen, names map[string]bool) (Kind, error) {
	f, ours := listed[e.name]
	seen[e.name] = true
	twice := names[folded(e.name)]
	names[folded(e.name)] = true
	switch {
	case e.odd == Unsafely, e.odd == Linked:
		return e.odd, nil
	case twice:
		return Twice, nil
	case e.name == ManifestName:
		return "", nil
	case !ours:
		return Extra, nil
	case e.odd != "":
		return e.odd, nil
	}
	same, err := e.is(f)
	switch {
	case broken(err):
		return Damaged, nil
	case err != nil:
		return "", err
	case !same:
		return Changed, nil
	}
	return "", nil
}

// is reports whether an entry holds the bytes of a file. It reads one byte more
// than the file has, so a small entry that unpacks into much costs nothing.
func (e entry) is(f File) (bool, error) {
	r, err := e.open()
	if err != nil {
		return false, err
	}
	h := sha256.New()
	n, err := io.Copy(h, io.LimitReader(r, f.Size+1))
	same := n == f.Size && hex.EncodeToString(h.Sum(nil)) == f.SHA256
	return same, errors.Join(err, r.Close())
}

// ReadManifest reads the manifest of a handout: of the folder or zip that holds
// it, or the file itself. Errors are [ErrNotHandout] and those of the file
// system.
func ReadManifest(name string) (Manifest, error) {
	m, err := readManifest(name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		err = fmt.Errorf("%s: %w", name, err)
	}
	return m, err
}

func readManifest(name string) (Manifest, error) {
	if strings.EqualFold(filepath.Ext(name), ".json") {
		data, err := os.ReadFile(name)
		if err != nil {
			return Manifest{}, err
		}
		return Decode(data)
	}
	t, err := openTree(name)
	if err != nil {
		return Manifest{}, err
	}
	m, damaged, err := t.manifest()
	if damaged || t.unreadable {
		err = fmt.Errorf("%w that can be read: the copy is damaged", ErrNotHandout)
	}
	return m, errors.Join(err, t.close())
}
