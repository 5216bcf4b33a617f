package builder_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/builder"
	"caseleaf/content"
	"caseleaf/content/diagnose"

	"github.com/chromedp/cdproto/emulation"
	"golang.org/x/net/html"
)

// today writes a report's front matter in the words of today; the fault stays.
var today = strings.NewReplacer(
	"procedure: cataract\n", "procedure: phacoemulsification\n",
	"technique: phaco-divide-and-conquer\n", "technique: divide-and-conquer\n",
	"{type: nuclear,", "{type: nuclear-cataract,",
	"alpha-blocker]", "alpha-blocker-use]", "step: incision}", "step: main-incision}",
)

const releaseLine = "\nrelease: {consent: recorded, reviewed_by: consultant, reviewed: 2026, face: no, text_in_pictures: no, sound: none, otherwise_findable: no}\n---\n"

// reportHandout builds the cases of a field report into a handout.
func reportHandout(t *testing.T, report string) string {
	t.Helper()
	folder := filepath.Join("..", "testdata", "field-reports", report)
	files, err := filepath.Glob(filepath.Join(folder, "*.md"))
	if err != nil || len(files) == 0 {
		t.Fatalf("%s: %v, %d files", report, err, len(files))
	}
	bank := fstest.MapFS{"bank.yaml": {Data: []byte("title: T\nedition: \"2026\"\nrare_combination: 1\n")}}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Replace(today.Replace(string(data)), "\n---\n", releaseLine, 1)
		bank["cases/"+filepath.Base(f)] = &fstest.MapFile{Data: []byte(text)}
	}
	read, found, err := content.Read(bank)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range found {
		if d.Severity == diagnose.Error {
			t.Fatalf("%s: %s:%d %s", report, d.Span.File(), d.Span.Line(), d.Message)
		}
	}
	out := filepath.Join(t.TempDir(), "handout")
	if _, err := builder.Build(read, builder.Options{Out: out, BankFiles: bank}); err != nil {
		t.Fatal(err)
	}
	return out
}

// FR-15: two cases that both number their notes from 1 stand in one booklet. No
// id is there twice, and every call leads to the note of its own case and back.
func TestNotesOfTwoCasesInOneBooklet(t *testing.T) {
	folder := reportHandout(t, "fr-15-footnotes")
	f, err := os.Open(filepath.Join(folder, "booklets", "all-tutors.html"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	root, err := html.Parse(f)
	if err != nil {
		t.Fatal(err)
	}
	byID := map[string]*html.Node{}
	for n := range root.Descendants() {
		for _, a := range n.Attr {
			if a.Key != "id" {
				continue
			}
			if byID[a.Val] != nil {
				t.Errorf("id %q stands twice", a.Val)
			}
			byID[a.Val] = n
		}
	}
	calls, backs := 0, 0
	for n := range root.Descendants() {
		role, href := attribute(n, "role"), attribute(n, "href")
		if role != "doc-noteref" && role != "doc-backlink" {
			continue
		}
		to := byID[strings.TrimPrefix(href, "#")]
		if to == nil {
			t.Errorf("%s leads to nothing", href)
			continue
		}
		from, there := caseAround(n), caseAround(to)
		if from == "" || from != there {
			t.Errorf("%s leads from %q to %q", href, from, there)
		}
		if role == "doc-noteref" {
			calls++
		} else {
			backs++
		}
	}
	// Note 1 is called twice and the ring's once, in each of two cases.
	if calls != 6 || backs != 6 {
		t.Errorf("%d calls and %d ways back, want 6 and 6", calls, backs)
	}
}

func attribute(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// caseAround is the id of the case that a part of a booklet belongs to.
func caseAround(n *html.Node) string {
	for ; n != nil; n = n.Parent {
		if classOf(n) == "Booklet-case" {
			return attribute(n, "id")
		}
	}
	return ""
}

// FR-25: a long case with twelve reveals and a table of ninety rows, printed on
// A4 and Letter with dark preferred, with script and without. Every string of
// must-print.txt is on paper and none of must-not-print.txt, and the head of the
// table stands once on every page that the table is on.
func TestFieldReportOnPaper(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	folder := reportHandout(t, "fr-25-print")
	send(t, ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}},
	})
	reading := regexp.MustCompile(`reading number \d+`)
	for _, paper := range oneIn(t, 2, papers) {
		for _, script := range []bool{true, false} {
			where := fmt.Sprintf("%s, script %v", paper.name, script)
			open(t, ctx, folder, "cases/hb-128.html", script)
			pages := printed(t, ctx, reader, paper.size)
			text := single(strings.Join(pages, "\n"))
			for _, want := range linesIn(t, "fr-25-print/must-print.txt") {
				if !strings.Contains(text, want) {
					t.Errorf("%s: %q is not on paper", where, want)
				}
			}
			for _, never := range linesIn(t, "fr-25-print/must-not-print.txt") {
				if strings.Contains(strings.ToLower(text), strings.ToLower(never)) {
					t.Errorf("%s: %q is on paper", where, never)
				}
			}
			if !strings.Contains(text, "https://example.org/guide") {
				t.Errorf("%s: the address of a link that leads outside is not on paper", where)
			}
			tables := 0
			for i, p := range pages {
				if !reading.MatchString(p) {
					continue
				}
				tables++
				if n := strings.Count(p, "Remark-HEAD"); n != 1 {
					t.Errorf("%s: page %d has the head of the table %d times", where, i+1, n)
				}
			}
			if tables < 2 {
				t.Errorf("%s: the table is on %d pages; it is longer than one", where, tables)
			}
		}
	}
}

// linesIn are the lines of a file of the field reports.
func linesIn(t *testing.T, name string) []string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "field-reports", filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for line := range strings.Lines(string(data)) {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}
