package builder_test

import (
	"strings"
	"testing"
)

// On A4 and on Letter, in the usual faces, every bench of the demonstration
// course is one sheet of two sides, and the cards of six groups are two sheets.
func TestCourseSheetsOnPaper(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	folder := demoHandout(t)
	for _, paper := range papers {
		open(t, ctx, folder, "courses/wet-lab/stations.html", false)
		sides := printed(t, ctx, reader, paper.size)
		if len(sides) != 8 {
			t.Errorf("%s: 4 benches take %d sides, want 8", paper.name, len(sides))
			continue
		}
		for i, side := range sides {
			front := strings.Contains(side, "Station "+string(rune('1'+i/2)))
			if front != (i%2 == 0) || front && !strings.Contains(side, "First move") || !front && !strings.Contains(side, "Setting up") {
				t.Errorf("%s: side %d is not what it should be:\n%s", paper.name, i+1, side)
			}
		}
		open(t, ctx, folder, "courses/wet-lab/groups.html", false)
		sides = printed(t, ctx, reader, paper.size)
		if len(sides) != 2 {
			t.Fatalf("%s: 6 cards take %d sheets, want 2", paper.name, len(sides))
		}
		for g, name := range []string{"Group A", "Group B", "Group C", "Group D", "Group E", "Group F"} {
			for i, side := range sides {
				if has := strings.Contains(side, name); has != (i == g/4) {
					t.Errorf("%s: %s on sheet %d: %v", paper.name, name, i+1, has)
				}
			}
		}
	}
}
