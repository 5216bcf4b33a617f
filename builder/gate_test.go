package builder_test

import (
	"bufio"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf16"

	"caseleaf/builder"
	"caseleaf/content"
	"caseleaf/content/diagnose"
	"caseleaf/content/privacy"

	"github.com/google/go-cmp/cmp"
)

// attested is a release that answers everything.
const attested = "release: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n"

// smallCase is a case with a body, released or not.
func smallCase(id, release, body string) *fstest.MapFile {
	return &fstest.MapFile{Data: []byte(fmt.Sprintf("---\ncase: %s\ntitle: About %s\nprocedure: phacoemulsification\n"+
		"technique: divide-and-conquer\ntimeline: [{at: 0:10, step: paracentesis}]\n%s---\n%s\n", id, id, release, body))}
}

// filesOf reads a folder.
func filesOf(t testing.TB, folder string) map[string][]byte {
	t.Helper()
	files := map[string][]byte{}
	err := filepath.WalkDir(folder, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(folder, name)
		if err != nil {
			return err
		}
		files[filepath.ToSlash(rel)], err = os.ReadFile(name)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// Every file of the demonstration handout, its manifest and the names are
// silent when they are scanned by somebody who did not write them.
func TestWrittenFilesAreSilent(t *testing.T) {
	files := filesOf(t, demoHandout(t))
	scan := privacy.New(privacy.Options{}).NewOutput()
	for name, data := range files {
		for _, f := range scan.Scan(name, data) {
			if f.Severity == privacy.Block {
				t.Errorf("%s: %v", name, f)
			}
		}
		for _, f := range privacy.Scan(privacy.Filename, name) {
			if f.Severity == privacy.Block {
				t.Errorf("the name %s: %v", name, f)
			}
		}
	}
	if len(files["manifest.json"]) == 0 {
		t.Error("no manifest was looked at")
	}
}

// Cases that are not released are shown only when asked for, and then every
// page says so.
func TestUnreleasedIsMarked(t *testing.T) {
	bank := fstest.MapFS{
		"bank.yaml":     {Data: []byte("title: Two cases\n")},
		"cases/ab-1.md": smallCase("AB-1", attested, "Ready."), "cases/ab-2.md": smallCase("AB-2", "", "Not ready."),
	}
	read, found, err := content.Read(bank)
	if err != nil || found.Failed() {
		t.Fatal(err, found.Summary())
	}
	out := filepath.Join(t.TempDir(), "handout")
	summary, err := builder.Build(read, builder.Options{Out: out, BankFiles: bank, WithUnreleased: true})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"AB-2"}, summary.HeldBack); diff != "" {
		t.Errorf("held back (-want +got):\n%s", diff)
	}
	files := filesOf(t, out)
	if files["cases/ab-2.html"] == nil {
		t.Error("the case that is not released is not there")
	}
	for name, data := range files {
		if strings.HasSuffix(name, ".html") && !bytes.Contains(data, []byte("This copy shows cases that have not been released")) {
			t.Errorf("%s is not marked", name)
		}
	}
	plain := filepath.Join(t.TempDir(), "plain")
	build(t, bank, plain)
	for name, data := range filesOf(t, plain) {
		if bytes.Contains(data, []byte("Not ready")) || bytes.Contains(data, []byte("AB-2")) || strings.Contains(name, "ab-2") {
			t.Errorf("%s shows the case that is held back", name)
		}
		if bytes.Contains(data, []byte("have not been released")) {
			t.Errorf("%s is marked and need not be", name)
		}
	}
}

