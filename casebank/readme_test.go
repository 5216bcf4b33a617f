package casebank_test

import (
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/casebank"
	"caseleaf/content"
)

// The case and the course that README.md shows are read, in the demonstration
// bank, without an error or a warning.
func TestReadmeExamples(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for begin, file := range map[string]string{"---\ncase: ": "cases/hb-007.md", "course: ": "courses/iris-morning.yaml"} {
		_, example, ok := strings.Cut(string(readme), "```yaml\n"+begin)
		if !ok {
			t.Errorf("README.md shows no %s", file)
			continue
		}
		example, _, _ = strings.Cut(example, "```\n")
		_, found, err := content.Read(demoWith(t, file, begin+example))
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range found {
			if d.Span.File() == file {
				t.Errorf("%s:%d: %s [%s]", file, d.Span.Line(), d.Message, d.Code)
			}
		}
	}
}

// demoWith is the demonstration bank with one file more, or another in its place.
func demoWith(t *testing.T, name, text string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(casebank.FS(), ".", func(p string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := fs.ReadFile(casebank.FS(), p)
		files[p] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	files[name] = &fstest.MapFile{Data: []byte(text)}
	return files
}
