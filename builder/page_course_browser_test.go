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
	for _, paper := range oneIn(t, 2, papers) {
		open(t, ctx, folder, "courses/wet-lab/stations.html", false)
		sides := printed(t, ctx, reader, paper.size)
		if len(sides) != 8 {
			t.Errorf("%s: 4 benches take %d sides, want 8", paper.name, len(sides))
			continue
		}
		for i, side := range sides {
			front := strings.Contains(side, "First move")
			if front != (i%2 == 0) || !front && !strings.Contains(side, "Setting up") || !strings.Contains(side, "Station "+string(rune('1'+i/2))) {
				t.Errorf("%s: side %d is not what it should be:\n%s", paper.name, i+1, side)
			}
		}
		open(t, ctx, folder, "courses/wet-lab/tutors.html", false)
		if sides = printed(t, ctx, reader, paper.size); len(sides) != 5 {
			t.Fatalf("%s: cautions and 4 tutors' sheets take %d sides, want 5", paper.name, len(sides))
		}
		for i, side := range sides {
			if !strings.Contains(side, "defers to the local protocol") || i > 0 && !strings.Contains(side, "Clearing up") {
				t.Errorf("%s: tutors' sheet %d is not whole:\n%s", paper.name, i+1, side)
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
				if strings.Contains(side, "HB-\n") {
					t.Errorf("%s: an id is cut in two on sheet %d", paper.name, i+1)
				}
			}
		}
	}
}

// lastWords gives the last line of a sheet that is not its number.
func lastWords(sheet string) string {
	last := ""
	for line := range strings.Lines(sheet) {
		if line = single(line); line != "" && !strings.Contains(line, " / ") {
			last = line
		}
	}
	return last
}

// In neither copy of a course's booklet does a sheet end with a head or hold a
// single line, and what is written when the tutor has told the end stands on one
// sheet.
func TestBookletHeadsStayWithTheirText(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	for _, paper := range oneIn(t, 2, papers) {
		for kind, wantEndings := range map[string]int{"participants": 10, "tutors": 0} {
			open(t, ctx, demoHandout(t), "courses/wet-lab/booklet-"+kind+".html", false)
			endings := 0
			for i, sheet := range printed(t, ctx, reader, paper.size) {
				last := lastWords(sheet)
				for _, head := range []string{"Decision 1", "Decision 2", "Decision 3", "Up to here", "Since then", "What happened", "Timing", "Sources"} {
					if strings.HasSuffix(last, head) || strings.Contains(last, " · "+head) {
						t.Errorf("%s, %s: sheet %d ends with %q", kind, paper.name, i+1, last)
					}
				}
				if strings.Contains(sheet, "defers to the local protocol") && i > 0 {
					t.Errorf("%s, %s: sheet %d holds the foot of the page", kind, paper.name, i+1)
				}
				if ends := strings.Contains(sheet, "When the tutor has told the end"); ends != strings.Contains(sheet, "What I will remember") {
					t.Errorf("%s, %s: sheet %d has a part of the ending", kind, paper.name, i+1)
				} else if ends {
					endings++
				}
			}
			if endings != wantEndings {
				t.Errorf("%s, %s: %d endings, want %d", kind, paper.name, endings, wantEndings)
			}
		}
	}
}

// The overview of a course on paper: no sheet ends with a head or is bare, no
// word is cut, and the names in the figure are whole.
func TestCourseOverviewOnPaper(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	open(t, ctx, demoHandout(t), "courses/wet-lab.html", false)
	for _, paper := range oneIn(t, 2, papers) {
		sheets := printed(t, ctx, reader, paper.size)
		for i, sheet := range sheets {
			if last := lastWords(sheet); last == "Stations" || last == "How even it is" || last == "Timetable" {
				t.Errorf("%s: sheet %d ends with %q", paper.name, i+1, last)
			}
		}
		text := strings.Join(sheets, "\f")
		for _, whole := range []string{"Microscope room", "No rotation of so many groups and stations is more even."} {
			if !strings.Contains(text, whole) {
				t.Errorf("%s: %q is not there in one piece", paper.name, whole)
			}
		}
		fairness := strings.Index(text, "How even it is")
		if rest := text[fairness:]; strings.Contains(rest[:strings.Index(rest, "more even.")], "\f") || strings.Contains(text, "…") {
			t.Errorf("%s: the words on the rotation run over two sheets, or a name is shortened", paper.name)
		}
	}
}
