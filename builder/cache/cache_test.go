package cache

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/go-cmp/cmp"
)

type value struct {
	Name  string
	Lines map[string][]int
}

var kept = value{"kept", map[string][]int{"a": {1, 2}, "b": nil}}

func TestSaveAndLoad(t *testing.T) {
	f := NewFile(filepath.Join(t.TempDir(), "new"), "program", "bank", "out")
	var got value
	if f.Load(&got) {
		t.Error("a file that was never written is believed")
	}
	if err := f.Save(kept); err != nil {
		t.Fatal(err)
	}
	if !f.Load(&got) || cmp.Diff(kept, got) != "" {
		t.Errorf("loaded %+v", got)
	}
	if left, err := os.ReadDir(filepath.Dir(f.Name())); err != nil || len(left) != 1 {
		t.Errorf("%d files are left, %v", len(left), err)
	}
	f.Drop()
	if f.Load(&got) {
		t.Error("a file that was dropped is believed")
	}
}

// A cache is believed only by the same program for the same bank.
func TestOtherOwners(t *testing.T) {
	folder := t.TempDir()
	f := NewFile(folder, "program on machine", "bank", "out")
	if err := f.Save(kept); err != nil {
		t.Fatal(err)
	}
	for _, other := range []File{
		NewFile(folder, "program on another machine", "bank", "out"),
		NewFile(folder, "program on machine", "bank", "out2"),
		NewFile(folder, "program on machine", "bankout", ""),
		NewFile("", "program on machine", "bank", "out"),
		NewFile(folder, "", "bank", "out"),
	} {
		var got value
		if other.Load(&got) {
			t.Errorf("%+v is believed", other)
		}
	}
}

