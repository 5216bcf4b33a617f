package builder

import (
	"io/fs"
	"os"
)

// disk is every call that a build makes to put a handout in its place. It is
// an interface so that a test can have each call fail, which no real disk does
// when it is asked to.
//
// The methods are those of package os of the same names, but for exchange.
type disk interface {
	Chmod(name string, mode fs.FileMode) error
	Link(from, to string) error
	Lstat(name string) (fs.FileInfo, error)
	MkdirAll(name string, mode fs.FileMode) error
	MkdirTemp(folder, pattern string) (string, error)
	ReadDir(name string) ([]fs.DirEntry, error)
	ReadFile(name string) ([]byte, error)
	Readlink(name string) (string, error)
	Remove(name string) error
	RemoveAll(name string) error
	Rename(from, to string) error
	Symlink(to, name string) error
	WriteFile(name string, data []byte, mode fs.FileMode) error
	// exchange puts the folder fresh in the place of old and old in the place of
	// fresh, in one step where the file system can.
	exchange(fresh, old string) error
}

// realDisk is the machine's.
type realDisk struct{}

func (realDisk) Chmod(name string, mode fs.FileMode) error    { return os.Chmod(name, mode) }
func (realDisk) Link(from, to string) error                   { return os.Link(from, to) }
func (realDisk) Lstat(name string) (fs.FileInfo, error)       { return os.Lstat(name) }
func (realDisk) MkdirAll(name string, mode fs.FileMode) error { return os.MkdirAll(name, mode) }
func (realDisk) MkdirTemp(folder, pattern string) (string, error) {
	return os.MkdirTemp(folder, pattern)
}
func (realDisk) ReadDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }
func (realDisk) ReadFile(name string) ([]byte, error)       { return os.ReadFile(name) }
func (realDisk) Readlink(name string) (string, error)       { return os.Readlink(name) }
func (realDisk) Remove(name string) error                   { return os.Remove(name) }
func (realDisk) RemoveAll(name string) error                { return os.RemoveAll(name) }
func (realDisk) Rename(from, to string) error               { return os.Rename(from, to) }
func (realDisk) Symlink(to, name string) error              { return os.Symlink(to, name) }
func (realDisk) WriteFile(name string, data []byte, m fs.FileMode) error {
	return os.WriteFile(name, data, m)
}
func (d realDisk) exchange(fresh, old string) error { return exchange(fresh, old) }
