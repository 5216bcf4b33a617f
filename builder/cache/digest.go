package cache

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
)

// ErrOdd is returned for a folder with what is neither a file nor a folder: what
// a link leads to can change without a sign in the folder.
var ErrOdd = errors.New("the folder holds a link or a device")

// input is one file that was summed up.
type input struct {
	name string
	sum  [sha256.Size]byte
}

// Digest sums up the names and bytes of all files of a folder, those whose names
// begin with a dot and folders for which skip is true left out. Each file is read
// in full; [Look] says when that can be spared. Errors are [ErrOdd] and those
// of the file system.
func Digest(files fs.FS, skip func(folder string) bool) (string, error) {
	var inputs []input
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case name != "." && strings.HasPrefix(d.Name(), "."), d.IsDir() && skip != nil && skip(name):
			if d.IsDir() {
				return fs.SkipDir
			}
		case d.IsDir():
			inputs = append(inputs, input{name: name + "/"})
		case d.Type().IsRegular():
			inputs = append(inputs, input{name: name})
		default:
			return fmt.Errorf("%s: %w", name, ErrOdd)
		}
		return nil
	})
	if err != nil {
		return "", err
	}
	if err := sumAll(files, inputs); err != nil {
		return "", err
	}
	slices.SortFunc(inputs, func(a, b input) int { return cmp.Compare(a.name, b.name) })
	all := sha256.New()
	for _, in := range inputs {
		name := sha256.Sum256([]byte(in.name)) // of one length, so that no two lists sum up alike
		all.Write(name[:])
		all.Write(in.sum[:])
	}
	return hex.EncodeToString(all.Sum(nil)), nil
}

// sumAll sums up the files among the inputs, on all processors.
func sumAll(files fs.FS, inputs []input) error {
	var next atomic.Int64
	var work sync.WaitGroup
	errs := make([]error, runtime.GOMAXPROCS(0))
	for worker := range errs {
		work.Go(func() {
			buffer := make([]byte, 64<<10)
			for i := int(next.Add(1)) - 1; i < len(inputs) && errs[worker] == nil; i = int(next.Add(1)) - 1 {
				if !strings.HasSuffix(inputs[i].name, "/") {
					inputs[i].sum, errs[worker] = sumOf(files, inputs[i].name, buffer)
				}
			}
		})
	}
	work.Wait()
	return errors.Join(errs...)
}

func sumOf(files fs.FS, name string, buffer []byte) (sum [sha256.Size]byte, err error) {
	f, err := files.Open(name)
	if err != nil {
		return sum, err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.CopyBuffer(h, struct{ io.Reader }{f}, buffer); err != nil {
		return sum, err
	}
	h.Sum(sum[:0])
	return sum, nil
}
