package builder_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/fstest"

	"caseleaf/builder"
	"caseleaf/content"
)

// readCall is a call that reading a bank makes of its file system: an open of a
// name, the nth of that name, or a read of what was opened.
type readCall struct {
	op, name string
	nth      int
}

// failingBank is a bank on a disk that fails: fault is asked before every call.
type failingBank struct {
	fs.FS
	fault func(readCall) error

	mu   sync.Mutex
	made map[[2]string]int
}

func (b *failingBank) ask(op, name string) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.made[[2]string{op, name}]++
	if err := b.fault(readCall{op, name, b.made[[2]string{op, name}]}); err != nil {
		return &fs.PathError{Op: op, Path: name, Err: err}
	}
	return nil
}

func (b *failingBank) Open(name string) (fs.File, error) {
	if err := b.ask("open", name); err != nil {
		return nil, err
	}
	f, err := b.FS.Open(name)
	if err != nil {
		return nil, err
	}
	return &failingFile{f, b, name}, nil
}

type failingFile struct {
	fs.File
	bank *failingBank
	name string
}

func (f *failingFile) Read(p []byte) (int, error) {
	if err := f.bank.ask("read", f.name); err != nil {
		return 0, err
	}
	return f.File.Read(p)
}

func (f *failingFile) Stat() (fs.FileInfo, error) {
	if err := f.bank.ask("stat", f.name); err != nil {
		return nil, err
	}
	return f.File.Stat()
}

func (f *failingFile) ReadDir(n int) ([]fs.DirEntry, error) {
	if err := f.bank.ask("readdir", f.name); err != nil {
		return nil, err
	}
	return f.File.(fs.ReadDirFile).ReadDir(n)
}

// TestEveryReadFails builds a bank of every kind of file once for every call
// that reading it makes, and has that call fail. Then either the reading or the
// build reports it, or the call did not matter and the handout is the same, byte
// for byte: nothing is ever left out without a word.
//
// A name that isn't there is no fault, since most of a bank's files may be left
// out; but a file that was listed and is then gone is one.
func TestEveryReadFails(t *testing.T) {
	bank := readFaultBank(t)
	seen := map[readCall]bool{}
	want, err := buildFailing(t, bank, func(c readCall) error { seen[c] = true; return nil })
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range looked {
		if !strings.Contains(want, path+"\n") {
			t.Errorf("the handout has no %s", path)
		}
	}
	if len(seen) < 40 {
		t.Errorf("only %d calls were seen; the test looks at too little", len(seen))
	}
	worn := []error{fs.ErrPermission, syscall.EIO} // one of them for each call
	for call := range seen {
		worn[0], worn[1] = worn[1], worn[0]
		for _, fault := range []error{worn[0], fs.ErrNotExist} {
			listed := strings.Contains(call.name, "/") && call.op == "open"
			if fault == fs.ErrNotExist && (!listed || strings.HasPrefix(call.name, "theme")) {
				continue
			}
			got, err := buildFailing(t, bank, func(c readCall) error {
				if c == call {
					return fault
				}
				return nil
			})
			if err == nil && got != want {
				t.Errorf("%s %s, the %d. time: %v: the handout is another, and nothing was said", call.op, call.name, call.nth, fault)
			}
		}
	}
}

// readFaultBank has one of everything that is read.
func readFaultBank(t *testing.T) fstest.MapFS {
	t.Helper()
	picture, err := os.ReadFile(filepath.Join(pictureData, "png-text-exif.png"))
	if err != nil {
		t.Fatal(err)
	}
	return fstest.MapFS{
		"bank.yaml":              {Data: []byte("title: A disk that fails\ntheme: theme\nreference_technique: divide-and-conquer\n")},
		"terms.yaml":             {Data: []byte("terms:\n  - {id: blue-hook, kind: instrument, label: Blue hook, definition: A hook that is blue.}\n")},
		"logbook.csv":            {Data: []byte("period,technique,surgeon,complications\n2026-Q1,divide-and-conquer,trainee,\n")},
		"cases/ab-1.md":          smallCase("AB-1", attested, "![A hook](hook.png)"),
		"cases/hook.png":         {Data: picture},
		"courses/lab.yaml":       {Data: []byte("course: lab\ntitle: A lab\nperiod: 2026-Q1\nstart: \"09:00\"\ngroups: [{name: A, size: 2}]\nstations: [{id: a, title: Hooks, minutes: 30}]\n")},
		"theme/styles/99.css":    {Data: []byte("p { color: inherit }\n")},
		"theme/pages/about.tmpl": {Data: []byte(`{{define "main"}}<p>About hooks.</p>{{end}}`)},
	}
}

// looked are the files that show each file of the bank.
var looked = []string{"cases/ab-1.html", "cases/ab-1-01.png", "courses/lab.html", "frequencies.html", "about.html", "glossary.html", "assets/style.css"}

// buildFailing reads and lays out a bank; a failure of either is the error. What
// it returns are the names of all files and what those looked at hold.
func buildFailing(t *testing.T, files fs.FS, fault func(readCall) error) (string, error) {
	t.Helper()
	failing := &failingBank{FS: files, fault: fault, made: map[[2]string]int{}}
	bank, found, err := content.Read(failing)
	if err == nil && found.Failed() {
		var text strings.Builder
		_ = found.WriteText(&text)
		err = errors.New(text.String())
	}
	if err != nil {
		return "", err
	}
	proof, err := builder.NewProof(bank, builder.Options{BankFiles: failing})
	if err != nil {
		return "", err
	}
	paths, err := proof.Paths()
	if err != nil {
		return "", err
	}
	all := strings.Join(paths, "\n")
	for _, path := range looked {
		data, err := proof.File(path)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return "", err
		}
		all += string(data)
	}
	return all, nil
}
