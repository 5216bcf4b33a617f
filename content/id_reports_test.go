package content_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/content"

	"github.com/google/go-cmp/cmp"
)

// idsSaid reads the cases of a field report's folder and gives what is said of
// their ids. (Other keys of the files are of an older form.)
func idsSaid(t *testing.T, folder string) []string {
	t.Helper()
	bank := fstest.MapFS{"bank.yaml": {Data: []byte("title: T\nedition: \"2026\"\n")}}
	entries, err := os.ReadDir("../testdata/field-reports/" + folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, err := os.ReadFile("../testdata/field-reports/" + folder + "/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		bank["cases/"+e.Name()] = &fstest.MapFile{Data: data}
	}
	_, found, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, d := range found {
		if d.Code == "bad-id" || d.Code == "duplicate-id" {
			words, _, _ := strings.Cut(d.Message, ":")
			said = append(said, fmt.Sprintf("%s %s:%d %s", d.Severity, strings.TrimPrefix(d.Span.File(), "cases/"), d.Span.Line(), words))
		}
	}
	slices.Sort(said)
	return said
}

// FR-21: ids with signs that no file can have are refused, each at its line and
// as typed. CON, aux.1, COM¹ and HB-021. are accepted; their pages get safe
// names, which package builder tests.
func TestReservedIDs(t *testing.T) {
	want := []string{
		`error case-03.md:2 "HB/021" can't be an id`, `error case-04.md:2 "HB`, `error case-06.md:2 "HB-021 " can't be an id`,
		`error case-07.md:2 ".." can't be an id`, `error case-09.md:2 "*first*" can't be an id`, `error case-10.md:2 "n<u>l" can't be an id`,
	}
	if diff := cmp.Diff(want, idsSaid(t, "fr-21-reserved")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// FR-22: ids that would share a page on some system are refused in pairs; a
// space is never turned into a hyphen, so it is refused too.
func TestCollidingIDs(t *testing.T) {
	want := []string{
		`error five.md:2 "HB 023" can't be an id`,
		`error three.md:2 case "Étude-1" and "` + "E\u0301" + `tude-1" in cases/four.md differ only in how the letter is stored`,
		`error two.md:2 case "hb-022" and "HB-022" in cases/one.md differ only in capitals`,
	}
	if diff := cmp.Diff(want, idsSaid(t, "fr-22-collisions")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
