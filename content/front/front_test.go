package front

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"caseleaf/content/diagnose"
)

const reports = "../../testdata/field-reports/"

func TestFirst(t *testing.T) {
	files, _ := filepath.Glob(reports + "fr-*.md")
	more, _ := filepath.Glob(reports + "fr-*/*.md")
	for _, f := range append(files, more...) {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		bag := diagnose.NewBag()
		src, ok := Normalise(strings.TrimPrefix(f, reports), data, bag)
		if ok {
			_, ok = Split(src, bag)
		}
		var b strings.Builder
		bag.Sorted().WriteText(&b)
		t.Logf("%s %v\n%s", f, ok, b.String())
	}
}
