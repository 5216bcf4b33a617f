package content_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/casebank"
	"caseleaf/content"
	"caseleaf/content/diagnose"

	"github.com/google/go-cmp/cmp"
)

// places lists diagnostics as file:line:column, with notes left out.
func places(found diagnose.Diagnostics) []string {
	var out []string
	for _, d := range found {
		if d.Severity != diagnose.Note {
			out = append(out, fmt.Sprintf("%s:%d:%d", d.Span.File(), d.Span.Line(), d.Span.Column()))
		}
	}
	return out
}

// The demonstration bank has nothing to mend.
func TestReadDemonstration(t *testing.T) {
	bank, found, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	if err := found.WriteText(&text); err != nil {
		t.Fatal(err)
	}
	if len(places(found)) > 0 {
		t.Errorf("the demonstration bank has faults:\n%s", &text)
	}
	if n := len(bank.Cases); n < 24 {
		t.Errorf("%d cases, want at least 24", n)
	}
	if n := bank.Logbook.Len(); n < 1400 || n > 1600 {
		t.Errorf("%d operations, want about 1500", n)
	}
}

// Twenty faults planted in twenty places are found, each at its place, and
// nothing else is; expected.txt was written by hand with the faults.
func TestReadFaulty(t *testing.T) {
	want, err := os.ReadFile("../testdata/faulty/expected.txt")
	if err != nil {
		t.Fatal(err)
	}
	var planted []string
	for line := range strings.Lines(string(want)) {
		place, _, _ := strings.Cut(line, ": ")
		planted = append(planted, strings.TrimSpace(place))
	}
	_, found, err := content.Read(os.DirFS("../testdata/faulty"))
	if err != nil {
		t.Fatal(err)
	}
	if len(planted) != 20 || !found.Failed() {
		t.Errorf("%d faults planted, want 20; failed: %v", len(planted), found.Failed())
	}
	if diff := cmp.Diff(planted, places(found)); diff != "" {
		t.Errorf("places (-want +got):\n%s", diff)
	}
}

// A second specialty needs a vocabulary and no code.
func TestReadSecondSpecialty(t *testing.T) {
	bank, found, err := content.Read(os.DirFS("../testdata/second-specialty"))
	if err != nil {
		t.Fatal(err)
	}
	if got := places(found); len(got) > 0 {
		t.Errorf("faults at %v", got)
	}
	if _, ok := bank.Vocabulary.Get("capsulorhexis"); ok {
		t.Error("the bank of another operation knows capsulorhexis")
	}
}

// A theme is a folder of the bank.
func TestTheme(t *testing.T) {
	for theme, fails := range map[string]bool{"theme": false, "themee": true, "../theme": true, "/etc": true, "bank.yaml": true} {
		files := fstest.MapFS{
			"bank.yaml":               {Data: []byte("title: T\ntheme: " + theme + "\n")},
			"theme/styles/99-own.css": {Data: []byte("p { color: red }\n")},
		}
		_, found, err := content.Read(files)
		if err != nil {
			t.Fatal(err)
		}
		if found.Failed() != fails {
			t.Errorf("theme %q: failed %v, want %v", theme, found.Failed(), fails)
		}
	}
}
