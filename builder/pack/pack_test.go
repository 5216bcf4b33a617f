package pack_test

import (
	"archive/zip"
	"bytes"
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
	"testing"

	"caseleaf/builder/pack"

	"github.com/google/go-cmp/cmp"
)

// sample is a small handout: texts and one file that deflate can't shorten.
var sample = map[string]string{
	"index.html": strings.Repeat("<p>Start here</p>\n", 200), "cases/ab-1.html": "<p>One</p>", "assets/n_e9_.css": "p{}",
	"data/noise.bin": "\x00\xff\x10\x7f", "empty.txt": "",
}

// listed is the manifest of files.
func listed(files map[string]string) pack.Manifest {
	m := pack.Manifest{Title: "Two cases", Edition: "2026"}
	for name, text := range files {
		sum := sha256.Sum256([]byte(text))
		m.Files = append(m.Files, pack.File{Path: name, Size: int64(len(text)), SHA256: hex.EncodeToString(sum[:])})
	}
	slices.SortFunc(m.Files, func(a, b pack.File) int { return strings.Compare(a.Path, b.Path) })
	return m
}

// items are files and their manifest in a fixed order.
func items(files map[string]string) []pack.Item {
	m := listed(files)
	all := []pack.Item{{Name: pack.ManifestName, Read: func() ([]byte, error) { return m.Encode(), nil }}}
	for _, f := range m.Files {
		all = append(all, pack.Item{Name: f.Path, Read: func() ([]byte, error) { return []byte(files[f.Path]), nil }})
	}
	return all
}

