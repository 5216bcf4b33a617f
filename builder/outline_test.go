package builder

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/builder/cache"
	"caseleaf/content"
)

// An edit of a story leaves the pages about many cases unplanned, an edit of facts
// does not; and where their files can't be carried over after all, they are planned.
func TestUnplanned(t *testing.T) {
	folder := t.TempDir()
	if !cache.Trusted(folder) {
		t.Skip("stamps are not trusted here")
	}
	bank, kept := filepath.Join(folder, "bank"), filepath.Join(folder, "cache")
	files := faultBank()
	first := string(files["cases/ab-1.md"].Data) + "\n## Second part\n\nMore.\n"
	files["cases/ab-1.md"].Data = []byte(first)
	files["cases/ab-2.md"] = &fstest.MapFile{Data: []byte(strings.NewReplacer("AB-1", "AB-2", "More.", "See [there](ab-1.md#secondpart).").Replace(first))}
	if err := os.CopyFS(bank, files); err != nil {
		t.Fatal(err)
	}
	edit := func(from, to string) {
		name := filepath.Join(bank, "cases", "ab-1.md")
		data, err := os.ReadFile(name)
		if err == nil {
			err = os.WriteFile(name, []byte(strings.Replace(string(data), from, to, 1)), 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	build := func(d disk, out string, remember bool) (unplanned int) {
		t.Helper()
		options := Options{Out: filepath.Join(folder, out), BankFiles: os.DirFS(bank), disk: d}
		if remember {
			options.Memory = OpenMemory(kept, bank, options)
		}
		read, _, err := content.Read(options.BankFiles)
		if err != nil {
			t.Fatal(err)
		}
		made, err := prepare(read, options)
		if err != nil {
			t.Fatal(err)
		}
		summary, err := Build(read, options)
		if err != nil {
			t.Fatal(err)
		}
		options.Memory.Keep(Past{Summary: summary})
		return len(made.site.standing)
	}
	same := func(what string) {
		t.Helper()
		build(nil, "beside", false)
		for _, f := range mustManifest(t, filepath.Join(folder, "beside")).Files {
			if err := holds(realDisk{}, filepath.Join(folder, "handout"), f); err != nil {
				t.Errorf("%s: %v", what, err)
			}
		}
	}
	if n := build(nil, "handout", true); n != 0 {
		t.Errorf("%d planners had nothing to do at first", n)
	}
	edit("---\nOne.", "---\nTwo.")
	if n := build(nil, "handout", true); n == 0 {
		t.Error("all is planned again for a story")
	}
	same("a story")
	edit("## Second part", "## Secondpart") // to which another case links
	if n := build(nil, "handout", true); n == 0 {
		t.Error("all is planned again for a heading")
	}
	same("a heading")
	about := filepath.Join(folder, "handout", "about.html")
	before, err := os.Stat(about)
	if err != nil {
		t.Fatal(err)
	}
	edit("About one", "About two")
	if n := build(nil, "handout", true); n != 0 {
		t.Errorf("%d planners had nothing to do after an edit of facts", n)
	}
	same("facts")
	if after, err := os.Stat(about); err != nil || !os.SameFile(before, after) {
		t.Error("a page that was made again with the same bytes was written again", err)
	}
	edit("---\nTwo.", "---\nThree.")
	linkless := &faultyDisk{disk: realDisk{}, inOneStep: true, fault: func(c diskCall) error {
		if c.op == "link" {
			return errors.ErrUnsupported
		}
		return nil
	}}
	if n := build(linkless, "handout", true); n == 0 {
		t.Error("all is planned again for another story")
	}
	same("a disk without second names")
}

func mustManifest(t *testing.T, folder string) Manifest {
	t.Helper()
	m, err := ReadManifest(folder)
	if err != nil {
		t.Fatal(err)
	}
	return m
}