// No file that differs by a bit, is cut short or goes on is believed.
func TestDamagedFiles(t *testing.T) {
	f := NewFile(t.TempDir(), "program", "bank")
	if err := f.Save(kept); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(f.Name())
	if err != nil {
		t.Fatal(err)
	}
	believed := func(data []byte) bool {
		if err := os.WriteFile(f.Name(), data, 0o600); err != nil {
			t.Fatal(err)
		}
		var got value
		return f.Load(&got)
	}
	for at := range whole {
		for bit := range 8 {
			damaged := append([]byte(nil), whole...)
			damaged[at] ^= 1 << bit
			if believed(damaged) {
				t.Fatalf("byte %d, bit %d: a damaged file is believed", at, bit)
			}
		}
		if believed(whole[:at]) {
			t.Fatalf("the first %d bytes are believed", at)
		}
	}
	if believed(append(append([]byte(nil), whole...), 0)) {
		t.Error("a file that goes on is believed")
	}
	if !believed(whole) {
		t.Error("the whole file is not believed")
	}
	if err := os.Remove(f.Name()); err != nil {
		t.Fatal(err)
	}
	elsewhere := filepath.Join(t.TempDir(), "elsewhere")
	if err := os.WriteFile(elsewhere, whole, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(elsewhere, f.Name()); err == nil {
		var got value
		if f.Load(&got) {
			t.Error("a link is followed")
		}
	}
}

// Every change of a name or of bytes changes the digest; files that begin with a
// dot and folders that are passed over do not.
func TestDigest(t *testing.T) {
	base := fstest.MapFS{
		"bank.yaml": {Data: []byte("title: A\n")}, "cases/a.md": {Data: []byte("a")}, "cases/b.md": {Data: []byte("b")},
		"handout/index.html": {Data: []byte("page")}, ".git/HEAD": {Data: []byte("x")},
	}
	skip := func(folder string) bool { return folder == "handout" }
	of := func(files fstest.MapFS) string {
		sum, err := Digest(files, skip)
		if err != nil {
			t.Fatal(err)
		}
		return sum
	}
	change := func(name, data string) fstest.MapFS {
		files := fstest.MapFS{}
		for n, f := range base {
			files[n] = f
		}
		files[name] = &fstest.MapFile{Data: []byte(data)}
		if data == "" {
			delete(files, name)
		}
		return files
	}
	first := of(base)
	for name, data := range map[string]string{"handout/index.html": "other", ".git/HEAD": "y", "cases/.a.md.swp": "z"} {
		if of(change(name, data)) != first {
			t.Errorf("%s is not passed over", name)
		}
	}
	seen := map[string]string{first: "as it was"}
	for name, data := range map[string]string{"bank.yaml": "title: B\n", "cases/a.md": "b", "cases/b.md": "", "cases/c.md": "b", "theme/a.css": "."} {
		sum := of(change(name, data))
		if before, taken := seen[sum]; taken {
			t.Errorf("%s with %q has the digest of %s", name, data, before)
		}
		seen[sum] = name
	}
}

func TestDigestRefusesLinks(t *testing.T) {
	folder := t.TempDir()
	if err := os.Symlink(filepath.Join(folder, "elsewhere"), filepath.Join(folder, "link.md")); err != nil {
		t.Skip("no links here")
	}
	if _, err := Digest(os.DirFS(folder), nil); !errors.Is(err, ErrOdd) {
		t.Errorf("error %v", err)
	}
}

func TestProgram(t *testing.T) {
	name, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	first := Program(folder)
	if again := Program(folder); again != first {
		t.Errorf("the program is %q, and %q when it is asked again", first, again)
	}
	for _, want := range []string{runtime.GOOS, runtime.GOARCH, fmt.Sprintf("%x", sha256.Sum256(data))} {
		if !strings.Contains(first, want) {
			t.Errorf("the program is %q, without %s", first, want)
		}
	}
}

// A program that was replaced by another of its size, its time set back, is
// another one.
func TestProgramReplaced(t *testing.T) {
	folder := t.TempDir()
	name := filepath.Join(folder, "program")
	kept := NewFile(filepath.Join(folder, "cache"), "owner")
	write := func(text string) string {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(name, time.Unix(1e9, 0), time.Unix(1e9, 0)); err != nil {
			t.Fatal(err)
		}
		time.Sleep(2 * tick)
		sum, err := sumProgram(kept, name)
		if err != nil {
			t.Fatal(err)
		}
		if again, err := sumProgram(kept, name); err != nil || again != sum {
			t.Errorf("%s, then %s, %v", sum, again, err)
		}
		return sum
	}
	if write("one") == write("two") {
		t.Error("the sum of the old program is believed")
	}
}

// A look sees whatever a digest sees, and a file that was written anew, moved
// into the place of another or given its old time back.
func TestLook(t *testing.T) {
	if !Trusted(t.TempDir()) {
		t.Skip("stamps are not trusted here")
	}
	folder := t.TempDir()
	name := filepath.Join(folder, "cases", "a.md")
	do := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	do(os.Mkdir(filepath.Dir(name), 0o700))
	old := time.Unix(1.7e9, 5)
	write := func(name, text string) {
		t.Helper()
		do(os.WriteFile(name, []byte(text), 0o600))
		do(os.Chtimes(name, old, old))
	}
	write(name, "one")
	seen := map[string]string{}
	look := func(what string) {
		t.Helper()
		first, ok := LookSettled(os.DirFS(folder), true, nil)
		if before, taken := seen[first.Sum]; taken || !ok {
			t.Errorf("%s: %q, as %s", what, first.Sum, before)
		}
		if again, ok := Look(os.DirFS(folder), true, nil); !ok || again.Sum != first.Sum {
			t.Errorf("%s: %q, then %q with nothing done", what, first.Sum, again.Sum)
		}
		seen[first.Sum] = what
	}
	look("at first")
	write(name, "two")
	look("other bytes of the same number, and the old time")
	write(name, "two")
	look("the same bytes anew")
	write(name+"x", "two")
	look("a file more")
	do(os.Rename(name+"x", name))
	look("a file in the place of another")
	do(os.Mkdir(filepath.Join(folder, "empty"), 0o700))
	look("a folder more")
}

// Where two changes could have one stamp, it is not relied on.
func TestUnsettled(t *testing.T) {
	now := time.Now()
	for _, s := range []struct {
		changed time.Time
		settled bool
	}{
		{now, false}, {now.Add(time.Hour), false}, {now.Add(-tick / 2), false}, {now.Truncate(time.Second).Add(-time.Second), false},
		{now.Add(-time.Hour), true}, {now.Add(-time.Hour).Truncate(time.Second), true},
	} {
		if got := (Stamp{Changed: s.changed.UnixNano()}).Settled(); got != s.settled {
			t.Errorf("changed %v ago: settled %v", now.Sub(s.changed), got)
		}
	}
	files := fstest.MapFS{"a": {}}
	if seen, ok := Look(files, true, nil); ok {
		t.Errorf("files without stamps are seen as %q", seen.Sum)
	}
}
