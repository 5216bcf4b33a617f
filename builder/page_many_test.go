package builder

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Where cases are many, the first page leads to the ways into their list instead of
// naming each of them.
func TestStartOfManyCases(t *testing.T) {
	site, _ := demoPages(t)
	few, many := site.startPages(len(site.Bank.Cases))[0].Data.(*StartPage), site.startPages(10)[0].Data.(*StartPage)
	if len(few.Contents) != len(site.Bank.Cases) || few.Ways != nil {
		t.Errorf("%d cases are listed beside %d ways", len(few.Contents), len(few.Ways))
	}
	var got []string
	for _, way := range many.Ways {
		got = append(got, way.Path)
	}
	want := []string{casesPage}
	for _, way := range []string{"step", "complication", "technique", "decision", "risk", "surgeon"} {
		want = append(want, casesPage+"#page-by-"+way)
	}
	if diff := cmp.Diff(want, got); diff != "" || many.Contents != nil {
		t.Errorf("ways, beside %d cases (-want +got):\n%s", len(many.Contents), diff)
	}
}

// In parts the sheet of the progress page holds the same lines in the same order.
func TestSheetInParts(t *testing.T) {
	site, _ := demoPages(t)
	whole := site.progressPages(len(site.Bank.Cases))
	if len(whole) != 1 || len(whole[0].data().(*ProgressPage).Sheet) == 0 {
		t.Fatalf("%d pages where the sheet fits one", len(whole))
	}
	parts := site.progressPages(10)
	first := parts[0].data().(*ProgressPage)
	var sheet []SheetCase
	for i, page := range parts[1:] {
		p := page.data().(*ProgressPage)
		sheet = append(sheet, p.Sheet...)
		if page.Path != first.Parts[i].Path || p.Title != first.Parts[i].Text || p.Data != "" || len(p.Sheet) > 10 {
			t.Errorf("page %d is %s, %s, with %d cases", i, page.Path, p.Title, len(p.Sheet))
		}
	}
	if diff := cmp.Diff(whole[0].data().(*ProgressPage).Sheet, sheet); diff != "" || first.Sheet != nil || len(parts) < 3 {
		t.Errorf("%d parts (-whole +parts):\n%s", len(parts)-1, diff)
	}
}
