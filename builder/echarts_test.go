package builder

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/base64"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

func integrity(data []byte) string {
	sum := sha512.Sum512(data)
	return "sha512-" + base64.StdEncoding.EncodeToString(sum[:])
}

// fakeArchive packs a library of three files the way npm does.
func fakeArchive(t *testing.T, files map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	zipped := gzip.NewWriter(&out)
	w := tar.NewWriter(zipped)
	for _, name := range []string{"package/package.json", "package/LICENSE", "package/NOTICE", "package/dist/echarts.min.js"} {
		text, ok := files[name]
		if !ok {
			continue
		}
		if err := w.WriteHeader(&tar.Header{Name: name, Mode: 0o644, Size: int64(len(text))}); err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(w.Close(), zipped.Close()); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

var fakeFiles = map[string]string{
	"package/package.json": "{}", "package/LICENSE": "licence", "package/NOTICE": "notice",
	"package/dist/echarts.min.js": "window.echarts={}",
}

func fakePins(archive []byte) *pins {
	return &pins{
		name: "echarts-0.0.0", pack: integrity(archive), script: integrity([]byte("window.echarts={}")),
		licence: integrity([]byte("licence")), notice: integrity([]byte("notice")),
	}
}

// The library is taken from the bank, then the cache, then fetched once; each
// copy is held to the pins, and one line says when there is none.
func TestLibrarySearch(t *testing.T) {
	archive := fakeArchive(t, fakeFiles)
	p := fakePins(archive)
	fetches := 0
	fetch := func(folder string) (string, error) {
		fetches++
		name := filepath.Join(folder, "x.tgz")
		return name, os.WriteFile(name, archive, 0o600)
	}
	cache := t.TempDir()
	bank := fstest.MapFS{"vendor/echarts-0.0.0.tgz": {Data: archive}}
	cached := filepath.Join(cache, p.name, libraryScript)

	for _, c := range []struct {
		name    string
		search  LibrarySearch
		before  func()
		found   bool
		fetches int
		note    string
	}{
		{name: "offline without a copy", search: LibrarySearch{}, note: "offline"},
		{name: "in the bank", search: LibrarySearch{Bank: bank, Fetch: fetch, Cache: cache}, found: true},
		{name: "fetched", search: LibrarySearch{Bank: fstest.MapFS{}, Fetch: fetch, Cache: cache}, found: true, fetches: 1},
		{name: "from the cache", search: LibrarySearch{Fetch: fetch, Cache: cache}, found: true},
		{name: "from the cache, offline", search: LibrarySearch{Cache: cache}, found: true},
		{name: "a changed cache, offline", search: LibrarySearch{Cache: cache}, note: "offline",
			before: func() { _ = os.WriteFile(cached, []byte("alert(1)"), 0o600) }},
		{name: "a changed cache", search: LibrarySearch{Fetch: fetch, Cache: cache}, found: true, fetches: 1},
		{name: "a changed copy in the bank", note: "SHA-512 differs",
			search: LibrarySearch{Bank: fstest.MapFS{"vendor/echarts-0.0.0.tgz": {Data: append([]byte{}, archive[1:]...)}}, Fetch: fetch, Cache: cache}},
		{name: "npm fails", note: "could not get it",
			search: LibrarySearch{Fetch: func(string) (string, error) { return "", errors.New("npm could not get it") }}},
		{name: "npm gives something else", note: "SHA-512 differs", search: LibrarySearch{Fetch: func(folder string) (string, error) {
			name := filepath.Join(folder, "x.tgz")
			return name, os.WriteFile(name, fakeArchive(t, map[string]string{"package/LICENSE": "other"}), 0o600)
		}}},
	} {
		if c.before != nil {
			c.before()
		}
		fetches = 0
		c.search.pins = p
		lib, note := c.search.Find()
		if (lib != nil) != c.found || fetches != c.fetches {
			t.Errorf("%s: found %v, %d fetches; want %v, %d", c.name, lib != nil, fetches, c.found, c.fetches)
		}
		if lib != nil && (string(lib.Script) != "window.echarts={}" || string(lib.Licence) != "licence" || string(lib.Notice) != "notice") {
			t.Errorf("%s: other bytes", c.name)
		}
		if !strings.Contains(note, c.note) || (note == "") != c.found || strings.Contains(note, "\n") {
			t.Errorf("%s: says %q, want one line with %q", c.name, note, c.note)
		}
	}
}

// An archive that passes its own pin but lacks a file is refused.
func TestLibraryLacksAFile(t *testing.T) {
	archive := fakeArchive(t, map[string]string{"package/LICENSE": "licence", "package/NOTICE": "notice"})
	if _, err := fakePins(archive).unpack(archive); err == nil {
		t.Error("a library without its script was taken")
	}
	if _, err := fakePins([]byte("no archive")).unpack([]byte("no archive")); err == nil {
		t.Error("what is no archive was taken")
	}
}
