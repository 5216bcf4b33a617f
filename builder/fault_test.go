package builder

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"caseleaf/builder/pack"
	"caseleaf/casebank"
	"caseleaf/content"
)

// faults are how a disk fails: what somebody's folder, a full stick, a worn one
// and a file that vanished answer.
var faults = []error{fs.ErrPermission, syscall.ENOSPC, syscall.EIO, fs.ErrNotExist}

// TestEveryDiskCallFails builds over an earlier handout, which somebody put
// files of their own into, once for every call the build makes of the disk, and
// has that call fail. Whatever fails, a handout stands there whole: the old one
// where the build reports an error, the new one where it doesn't. Nothing is
// left behind, and the next build succeeds.
//
// CASELEAF_FAULTS=all tries each call with each fault, demo does so with the
// demonstration bank, which takes an hour.
func TestEveryDiskCallFails(t *testing.T) {
	bank, whole := fs.FS(faultBank()), os.Getenv("CASELEAF_FAULTS") == "demo"
	if whole {
		bank = casebank.FS()
	}
	for _, inOneStep := range []bool{true, false} {
		trial := newFaultTrial(t, bank, whole, inOneStep)
		calls := trial.calls(t)
		t.Logf("in one step %v: %d calls", inOneStep, len(calls))
		for i, call := range calls {
			for k, fault := range faults {
				if os.Getenv("CASELEAF_FAULTS") != "" || i%len(faults) == k {
					trial.fail(t, call, fault)
				}
			}
		}
	}
}

func faultBank() fstest.MapFS {
	return fstest.MapFS{
		"bank.yaml": {Data: []byte("title: A disk that fails\n")},
		"cases/ab-1.md": {Data: []byte("---\ncase: AB-1\ntitle: About one\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\n" +
			"timeline: [{at: 0:10, step: paracentesis}]\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, " +
			"text_in_pictures: no, sound: none, otherwise_findable: no}\n---\nOne.\n")},
	}
}

// diskCall is one call of a build: what it asked, and of which name. The folder
// that the build works in has another name every time; it is written as "new".
type diskCall struct{ op, name string }

// faultyDisk asks fault before every call, and does the call where that is nil.
type faultyDisk struct {
	disk
	inOneStep bool // whether it can exchange two folders in one step
	fault     func(diskCall) error

	mu   sync.Mutex
	made string // the folder of MkdirTemp
}

func (d *faultyDisk) ask(op, name string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.made != "" {
		name = strings.Replace(name, d.made, "new", 1)
	}
	if err := d.fault(diskCall{op, name}); err != nil {
		return &fs.PathError{Op: op, Path: name, Err: err}
	}
	return nil
}

// asked does a call that only returns an error, unless it is to fail.
func (d *faultyDisk) asked(op, name string, call func() error) error {
	if err := d.ask(op, name); err != nil {
		return err
	}
	return call()
}

// askedFor does a call that also returns something, unless it is to fail.
func askedFor[T any](d *faultyDisk, op, name string, call func() (T, error)) (T, error) {
	if err := d.ask(op, name); err != nil {
		var none T
		return none, err
	}
	return call()
}

func (d *faultyDisk) Chmod(name string, mode fs.FileMode) error {
	return d.asked("chmod", name, func() error { return d.disk.Chmod(name, mode) })
}

func (d *faultyDisk) Link(from, to string) error {
	return d.asked("link", to, func() error { return d.disk.Link(from, to) })
}

func (d *faultyDisk) Lstat(name string) (fs.FileInfo, error) {
	return askedFor(d, "lstat", name, func() (fs.FileInfo, error) { return d.disk.Lstat(name) })
}

func (d *faultyDisk) MkdirAll(name string, mode fs.FileMode) error {
	return d.asked("mkdir", name, func() error { return d.disk.MkdirAll(name, mode) })
}

func (d *faultyDisk) MkdirTemp(folder, pattern string) (string, error) {
	name, err := askedFor(d, "mkdirtemp", folder, func() (string, error) { return d.disk.MkdirTemp(folder, pattern) })
	d.mu.Lock()
	d.made = name
	d.mu.Unlock()
	return name, err
}

func (d *faultyDisk) ReadDir(name string) ([]fs.DirEntry, error) {
	return askedFor(d, "readdir", name, func() ([]fs.DirEntry, error) { return d.disk.ReadDir(name) })
}