func packed(t testing.TB, files map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := pack.Write(&out, items(files)); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// onDisk writes a zip into a folder of the test's own.
func onDisk(t testing.TB, data []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "copy.zip")
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestSameFilesSameBytes(t *testing.T) {
	first := packed(t, sample)
	t.Setenv("TZ", "Pacific/Apia")
	for range 3 {
		if !bytes.Equal(first, packed(t, sample)) {
			t.Fatal("two zips of the same files differ")
		}
	}
	r, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range r.File {
		if f.Flags != 0x800 || len(f.Extra) != 0 || f.ModifiedDate != 33 || f.ModifiedTime != 0 || f.Mode() != 0o644 {
			t.Errorf("%s: flags %x, extra %x, date %d %d, mode %v", f.Name, f.Flags, f.Extra, f.ModifiedDate, f.ModifiedTime, f.Mode())
		}
	}
}

// Names that some system can't store, and pairs that some disk takes for one,
// never get into a zip. Expected: field reports FR-21 and FR-22; naming rules of
// Windows from memory.
func TestUnsafeNames(t *testing.T) {
	for _, name := range []string{
		"", "..", "../x", "a/../b", "/x", "a//b", "./x", `a\b`, "C:x", "con", "aux.html", "cases/NUL.html", "com1", "lpt9.x", "COM¹.html", "nul .html",
		"a.", "a ", "a/b.", "a<b", "a:b", "a|b", "what?", "*", "a\x00b", "a\nb", "a\xffb", strings.Repeat("x", pack.LongestName+1), "dir/",
	} {
		if pack.Unsafe(name) == "" {
			t.Errorf("%q passes for a safe name", name)
		}
		if err := pack.Write(io.Discard, items(map[string]string{name: "x"})); err == nil {
			t.Errorf("%q was packed", name)
		}
	}
	for _, name := range []string{"a", "cases/hb-007.html", "com10.html", "null", "é.html", ".well", strings.Repeat("x", pack.LongestName)} {
		if why := pack.Unsafe(name); why != "" {
			t.Errorf("%q: %s", name, why)
		}
	}
	for _, pair := range [][2]string{{"A.html", "a.html"}, {"\u00e9.html", "e\u0301.html"}, {"straße", "STRASSE"}} {
		if err := pack.Write(io.Discard, items(map[string]string{pair[0]: "1", pair[1]: "2"})); err == nil {
			t.Errorf("%q and %q were packed together", pair[0], pair[1])
		}
	}
}

// A copy as it was sent is good, as a zip and unpacked, and so is one that was
// unpacked by a system that leaves files of its own.
func TestVerifyGood(t *testing.T) {
	data := packed(t, sample)
	name := onDisk(t, data)
	sum := sha256.Sum256(data)
	report, err := pack.Verify(name)
	if err != nil || len(report.Differences) > 0 || report.Files != len(sample) || report.SHA256 != hex.EncodeToString(sum[:]) {
		t.Fatalf("%v %+v", err, report)
	}
	folder := unpacked(t, data)
	if err := os.WriteFile(filepath.Join(folder, "cases", ".DS_Store"), []byte("x"), 0o644); err != nil {
		t.Fatal(err)
	}
	report, err = pack.Verify(folder)
	if err != nil || len(report.Differences) > 0 || report.Files != len(sample) {
		t.Fatalf("%v %+v", err, report)
	}
	if diff := cmp.Diff([]string{"cases/.DS_Store"}, report.Left); diff != "" {
		t.Errorf("left by the system (-want +got):\n%s", diff)
	}
}

func unpacked(t testing.TB, data []byte) string {
	t.Helper()
	folder := t.TempDir()
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.CopyFS(folder, r); err != nil {
		t.Fatal(err)
	}
	return folder
}

// Every flipped bit of a zip is found, or makes no difference to any file in it.
func TestVerifyFlippedBits(t *testing.T) {
	data := packed(t, map[string]string{"a.html": "<p>An iris that billows, billows</p>", "b.css": "p { color: inherit; color: inherit }"})
	var silent []int
	for at := range data {
		bad := slices.Clone(data)
		bad[at] ^= 1
		report, err := pack.Verify(onDisk(t, bad))
		if err == nil && len(report.Differences) == 0 {
			silent = append(silent, at)
		}
	}
	// What is left are fields that no byte of any file hangs on: dates, the version
	// and the maker, permissions, spare attributes, and the manifest's own words.
	for _, at := range silent {
		bad := slices.Clone(data)
		bad[at] ^= 1
		r, err := zip.NewReader(bytes.NewReader(bad), int64(len(bad)))
		if err != nil {
			t.Fatalf("byte %d: %v", at, err)
		}
		for _, f := range r.File {
			if f.Name != "a.html" && f.Name != "b.css" && f.Name != pack.ManifestName {
				t.Errorf("byte %d: an entry is called %q, and nothing was said", at, f.Name)
			}
		}
	}
	if len(silent) > len(data)/4 {
		t.Errorf("%d of %d flipped bits were not found", len(silent), len(data))
	}
}

// Folders: a changed, a missing and an extra file, and a link, are named.
func TestVerifyFolder(t *testing.T) {
	folder := unpacked(t, packed(t, sample))
	in := func(name string) string { return filepath.Join(folder, name) }
	for _, err := range []error{
		os.WriteFile(in("index.html"), []byte("<p>Another</p>"), 0o644), os.Remove(in("empty.txt")),
		os.WriteFile(in("cases/ab-9.html"), []byte("x"), 0o644), os.Remove(in("assets/n_e9_.css")),
		os.Symlink("/etc/hostname", in("assets/n_e9_.css")),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	report, err := pack.Verify(folder)
	if err != nil {
		t.Fatal(err)
	}
	want := []pack.Difference{{Path: "assets/n_e9_.css", Kind: pack.Linked}, {Path: "cases/ab-9.html", Kind: pack.Extra}, {Path: "empty.txt", Kind: pack.Missing}, {Path: "index.html", Kind: pack.Changed}}
	if diff := cmp.Diff(want, report.Differences); diff != "" {
		t.Errorf("differences (-want +got):\n%s", diff)
	}
}

func TestVerifyForeign(t *testing.T) {
	folder := t.TempDir()
	if _, err := pack.Verify(folder); !errors.Is(err, pack.ErrNotHandout) {
		t.Errorf("an empty folder: %v", err)
	}
	if _, err := pack.Verify(onDisk(t, []byte("Dear all"))); !errors.Is(err, pack.ErrNotHandout) {
		t.Errorf("a letter: %v", err)
	}
	if _, err := pack.Verify(filepath.Join(folder, "none.zip")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("nothing: %v", err)
	}
	var out bytes.Buffer
	if err := pack.Write(&out, []pack.Item{{Name: "a.txt", Read: func() ([]byte, error) { return []byte("x"), nil }}}); err != nil {
		t.Fatal(err)
	}
	if _, err := pack.Verify(onDisk(t, out.Bytes())); !errors.Is(err, pack.ErrNotHandout) {
		t.Errorf("somebody else's zip: %v", err)
	}
}

// FuzzVerify: whatever a zip holds, the check ends, and says good only of files
// that are those of the manifest.
func FuzzVerify(f *testing.F) {
	f.Add(packed(f, sample))
	f.Add(packed(f, map[string]string{"a": ""}))
	for _, h := range hostile(f) {
		if len(h.data) < 4<<10 { // the bombs would only slow every try
			f.Add(h.data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		report, err := pack.Verify(onDisk(t, data))
		if err != nil || len(report.Differences) > 0 {
			return
		}
		r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatalf("good, and no zip: %v", err)
		}
		for _, file := range report.Manifest.Files {
			got, err := fs.ReadFile(r, file.Path)
			if sum := sha256.Sum256(got); err != nil || hex.EncodeToString(sum[:]) != file.SHA256 {
				t.Fatalf("good, and %s is not: %v", file.Path, err)
			}
		}
	})
}

func ExampleUnsafe() {
	fmt.Println(pack.Unsafe("cases/aux.html"))
	// Output: its name is kept by Windows for a device
}

// One flipped bit in any file of a folder, which keeps its length and has no sum
// of its own as an entry of a zip has, is found by the SHA-256 of the manifest.
func TestVerifyFolderFlippedBits(t *testing.T) {
	data := packed(t, map[string]string{"a.html": "<p>An iris that billows</p>", "b.css": "p { color: inherit }"})
	for _, name := range []string{"a.html", "b.css"} {
		folder := unpacked(t, data)
		file := filepath.Join(folder, name)
		whole, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for at := range whole {
			bad := slices.Clone(whole)
			bad[at] ^= 1
			if err := os.WriteFile(file, bad, 0o644); err != nil {
				t.Fatal(err)
			}
			report, err := pack.Verify(folder)
			if want := []pack.Difference{{Path: name, Kind: pack.Changed}}; err != nil || !slices.Equal(report.Differences, want) {
				t.Fatalf("%s, byte %d: %v, %+v", name, at, err, report.Differences)
			}
		}
	}
}
