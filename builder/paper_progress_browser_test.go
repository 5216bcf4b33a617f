package builder_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// pageNumber is what the foot of each sheet says.
var pageNumber = regexp.MustCompile(`^\d+ / \d+$`)

// linesOf are the lines of a sheet of paper that hold text, without its number.
func linesOf(sheet string) []string {
	var lines []string
	for line := range strings.Lines(sheet) {
		if line = single(line); line != "" && !pageNumber.MatchString(line) {
			lines = append(lines, line)
		}
	}
	return lines
}

// answerAll notes an answer to every decision point of the bank, as the pages of
// the cases would, and gives how many.
const answerAll = `(() => {
  const bank = document.querySelector(".js-progress-page").dataset.bank;
  let n = 0;
  for (const c of window.caseleafExercise) for (const s of c.stops || []) {
    window.caseleafStore.put(bank, c.id + "/" + s.key, { c: s.options[n % s.options.length][0], s: n % 4, o: 1 });
    n++;
  }
  return n;
})()`

// The sheet to tick has no case's name and no head of a table at the end of a
// page, and begins under what heads the page; what was noted has no answer apart
// from its question.
func TestProgressOnPaper(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	folder := demoHandout(t)
	open(t, ctx, folder, "progress.html", true)
	heads := evaluate[[]string](t, ctx, `Array.from(document.querySelectorAll(".Sheets caption, .Sheets thead th"), e => e.textContent.trim().replace(/\s+/g, " "))`)
	for _, paper := range oneIn(t, 2, papers) {
		sheets := printed(t, ctx, reader, paper.size)
		for i, sheet := range sheets {
			lines := linesOf(sheet)
			if last := lines[len(lines)-1]; slices.Contains(heads, last) {
				t.Errorf("%s: sheet %d of %d ends with %q", paper.name, i+1, len(sheets), last)
			}
		}
		if !strings.Contains(sheets[0], "☐") {
			t.Errorf("%s: nothing is to be ticked on the first sheet: %q", paper.name, single(sheets[0]))
		}
	}
	if n := evaluate[int](t, ctx, answerAll); n < 40 {
		t.Fatalf("only %d decision points", n)
	}
	open(t, ctx, folder, "progress.html", true)
	for _, paper := range oneIn(t, 2, papers) {
		sheets := printed(t, ctx, reader, paper.size)
		if len(sheets) < 3 || strings.Contains(strings.Join(sheets, ""), "☐") {
			t.Errorf("%s: %d sheets, with boxes to tick or too few", paper.name, len(sheets))
		}
		for i, sheet := range sheets {
			for _, answer := range []string{"You chose", "So did the case", "The case chose", "What came of it"} {
				if first := linesOf(sheet)[0]; strings.HasPrefix(first, answer) {
					t.Errorf("%s: sheet %d of %d begins with %q", paper.name, i+1, len(sheets), first)
				}
			}
		}
	}
}

// What was done at a decision point stands on one sheet, beside its bar.
func TestAnswersAreNotCut(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	folder := demoHandout(t)
	for _, p := range []string{"cases/hb-009.html", "cases/hb-022.html", "cases/hb-017.html"} {
		open(t, ctx, folder, p, true)
		answers := evaluate[[]string](t, ctx, `Array.from(document.querySelectorAll(".Answer > .Reveal-body"), e => Array.from(e.querySelectorAll(":scope > p:not(.Yours)"), p => p.textContent).join(" "))`)
		if len(answers) < 2 {
			t.Fatalf("%s: %d answers", p, len(answers))
		}
		for _, paper := range oneIn(t, 2, papers) {
			sheets := printed(t, ctx, reader, paper.size)
			for _, answer := range answers {
				whole := func(sheet string) bool { return strings.Contains(squeezed(single(sheet)), squeezed(single(answer))) }
				if !slices.ContainsFunc(sheets, whole) {
					t.Errorf("%s, %s: cut in two: %q", p, paper.name, single(answer))
				}
			}
		}
	}
}

// light lists, of the page as it is printed, what is not dark on white: text
// lighter than the quiet ink, or on a ground that is not white.
const light = `(() => {
  const out = new Set(), parts = c => (c.match(/[\d.]+/g) || []).map(Number);
  for (const e of document.querySelectorAll("body *")) {
    const s = getComputedStyle(e);
    if (!e.checkVisibility() || e.closest("svg") && e.tagName !== "text") continue;
    const [r, g, b, a] = parts(s.backgroundColor);
    if (a !== 0 && Math.min(r, g, b) < 255) out.add(e.tagName + "." + e.className + " on " + s.backgroundColor);
    const says = Array.from(e.childNodes).some(n => n.nodeType === 3 && n.data.trim());
    const ink = e.tagName === "text" ? s.fill : s.color;
    if (says && Math.max(...parts(ink).slice(0, 3)) > 0x60) out.add(e.tagName + "." + (e.className.baseVal || e.className) + " in " + ink);
  }
  return Array.from(out).slice(0, 8);
})()`

// Every kind of page prints dark on white for a reader who prefers dark.
func TestDarkPrintsDarkOnWhite(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	preferring(t, ctx, "dark")
	open(t, ctx, folder, "about.html", true)
	if len(evaluate[[]string](t, ctx, light)) == 0 {
		t.Error("nothing of the dark page is light on dark: the check sees nothing")
	}
	printing(t, ctx, "dark")
	for _, p := range oneIn(t, 2, everyKind(t)) {
		open(t, ctx, folder, p, true)
		for _, fault := range evaluate[[]string](t, ctx, light) {
			t.Errorf("%s: %s", p, fault)
		}
	}
}

// A photograph is printed from its largest copy, in a window that loads the
// smallest for the screen. The browser is told to print by its command line: by
// the protocol of the other tests it does not wait for what it loads for paper.
func TestPaperHasTheLargestPicture(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "handout")
	build(t, photoBank(t), folder)
	paper := filepath.Join(t.TempDir(), "case.pdf")
	print := exec.Command(chromium(t), "--headless=new", "--no-sandbox", "--disable-gpu", "--window-size=500,800",
		"--user-data-dir="+t.TempDir(), "--print-to-pdf="+paper, fileURL(folder, "cases/ab-1.html"))
	if out, err := print.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	data, err := os.ReadFile(paper)
	if err != nil {
		t.Fatal(err)
	}
	var widths []string
	for _, dictionary := range regexp.MustCompile(`<<[^<>]*/Subtype\s*/Image[^<>]*>>`).FindAll(data, -1) {
		widths = append(widths, string(regexp.MustCompile(`/Width\s+\d+`).Find(dictionary)))
	}
	if !slices.Equal(widths, []string{"/Width 1800"}) {
		t.Errorf("pictures on paper: %q, want one of 1800 pixels", widths)
	}
}