func (d *faultyDisk) ReadFile(name string) ([]byte, error) {
	return askedFor(d, "read", name, func() ([]byte, error) { return d.disk.ReadFile(name) })
}

func (d *faultyDisk) Readlink(name string) (string, error) {
	return askedFor(d, "readlink", name, func() (string, error) { return d.disk.Readlink(name) })
}

func (d *faultyDisk) Remove(name string) error {
	return d.asked("remove", name, func() error { return d.disk.Remove(name) })
}

func (d *faultyDisk) RemoveAll(name string) error {
	return d.asked("removeall", name, func() error { return d.disk.RemoveAll(name) })
}

func (d *faultyDisk) Rename(from, to string) error {
	return d.asked("rename", from, func() error { return d.disk.Rename(from, to) })
}

func (d *faultyDisk) Symlink(to, name string) error {
	return d.asked("symlink", name, func() error { return d.disk.Symlink(to, name) })
}

// WriteFile leaves half of the file where it fails.
func (d *faultyDisk) WriteFile(name string, data []byte, mode fs.FileMode) error {
	err := d.ask("write", name)
	if err != nil {
		return errors.Join(err, d.disk.WriteFile(name, data[:len(data)/2], mode))
	}
	return d.disk.WriteFile(name, data, mode)
}

func (d *faultyDisk) exchange(fresh, old string) error {
	if !d.inOneStep {
		return exchangeByRename(d, fresh, old)
	}
	return d.asked("exchange", fresh, func() error { return d.disk.exchange(fresh, old) })
}

// faultTrial is one handout that is built over again and again.
type faultTrial struct {
	out       string
	made      prepared
	options   Options
	inOneStep bool
	old, new  []byte // the manifests of the handout that stands and of the one that is built
	foreign   map[string]string
}

