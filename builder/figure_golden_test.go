package builder

import (
	"crypto/sha256"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/figure"
)

var updateDemo = flag.Bool("update", false, "rewrite the figures of the demonstration bank")

// demoFigures is the folder of the demonstration bank's figures as they were looked at: the
// sum of every file, and one whole file of each kind, in which a change can be read.
//
//	go test ./builder -run DemoFigures -update
const demoFigures = "../testdata/demo-figures"

// TestDemoFigures holds the files for slides to what was looked at.
func TestDemoFigures(t *testing.T) {
	site, _ := demoPages(t)
	var sums strings.Builder
	whole := map[string][]byte{}
	drawn := slices.Clone(site.drawn)
	slices.SortFunc(drawn, func(a, b drawnFigure) int { return strings.Compare(a.path, b.path) })
	for _, d := range drawn {
		svg := figure.Alone(site.figureOf(d))
		fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(svg), d.path)
		if _, seen := whole[string(d.kind)+".svg"]; !seen {
			whole[string(d.kind)+".svg"] = svg
		}
	}
	if len(whole) < 11 || len(drawn) < 100 {
		t.Errorf("only %d figures of %d kinds", len(drawn), len(whole))
	}
	whole["sums.txt"] = []byte(sums.String())
	for name, got := range whole {
		path := filepath.Join(demoFigures, name)
		if *updateDemo {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatalf("%v (run with -update)", err)
		}
		if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}