// A published name that identifies stops the build, and the error masks it.
func TestNamesOfWrittenFiles(t *testing.T) {
	bank := fstest.MapFS{
		"bank.yaml":              {Data: []byte("title: One case\n")},
		"cases/mrn4471902-01.md": smallCase("MRN4471902", attested, "A plain story."),
	}
	read, _, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "handout")
	_, err = builder.Build(read, builder.Options{Out: out, BankFiles: bank})
	var identifying *builder.IdentifyingError
	if !errors.As(err, &identifying) {
		t.Fatalf("a record number went out as a file name: %v", err)
	}
	if strings.Contains(strings.ToLower(err.Error()), "4471902") || !strings.Contains(err.Error(), string(privacy.MRN)) {
		t.Errorf("the error does not name the class, or repeats the number:\n%v", err)
	}
	if _, err := os.Stat(out); !errors.Is(err, fs.ErrNotExist) {
		t.Error("something was written")
	}
}

// planted is one line of planted.jsonl.
type planted struct {
	File    string
	Action  string
	Planted []string
}

const pictureData = "../testdata/privacy/images"

func readPlanted(t *testing.T) []planted {
	t.Helper()
	f, err := os.Open(filepath.Join(pictureData, "planted.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var all []planted
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var p planted
		if err := json.Unmarshal(lines.Bytes(), &p); err != nil {
			t.Fatal(err)
		}
		all = append(all, p)
	}
	return all
}

// pictureBank shows one picture in one case, under the name that is given.
func pictureBank(t *testing.T, from, name string) fstest.MapFS {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(pictureData, from))
	if err != nil {
		t.Fatal(err)
	}
	return fstest.MapFS{
		"bank.yaml":     {Data: []byte("title: One picture\n")},
		"cases/ab-1.md": smallCase("AB-1", attested, "![What is to be seen](<"+name+">)"),
		"cases/" + name: {Data: data},
	}
}

// inBase64 are the runs of a text that may hold another file.
var inBase64 = regexp.MustCompile(`[A-Za-z0-9+/]{24,}=*`)

// holds looks for a text in a file as it stands, in UTF-16 and in what is coded
// within it. Compressed blocks are opened by the tests of package privacy.
func holds(data []byte, text string) bool {
	var wide []byte
	for _, u := range utf16.Encode([]rune(text)) {
		wide = append(wide, byte(u), byte(u>>8))
	}
	if bytes.Contains(data, []byte(text)) || bytes.Contains(data, wide) {
		return true
	}
	for _, run := range inBase64.FindAll(data, -1) {
		if inner, err := base64.StdEncoding.DecodeString(string(run)); err == nil && (bytes.Contains(inner, []byte(text)) || bytes.Contains(inner, wide)) {
			return true
		}
	}
	return false
}

// Nothing that was planted in a picture is anywhere in the handout, nor is the
// picture's own name; what cannot be cleaned is refused with words.
func TestPlantedPictures(t *testing.T) {
	shown := 0
	for _, p := range readPlanted(t) {
		name := "own-name-" + p.File
		bank := pictureBank(t, p.File, name)
		read, found, err := content.Read(bank)
		if err != nil {
			t.Fatal(p.File, err)
		}
		if p.Action == "refuse" {
			if !found.Failed() {
				t.Errorf("%s: was not refused", p.File)
			}
			continue
		}
		if found.Failed() {
			if p.Action == "strip" && filepath.Ext(p.File) != ".mp4" { // clips are no pictures of a narrative
				var text strings.Builder
				_ = found.WriteText(&text)
				t.Errorf("%s: refused:\n%s", p.File, &text)
			}
			continue
		}
		out := filepath.Join(t.TempDir(), "handout")
		if _, err := builder.Build(read, builder.Options{Out: out, BankFiles: bank}); err != nil {
			t.Fatalf("%s: %v", p.File, err)
		}
		files := filesOf(t, out)
		for _, file := range slices.Sorted(maps.Keys(files)) {
			for _, text := range append([]string{"own-name"}, p.Planted...) {
				if holds(files[file], text) {
					t.Errorf("%s: %q is in %s", p.File, text, file)
				}
			}
		}
		published := "cases/ab-1-01" + filepath.Ext(p.File)
		if files[published] == nil {
			t.Errorf("%s: no %s", p.File, published)
		}
		shown++
	}
	if shown < 4 {
		t.Errorf("only %d pictures were published; the test looks at too little", shown)
	}
}

