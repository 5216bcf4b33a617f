package content_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"
	"time"
	"unicode/utf8"

	"caseleaf/casebank"
	"caseleaf/content"
)

// seeds adds the demonstration bank's files and the field reports' as inputs.
func seeds(f *testing.F, glob, reports string) {
	f.Helper()
	names, err := fs.Glob(casebank.FS(), glob)
	if err != nil {
		f.Fatal(err)
	}
	for _, name := range names {
		data, err := fs.ReadFile(casebank.FS(), name)
		if err != nil {
			f.Fatal(err)
		}
		if len(data) > 1<<16 {
			data = data[:1<<12]
		}
		f.Add(data)
	}
	found, _ := filepath.Glob("../testdata/field-reports/" + reports)
	for _, name := range found {
		if data, err := os.ReadFile(name); err == nil && len(data) < 1<<16 {
			f.Add(data)
		}
	}
}

// readSoundly reads a bank with one file and holds the result to what readers
// promise for any input: no panic, an answer in time, places inside the file.
func readSoundly(t *testing.T, name string, data []byte) {
	t.Helper()
	files := fstest.MapFS{
		"bank.yaml":                {Data: []byte("title: Fuzz\nstrata: [{id: low, label: Low}]\n")},
		"decisions/small-pupil.md": {Data: mustRead(t, "decisions/small-pupil.md")},
		name:                       {Data: data},
	}
	started := time.Now()
	_, found, err := content.Read(files)
	if err != nil {
		t.Fatal(err)
	}
	if took := time.Since(started); took > 5*time.Second {
		t.Errorf("reading took %s", took)
	}
	for _, d := range found {
		span := d.Span
		if span.Source == nil || span.Line() == 0 {
			continue
		}
		width := utf8.RuneCountInString(span.Source.Line(span.Line()))
		if span.Line() < 1 || span.Line() > span.Source.Lines() || span.Column() < 1 || span.Column() > width+1 {
			t.Errorf("%s:%d:%d lies outside the file (%d lines, %d characters): %s",
				span.File(), span.Line(), span.Column(), span.Source.Lines(), width, d.Message)
		}
	}
}

func mustRead(t *testing.T, name string) []byte {
	data, err := fs.ReadFile(casebank.FS(), name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func FuzzReadCase(f *testing.F) {
	seeds(f, "cases/*.md", "fr-*.md")
	f.Fuzz(func(t *testing.T, data []byte) { readSoundly(t, "cases/x-1.md", data) })
}

func FuzzReadDecision(f *testing.F) {
	seeds(f, "decisions/*.md", "fr-0*.md")
	f.Fuzz(func(t *testing.T, data []byte) { readSoundly(t, "decisions/small-pupil.md", data) })
}

func FuzzReadCourse(f *testing.F) {
	seeds(f, "courses/*.yaml", "none")
	f.Fuzz(func(t *testing.T, data []byte) { readSoundly(t, "courses/lab.yaml", data) })
}

func FuzzReadSettings(f *testing.F) {
	seeds(f, "*.yaml", "none")
	f.Fuzz(func(t *testing.T, data []byte) { readSoundly(t, "bank.yaml", data) })
}

func FuzzReadTerms(f *testing.F) {
	seeds(f, "terms.yaml", "none")
	f.Fuzz(func(t *testing.T, data []byte) { readSoundly(t, "terms.yaml", data) })
}

func FuzzReadLogbook(f *testing.F) {
	seeds(f, "logbook.csv", "fr-*.csv")
	f.Fuzz(func(t *testing.T, data []byte) { readSoundly(t, "logbook.csv", data) })
}

func FuzzReadMarkdown(f *testing.F) {
	for _, s := range []string{"# A\n[x](#a)", "| a | b |\n|---|---|\n| c | d | e |", "[^1]\n\n[^1]: note", "![p](x y.png)", "<b>x</b>", "[t](term:x) [m](time:0:70)"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		head := "---\ncase: X-1\ntitle: X\nprocedure: phacoemulsification\ntechnique: divide-and-conquer\ntimeline: [{at: 0:10, step: paracentesis}]\n---\n"
		readSoundly(t, "cases/x-1.md", append([]byte(head), data...))
	})
}
