package builder_test

import (
	"cmp"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"caseleaf/builder"
	"caseleaf/casebank"
	"caseleaf/content"
)

// everyKind is, of every template that the demonstration handout uses, the page
// that is largest, and those of pageKinds. A new kind of page is in it as soon as
// it is planned.
func everyKind(t *testing.T) []string {
	t.Helper()
	largest := map[string]string{}
	size := map[string]int64{}
	for _, p := range demoPages(t) {
		info, err := os.Stat(filepath.Join(demoHandout(t), filepath.FromSlash(p.Path)))
		if err != nil {
			t.Fatal(err)
		}
		if info.Size() > size[p.Template] {
			largest[p.Template], size[p.Template] = p.Path, info.Size()
		}
	}
	if len(largest) < 30 {
		t.Fatalf("only %d kinds of pages", len(largest))
	}
	list := slices.Concat(pageKinds, slices.Collect(maps.Values(largest)))
	slices.Sort(list)
	return slices.Compact(list)
}

// demoPages are the pages of the demonstration handout as they are planned.
func demoPages(t *testing.T) []builder.Page {
	t.Helper()
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	pages := builder.Plan(bank, builder.Options{BankFiles: casebank.FS()}).Pages
	slices.SortFunc(pages, func(a, b builder.Page) int { return cmp.Compare(a.Path, b.Path) })
	return pages
}