// A web address that is written in a drawing is published where the bank allows
// its host, and stops nothing; another is left out of the drawing and reported.
func TestAllowedHostInDrawing(t *testing.T) {
	const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><text>https://guidance.example.org/rings</text></svg>`
	for allow, want := range map[string]int{"": 1, "privacy: {url_allow: [guidance.example.org]}\n": 0} {
		bank := fstest.MapFS{
			"bank.yaml":      {Data: []byte("title: One drawing\n" + allow)},
			"cases/ab-1.md":  smallCase("AB-1", attested, "![What is to be seen](plan.svg)"),
			"cases/plan.svg": {Data: []byte(drawing)},
		}
		read, found, err := content.Read(bank)
		if err != nil {
			t.Fatal(err)
		}
		identifying := slices.DeleteFunc(slices.Clone(found), func(d *diagnose.Diagnostic) bool { return d.Code != "identifying" })
		if n := len(identifying); n != want {
			t.Errorf("%q: %d findings, want %d", allow, n, want)
		}
		out := filepath.Join(t.TempDir(), "handout")
		summary, err := builder.Build(read, builder.Options{Out: out, BankFiles: bank})
		if err != nil {
			t.Fatal(err)
		}
		if len(summary.Warnings) > 0 {
			t.Errorf("%q: the written files were found to hold %v", allow, summary.Warnings)
		}
		if shown := bytes.Contains(filesOf(t, out)["cases/ab-1-01.svg"], []byte("guidance.example.org")); shown != (want == 0) {
			t.Errorf("%q: shown is %t", allow, shown)
		}
	}
}

// ScanFiles is what a zip and a preview ask: what blocks and what warns are
// told apart, the file's own name is looked at and masked, and files known byte
// for byte are let be.
func TestScanFiles(t *testing.T) {
	files := map[string][]byte{
		"a.html":             []byte("<p>Seen by Mrs Oxtallow. Exchanged in March.</p>"),
		"data/search.js":     []byte(`window.s = ["MRN 4471902", "clean"];`),
		"mrs-oxtallow.html":  []byte("<p>Hooks</p>"),
		"assets/library.js":  []byte(`var s = "Mrs Oxtallow";`),
		"assets/other.js":    []byte(`var s = "Hooks";`),
		"courses/lab-1.html": []byte("<p>Held in 2026 Q1.</p>"),
	}
	got := builder.ScanFiles(nil, maps.All(files), map[string]bool{"assets/library.js": true})
	lines := func(places []builder.Place) (out []string) {
		for _, p := range places {
			out = append(out, fmt.Sprintf("%s %s %s", p.File, p.Class, p.Rule))
		}
		return out
	}
	if diff := cmp.Diff([]string{"a.html name name.honorific", "data/search.js mrn mrn.label", "m•••••••• name name.honorific"}, lines(got.Blocks)); diff != "" {
		t.Errorf("blocks (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"a.html date date.month", "courses/lab-1.html date date.season"}, lines(got.Warnings)); diff != "" {
		t.Errorf("warnings (-want +got):\n%s", diff)
	}
	if err := got.Err(); err == nil || strings.Contains(err.Error(), "xtallow") {
		t.Errorf("the error is missing or tells: %v", err)
	}
	delete(files, "a.html")
	delete(files, "data/search.js")
	delete(files, "mrs-oxtallow.html")
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":        {Data: []byte("title: A lab\n")},
		"courses/lab.yaml": {Data: []byte("course: lab\ntitle: A lab\nperiod: 2026-Q1\nstart: \"09:00\"\ngroups: [{name: A, size: 2}]\nstations: [{id: a, title: Hooks, minutes: 30}]\n")},
	})
	if err != nil || found.Failed() {
		t.Fatal(err, found.Summary())
	}
	delete(files, "assets/library.js")
	if got := builder.ScanFiles(bank, maps.All(files), nil); len(got.Blocks)+len(got.Warnings) > 0 || got.Err() != nil {
		t.Errorf("a course's period was found: %v", got)
	}
}
