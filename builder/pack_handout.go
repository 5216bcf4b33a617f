package builder

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"caseleaf/builder/pack"
	"caseleaf/content"
)

// Packed says what was packed.
type Packed struct {
	Summary
	File   string // where it is
	Size   int64  // bytes
	SHA256 string // of the file, for a receiver to compare
}

// ErrWontReplace is returned when the file to be written is there already and
// caseleaf did not write it.
var ErrWontReplace = errors.New("it is there already and caseleaf did not write it; name another file, or move it away")

// Pack builds a bank's handout afresh and writes it as a zip; options.Out is the
// zip's name. Nothing is packed that was not built and looked at for the purpose:
// the last look at the files, their names and the manifest is stopped by
// warnings too.
//
// The zip appears whole or not at all, and the same bank gives the same bytes.
// Errors are those of [Build] and [ErrWontReplace].
func Pack(bank *content.Bank, options Options) (Packed, error) {
	return packed(bank, options, isOurZip, func(w io.Writer, folder string) error {
		items, err := handoutItems(folder)
		if err != nil {
			return err
		}
		return pack.Write(w, items)
	})
}

// packed builds a handout into a folder that nobody else sees, lets write make
// one file of it, and puts that in its place.
func packed(bank *content.Bank, options Options, ours func(name string) (bool, error), write func(w io.Writer, folder string) error) (Packed, error) {
	p := Packed{File: options.out()}
	if err := mayReplace(p.File, ours); err != nil {
		return p, err
	}
	folder, err := os.MkdirTemp("", "caseleaf-pack-")
	if err != nil {
		return p, err
	}
	defer os.RemoveAll(folder)
	options.Out, options.Leaving, options.WithUnreleased = filepath.Join(folder, "handout"), true, false
	if p.Summary, err = Build(bank, options); err != nil {
		return p, err
	}
	sum := sha256.New()
	p.Size, err = wholeFile(p.File, func(w io.Writer) error {
		return write(io.MultiWriter(w, sum), options.Out)
	})
	p.SHA256 = hex.EncodeToString(sum.Sum(nil))
	return p, err
}

// first are the files that stand at the head of a zip, in this order: what a
// person should see first, and what a program checks the rest by.
var first = []string{startHereName, startPage, manifestName}

// handoutItems are the files of a handout in the order of a zip.
func handoutItems(folder string) ([]pack.Item, error) {
	m, err := ReadManifest(folder)
	if err != nil {
		return nil, err
	}
	names := []string{manifestName}
	for _, f := range m.Files {
		names = append(names, f.Path)
	}
	rank := func(name string) int {
		if i := slices.Index(first, name); i >= 0 {
			return i
		}
		return len(first)
	}
	slices.SortFunc(names, func(a, b string) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a, b)) })
	items := make([]pack.Item, len(names))
	for i, name := range names {
		items[i] = pack.Item{Name: name, Read: func() ([]byte, error) {
			return os.ReadFile(filepath.Join(folder, filepath.FromSlash(name)))
		}}
	}
	return items, nil
}

// mayReplace refuses to write over anything but an earlier file of caseleaf's.
func mayReplace(name string, ours func(name string) (bool, error)) error {
	info, err := os.Lstat(name)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil
	case err != nil:
		return err
	}
	if info.Mode().IsRegular() {
		if is, err := ours(name); is || err != nil {
			return err
		}
	}
	return fmt.Errorf("%s: %w", name, ErrWontReplace)
}

// isOurZip reports whether a file is a handout in a zip.
func isOurZip(name string) (bool, error) {
	_, err := pack.ReadManifest(name)
	if errors.Is(err, pack.ErrNotHandout) {
		return false, nil
	}
	return err == nil, err
}

// wholeFile writes a file whole or not at all, and returns its size.
func wholeFile(name string, write func(w io.Writer) error) (int64, error) {
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		return 0, err
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".caseleaf-new-*")
	if err != nil {
		return 0, err
	}
	err = write(f)
	if err == nil {
		err = f.Sync()
	}
	info, statErr := f.Stat()
	if err = errors.Join(err, statErr, f.Close()); err == nil {
		err = errors.Join(os.Chmod(f.Name(), 0o644), os.Rename(f.Name(), name))
	}
	if err != nil {
		return 0, errors.Join(err, os.Remove(f.Name()))
	}
	return info.Size(), nil
}
