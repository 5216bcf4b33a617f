package pack

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Bounds of what is read of a file that anybody may have made.
const (
	maxManifest = 64 << 20 // bytes of a manifest
	maxEntries  = 200_000  // files in a zip
	maxListed   = 16 << 30 // bytes that a manifest may list
)

// entry is one thing in a copy.
type entry struct {
	name string
	odd  Kind // Linked, Unsafe or Damaged where it must not be read; "" otherwise
	open func() (io.ReadCloser, error)
}

// tree is a copy of a handout, opened: a zip or a folder.
type tree struct {
	entries []entry
	found   []Difference // what is wrong with the copy as a whole
	left    []string     // what a system leaves in folders, counted as no difference
	zip     *os.File     // nil for a folder
	// unreadable says that the zip has no list of its files that can be read.
	unreadable bool
	close      func() error
}

// openTree opens a zip or a folder. A zip that can't be read as one is no error:
// it opens with a [Damaged] difference and no entries.
func openTree(name string) (*tree, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return openFolder(name)
	case info.Mode().IsRegular():
		return openZip(name, info.Size())
	}
	return nil, fmt.Errorf("%s: %w", name, ErrNotHandout)
}

// openZip lists a zip. What doesn't begin as one is no handout.
func openZip(name string, size int64) (*tree, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	t := &tree{zip: f, close: f.Close}
	var mark [2]byte
	if _, err := io.ReadFull(f, mark[:]); err != nil || string(mark[:]) != "PK" {
		return nil, errors.Join(fmt.Errorf("%s: %w: it is neither a zip nor a folder", name, ErrNotHandout), f.Close())
	}
	r, err := zip.NewReader(f, size)
	if err != nil || len(r.File) > maxEntries {
		t.found, t.unreadable = []Difference{{Kind: Damaged}}, true
		return t, nil
	}
	for _, z := range r.File {
		if !emptyFolder(z) {
			t.entries = append(t.entries, entry{z.Name, oddity(z), z.Open})
		}
	}
	if !tight(f, size, r.File) {
		t.found = append(t.found, Difference{Kind: Hidden})
	}
	return t, nil
}

// emptyFolder reports an entry that only names a folder, as some programs write
// when they make a zip of one.
func emptyFolder(z *zip.File) bool {
	folder, ok := strings.CutSuffix(z.Name, "/")
	return ok && Unsafe(folder) == "" && z.UncompressedSize64 == 0 && z.CompressedSize64 == 0
}

// oddity says what keeps an entry from being read as a plain file.
func oddity(z *zip.File) Kind {
	switch {
	case Unsafe(z.Name) != "":
		return Unsafely
	case z.Mode()&fs.ModeSymlink != 0:
		return Linked
	case z.Flags&1 != 0 || z.Method != zip.Store && z.Method != zip.Deflate:
		return Damaged // enciphered, or packed in a way that caseleaf never uses
	}
	return ""
}

// openFolder lists a folder and follows no link in it.
func openFolder(name string) (*tree, error) {
	root, err := os.OpenRoot(name)
	if err != nil {
		return nil, err
	}
	t := &tree{close: root.Close}
	err = fs.WalkDir(root.FS(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		e := entry{name: path, open: func() (io.ReadCloser, error) { return root.Open(filepath.FromSlash(path)) }}
		switch {
		case leftovers[d.Name()]:
			t.left = append(t.left, path)
			return nil
		case !d.Type().IsRegular():
			e.odd = Linked
		}
		t.entries = append(t.entries, e)
		return nil
	})
	if err != nil {
		return nil, errors.Join(err, root.Close())
	}
	return t, nil
}

// leftovers are files that systems put into folders that people look at.
var leftovers = map[string]bool{".DS_Store": true, "Thumbs.db": true, "desktop.ini": true}
