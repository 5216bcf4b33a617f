package cache

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
	"encoding/hex"
	"os"
	"path/filepath"
)

// form is the first line of a cache file; it changes with what follows it.
const form = "caseleaf cache 1\n"

// largest is the most bytes that are read of a cache file.
const largest = 2 << 30

// File is one value that is kept in a folder of the user's.
type File struct {
	name  string
	owner [sha256.Size]byte
}

// NewFile names a cache file in a folder. The owner is everything that must be
// the same for the value to be of use, such as [Program]; about says what the
// value is of, such as the bank's folder. An empty folder or owner gives a file
// that is never there and is never written.
func NewFile(folder, owner string, about ...string) File {
	if folder == "" || owner == "" {
		return File{}
	}
	all := sha256.New()
	for _, text := range about {
		part := sha256.Sum256([]byte(text))
		all.Write(part[:])
	}
	return File{
		name:  filepath.Join(folder, hex.EncodeToString(all.Sum(nil)[:12])+".cache"),
		owner: sha256.Sum256([]byte(owner)),
	}
}

// Name is the path of the file; "" where there is none.
func (f File) Name() string { return f.name }

// Load reads the value, a pointer, and reports whether it is to be believed. The
// value may be half filled when it is not.
func (f File) Load(value any) bool {
	if f.name == "" {
		return false
	}
	info, err := os.Lstat(f.name)
	if err != nil || !info.Mode().IsRegular() || info.Size() > largest {
		return false
	}
	data, err := os.ReadFile(f.name)
	if err != nil {
		return false
	}
	body, ok := f.opened(data)
	if !ok {
		return false
	}
	rest := bytes.NewReader(body)
	return gob.NewDecoder(rest).Decode(value) == nil && rest.Len() == 0
}

// opened checks the head of a file and the sum of its body.
func (f File) opened(data []byte) (body []byte, ok bool) {
	rest, ok := bytes.CutPrefix(data, []byte(form))
	if !ok || len(rest) < 2*sha256.Size {
		return nil, false
	}
	owner, rest := rest[:sha256.Size], rest[sha256.Size:]
	sum, body := rest[:sha256.Size], rest[sha256.Size:]
	return body, bytes.Equal(owner, f.owner[:]) && [sha256.Size]byte(sum) == sha256.Sum256(body)
}

// Save writes the value in the place of the last one. It appears whole or not at
// all. A cache that can't be written costs the next build time and nothing else,
// so callers may pass over the error.
func (f File) Save(value any) error {
	if f.name == "" {
		return nil
	}
	var body bytes.Buffer
	if err := gob.NewEncoder(&body).Encode(value); err != nil {
		return err
	}
	folder := filepath.Dir(f.name)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return err
	}
	fresh, err := os.CreateTemp(folder, filepath.Base(f.name)+"-*.part") // for the user alone to read
	if err != nil {
		return err
	}
	sum := sha256.Sum256(body.Bytes())
	for _, part := range [][]byte{[]byte(form), f.owner[:], sum[:], body.Bytes()} {
		if _, werr := fresh.Write(part); err == nil {
			err = werr
		}
	}
	if cerr := fresh.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Rename(fresh.Name(), f.name)
	}
	if err != nil {
		_ = os.Remove(fresh.Name())
	}
	return err
}

// Drop removes the file: what it says is about to become wrong.
func (f File) Drop() {
	if f.name != "" {
		_ = os.Remove(f.name)
	}
}
