package builder_test

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"caseleaf/casebank"
	"caseleaf/content"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// papers are the sizes that handouts are printed on.
var papers = []struct {
	name string
	size chromedp.PaperSize
}{{"A4", chromedp.PaperA4}, {"Letter", chromedp.PaperLetter}}

// pdfReader finds pdftotext. Without it the test is skipped, and fails where
// CASELEAF_BROWSER=required.
func pdfReader(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("pdftotext")
	if err == nil {
		return path
	}
	if os.Getenv("CASELEAF_BROWSER") == "required" {
		t.Fatal("CASELEAF_BROWSER=required and there is no pdftotext on PATH")
	}
	t.Skip("no pdftotext on PATH: paper was not read")
	return ""
}

// printed prints the open page and gives the text of each sheet.
func printed(t *testing.T, ctx context.Context, reader string, size chromedp.PaperSize) []string {
	t.Helper()
	data, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(reader, name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v", err)
	}
	// A form feed ends each page.
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

// widerFace sets all text in a face that is about a fifth wider than the usual
// ones, as a browser with other fonts might, and gives the face of the text. Of
// the sheets that a page may add, this kind is not the policy's to refuse.
const widerFace = `(() => { const s = new CSSStyleSheet();
  s.replaceSync('* { font-family: "DejaVu Serif", "DejaVu Sans", serif !important }'); document.adoptedStyleSheets = [s];
  return getComputedStyle(document.querySelector("h1")).fontFamily; })()`

// Every sheet for the evening before is one side of paper: of A4 in the usual
// faces, and of the shorter Letter in wider ones than most readers have, for the demonstration bank and for one of
// generated cases with far more to say of each step.
func TestEveningIsOneSheet(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	big := filepath.Join(t.TempDir(), "handout")
	build(t, benchBank(t, 120), big)
	for name, folder := range map[string]string{"demo": demoHandout(t), "generated": big} {
		sheets, err := filepath.Glob(filepath.Join(folder, "evening", "*.html"))
		if err != nil || len(sheets) < 20 {
			t.Fatalf("%s: %v, %d sheets", name, err, len(sheets))
		}
		for _, file := range oneIn(t, 4, sheets) {
			p := "evening/" + filepath.Base(file)
			open(t, ctx, folder, p, true)
			if pages := printed(t, ctx, reader, chromedp.PaperA4); len(pages) != 1 {
				t.Errorf("%s: %s takes %d pages of A4", name, p, len(pages))
			}
			if face := evaluate[string](t, ctx, widerFace); !strings.HasPrefix(face, `"DejaVu Serif"`) {
				t.Fatalf("the face is still %s", face)
			}
			if pages := printed(t, ctx, reader, chromedp.PaperLetter); len(pages) != 1 {
				t.Errorf("%s: %s takes %d pages of Letter in a wide face", name, p, len(pages))
			}
		}
	}
}

// Both copies of the booklet of all cases, printed by a reader who prefers dark,
// the participants' on A4 and Letter, the tutors' on A4: the participants' has every question and option and nothing
// that is withheld, the tutors' every question, reason and result.
func TestBookletsOnPaper(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	folder := demoHandout(t)
	bank, _, err := content.Read(casebank.FS())
	if err != nil {
		t.Fatal(err)
	}
	send(t, ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}},
	})
	for _, paper := range oneIn(t, 2, papers) {
		text := map[string]string{}
		for _, kind := range []string{"participants", "tutors"} {
			if kind == "tutors" && paper.name != "A4" {
				continue // two hundred pages more, in which nothing is withheld
			}
			open(t, ctx, folder, "booklets/all-"+kind+".html", false)
			text[kind] = single(strings.Join(printed(t, ctx, reader, paper.size), "\n"))
			for _, words := range []string{"When it goes wrong: a cataract teaching bank", "Edition 2026", "invented", "defers to the local protocol", "Calling a senior colleague"} {
				if !strings.Contains(text[kind], words) {
					t.Errorf("%s, %s: %q is not on the cover", kind, paper.name, words)
				}
			}
		}
		for _, c := range bank.Cases {
			asked, answered := questionsOf(c)
			for kind, wanted := range map[string][]string{"participants": asked, "tutors": append(asked, answered...)} {
				for _, want := range append(wanted, c.ID.Value) {
					if text[kind] != "" && !strings.Contains(text[kind], single(want)) {
						t.Errorf("%s, %s: %q of %s is not on paper", kind, paper.name, want, c.ID.Value)
					}
				}
			}
			for _, never := range withheld(bank, c) {
				if strings.Contains(text["participants"], single(never)) {
					t.Errorf("participants, %s: %q of %s is on paper", paper.name, never, c.ID.Value)
				}
			}
		}
	}
}

// questionsOf are the questions and options of a case, and its answers.
func questionsOf(c *content.Case) (asked, answered []string) {
	for _, e := range c.Decisions() {
		asked = append(asked, e.Decision.Question.Value)
		for _, o := range e.Decision.Options {
			asked = append(asked, o.Text.Value)
		}
		for _, g := range []content.Given[string]{e.Decision.Because, e.Decision.Result} {
			if g.Known() {
				answered = append(answered, g.Value)
			}
		}
	}
	return asked, answered
}

// The tutors' copy of a course and a sheet for the evening before, on Letter.
func TestCourseBookletOnPaper(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	folder := demoHandout(t)
	for p, wanted := range map[string][]string{
		"courses/wet-lab/booklet-tutors.html": {
			"Tutors’ copy", "Cases of the course", "HB-006", "What was done", "Began to noticed", "How completely it is reported", "CARE",
		},
		"evening/capsulorhexis.html": {
			"The evening before", "Have ready", "Watch for, in this order", "Capsulorhexis run-out", "Edge straightens and heads for the periphery",
			"median of 3 events", "Choices met here", "From the cases", "HB-003", "Cautions",
		},
	} {
		open(t, ctx, folder, p, false)
		text := single(strings.Join(printed(t, ctx, reader, chromedp.PaperLetter), "\n"))
		for _, want := range wanted {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not on paper", p, want)
			}
		}
	}
}

// No sheet of a page holds a heading alone, or the foot alone, or a bare trifle:
// each has some lines to read besides what every page ends with.
func TestSheetsAreNotBare(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	folder := demoHandout(t)
	for _, p := range []string{
		"index.html", "decisions.html", "frequencies.html", "cases/hb-009.html", "complications/posterior-capsule-tear.html",
		"cards.html", "chains.html",
	} {
		open(t, ctx, folder, p, true)
		foot := evaluate[string](t, ctx, `document.querySelector(".Foot").textContent`)
		for _, paper := range oneIn(t, 2, papers) {
			sheets := printed(t, ctx, reader, paper.size)
			for i, sheet := range sheets {
				lines := 0
				for line := range strings.Lines(sheet) {
					if line = single(line); len(line) > 8 && !strings.Contains(single(foot), line) {
						lines++
					}
				}
				if lines < 2 {
					t.Errorf("%s, %s: sheet %d of %d holds only %q", p, paper.name, i+1, len(sheets), single(sheet))
				}
			}
		}
	}
}
