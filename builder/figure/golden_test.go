package figure

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// goldenFolder holds, for each sample, the record of both drawings, which tells what changed,
// and the SVG of the wide one.
const goldenFolder = "../../testdata/figure"

func TestGolden(t *testing.T) {
	wanted := map[string]bool{}
	for group, list := range samples() {
		for i, f := range list {
			if group == "strip" && i > 1 || group == "trees" && i > 2 {
				continue // generated at full size: the layout tests serve these
			}
			name := fmt.Sprintf("%s-%d", group, i)
			wide := f.Draw(Wide)
			golden(t, name+".record", wide.Record()+f.Draw(Narrow).Record(), wanted)
			golden(t, name+".svg", string(Alone(f)), wanted)
		}
	}
	files, err := os.ReadDir(goldenFolder)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !wanted[f.Name()] {
			t.Errorf("%s belongs to no sample", f.Name())
		}
	}
}

// golden compares one file, or writes it.
func golden(t *testing.T, name, got string, wanted map[string]bool) {
	t.Helper()
	wanted[name] = true
	path := filepath.Join(goldenFolder, name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (run with -update)", err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}