// newFaultTrial plans the handout that is built, and builds an old one of the
// same bank with a file more, with files of somebody else in it.
func newFaultTrial(t *testing.T, files fs.FS, whole, inOneStep bool) *faultTrial {
	t.Helper()
	trial := &faultTrial{out: filepath.Join(t.TempDir(), "handout"), inOneStep: inOneStep,
		foreign: map[string]string{"letter.txt": "A letter.", "notes/mine.txt": "A note."}}
	trial.options = Options{Out: trial.out, BankFiles: files}
	bank, _, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	if trial.made, err = prepare(bank, trial.options); err != nil {
		t.Fatal(err)
	}
	if trial.made.listed, err = listed(trial.made); err != nil {
		t.Fatal(err)
	}
	if !whole {
		fewer(&trial.made)
	}
	if _, err := trial.made.write(trial.options); err != nil {
		t.Fatal(err)
	}
	trial.new = trial.manifest(t)
	older := trial.made
	older.listed = append(slices.Clone(older.listed), file{path: "data/older.csv", make: func() ([]byte, error) { return []byte("older"), nil }})
	if _, err := older.write(trial.options); err != nil {
		t.Fatal(err)
	}
	for name, text := range trial.foreign {
		file := filepath.Join(trial.out, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o755), os.WriteFile(file, []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(os.Symlink("letter.txt", filepath.Join(trial.out, "same.txt")), os.Mkdir(filepath.Join(trial.out, "empty"), 0o755)); err != nil {
		t.Fatal(err)
	}
	trial.old = trial.manifest(t)
	return trial
}

// listed plans every file once.
func listed(made prepared) (list []file, err error) {
	err = made.rounds(func(files []file) error {
		list = append(list, files...)
		return nil
	})
	return list, err
}

// fewer leaves a handout of one page in each folder and three other files: the
// calls that are made for the hundred others are the same.
func fewer(made *prepared) {
	folders, others := map[string]bool{}, 0
	made.listed = slices.DeleteFunc(made.listed, func(f file) bool {
		if path.Ext(f.path) != ".html" {
			others++
			return others > 3
		}
		folder := path.Dir(f.path)
		seen := folders[folder]
		folders[folder] = true
		return seen
	})
}

func (f *faultTrial) manifest(t *testing.T) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(f.out, manifestName))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// build builds on a disk that asks fault, and returns what was reported.
func (f *faultTrial) build(fault func(diskCall) error) error {
	options := f.options
	options.disk = &faultyDisk{disk: realDisk{}, inOneStep: f.inOneStep, fault: fault}
	_, err := f.made.write(options)
	return err
}

// calls lists the calls of a build that succeeds, and puts the old handout back.
func (f *faultTrial) calls(t *testing.T) []diskCall {
	t.Helper()
	seen := map[diskCall]bool{}
	keep := f.save(t)
	if err := f.build(func(c diskCall) error { seen[c] = true; return nil }); err != nil {
		t.Fatal(err)
	}
	f.check(t, "without a fault", f.new)
	keep()
	return slices.SortedFunc(maps.Keys(seen), func(a, b diskCall) int { return strings.Compare(a.op+a.name, b.op+b.name) })
}

// save copies the old handout; what it returns puts the copy in its place.
func (f *faultTrial) save(t *testing.T) func() {
	t.Helper()
	copied := t.TempDir()
	if err := os.CopyFS(filepath.Join(copied, "old"), os.DirFS(f.out)); err != nil {
		t.Fatal(err)
	}
	return func() {
		if err := errors.Join(os.RemoveAll(f.out), os.Rename(filepath.Join(copied, "old"), f.out)); err != nil {
			t.Fatal(err)
		}
	}
}

// fail builds with one call failing and looks at what is left.
func (f *faultTrial) fail(t *testing.T, call diskCall, fault error) {
	t.Helper()
	what := fmt.Sprintf("%s %s: %v (in one step %v)", call.op, call.name, fault, f.inOneStep)
	restore := f.save(t)
	before := runtime.NumGoroutine()
	failed := false
	err := f.build(func(c diskCall) error {
		if c == call && !failed {
			failed = true
			return fault
		}
		return nil
	})
	stands := f.manifest(t)
	switch {
	case !failed:
		t.Fatalf("%s: the call was not made", what)
	case err == nil: // the build did without
		f.check(t, what, f.new)
	case !errors.Is(err, fault) && !errors.Is(err, ErrForeignFolder):
		t.Errorf("%s: reported as %v", what, err)
	case string(stands) == string(f.new) && !strings.Contains(err.Error(), "new handout is in place"):
		t.Errorf("%s: %v, and yet the new handout stands", what, err)
	case string(stands) == string(f.new): // the message says where the old one stands
		if err := os.RemoveAll(f.out + asideSuffix); err != nil {
			t.Fatal(err)
		}
		f.check(t, what, stands)
	default:
		f.check(t, what, stands)
	}
	for deadline := time.Now().Add(time.Second); runtime.NumGoroutine() > before && time.Now().Before(deadline); {
		time.Sleep(time.Millisecond)
	}
	if n := runtime.NumGoroutine(); n > before {
		t.Errorf("%s: %d goroutines are left", what, n-before)
	}
	if err := f.build(func(diskCall) error { return nil }); err != nil {
		t.Fatalf("after %s: %v", what, err)
	}
	f.check(t, "after "+what, f.new)
	restore()
}

// check holds the folder against a manifest, the old one or the new, looks for
// the files of others, and for anything left beside the handout.
func (f *faultTrial) check(t *testing.T, what string, manifest []byte) {
	t.Helper()
	if got := f.manifest(t); string(got) != string(manifest) || string(got) != string(f.old) && string(got) != string(f.new) {
		t.Fatalf("%s: another handout stands there", what)
	}
	report, err := pack.Verify(f.out)
	if err != nil {
		t.Fatalf("%s: the handout is damaged: %v", what, err)
	}
	for _, d := range report.Differences {
		if d.Kind != pack.Extra && d.Path != "same.txt" {
			t.Fatalf("%s: the handout is damaged: %v", what, d)
		}
	}
	for name, text := range f.foreign {
		if got, err := os.ReadFile(filepath.Join(f.out, filepath.FromSlash(name))); string(got) != text {
			t.Fatalf("%s: somebody's %s is damaged: %v", what, name, err)
		}
	}
	if to, err := os.Readlink(filepath.Join(f.out, "same.txt")); to != "letter.txt" {
		t.Fatalf("%s: somebody's link is gone: %v", what, err)
	}
	if list, err := os.ReadDir(filepath.Join(f.out, "empty")); err != nil || len(list) > 0 {
		t.Fatalf("%s: somebody's empty folder is gone: %v", what, err)
	}
	beside, err := os.ReadDir(filepath.Dir(f.out))
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range beside {
		if d.Name() != "handout" && !strings.HasPrefix(what, "removeall") {
			t.Errorf("%s: %s is left beside the handout", what, d.Name())
		}
	}
}
