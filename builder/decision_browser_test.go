package builder_test

import (
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// figureTexts shows both widths of every drawing of a page and lists texts that
// leave their drawing and pairs that overlap by more than half a pixel, as the
// browser measures them.
const figureTexts = `(() => {
  const out = [];
  let texts = 0, drawings = 0;
  const sheet = new CSSStyleSheet(); // a style element would be against the page's policy
  sheet.replaceSync("svg.figure-drawing, .Figure-part { display: block !important } details::details-content { content-visibility: visible; display: block; block-size: auto }");
  document.adoptedStyleSheets = [sheet];
  for (const svg of document.querySelectorAll("svg.figure-drawing")) {
    drawings++;
    const frame = svg.viewBox.baseVal, name = svg.getAttribute("aria-labelledby").split(" ")[0];
    const boxes = [...svg.querySelectorAll("text")].map(e => ({ s: e.textContent, b: e.getBBox() }));
    texts += boxes.length;
    boxes.forEach((a, i) => {
      if (a.b.x < -0.5 || a.b.y < -0.5 || a.b.x + a.b.width > frame.width + 0.5 || a.b.y + a.b.height > frame.height + 0.5)
        out.push(name + ": leaves the frame: " + a.s);
      for (const c of boxes.slice(i + 1)) {
        const w = Math.min(a.b.x + a.b.width, c.b.x + c.b.width) - Math.max(a.b.x, c.b.x);
        const h = Math.min(a.b.y + a.b.height, c.b.y + c.b.height) - Math.max(a.b.y, c.b.y);
        if (w > 0.5 && h > 0.5) out.push(name + ": overlap: " + a.s + " / " + c.s);
      }
    });
  }
  return { problems: out, texts, drawings };
})()`

type figureMeasure struct {
	Problems        []string
	Texts, Drawings int
}

// Every drawing on the demonstration's pages of decisions, chains and cases
// keeps its words inside and apart, wide and narrow.
func TestDemoFiguresInBrowser(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	pages := []string{"chains.html"}
	for _, part := range []string{"decisions", "cases"} {
		files, err := os.ReadDir(filepath.Join(folder, part))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			pages = append(pages, path.Join(part, f.Name()))
		}
	}
	texts, drawings := 0, 0
	for _, p := range pages {
		open(t, ctx, folder, p, true)
		got := evaluate[figureMeasure](t, ctx, figureTexts)
		for _, problem := range got.Problems {
			t.Errorf("%s: %s", p, problem)
		}
		if got.Drawings < 2 || got.Texts < 10 {
			t.Errorf("%s: only %d drawings with %d texts", p, got.Drawings, got.Texts)
		}
		texts, drawings = texts+got.Texts, drawings+got.Drawings
	}
	t.Logf("%d texts in %d drawings measured", texts, drawings)
}

// cardsOverflow lists cards whose words do not fit them, and how many there are.
const cardsOverflow = `(() => {
  const out = [];
  const cards = [...document.querySelectorAll(".Card")].filter(c => c.offsetHeight > 0);
  for (const c of cards) if (c.scrollHeight > c.clientHeight + 1) out.push(c.textContent.trim().slice(0, 40) + " " + c.scrollHeight + " > " + c.clientHeight);
  return { problems: out, texts: cards.length, drawings: new Set(cards.map(c => c.offsetHeight)).size };
})()`

// On paper every side of every card fits it, and all are of one size.
func TestCardsFitOnPaper(t *testing.T) {
	ctx := browser(t)
	// The width that 24 mm of margins leave of A4 and of Letter, in CSS pixels.
	for name, width := range map[string]int64{"A4": 703, "Letter": 725} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 1000)); err != nil {
			t.Fatal(err)
		}
		send(t, ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
		open(t, ctx, demoHandout(t), "cards.html", true)
		got := evaluate[figureMeasure](t, ctx, cardsOverflow)
		for _, problem := range got.Problems {
			t.Errorf("%s: %s", name, problem)
		}
		if got.Texts < 20 || got.Drawings != 1 {
			t.Errorf("%s: %d sides of cards in %d sizes", name, got.Texts, got.Drawings)
		}
	}
}

// The pages that decisions have of their own, at every width, with nothing but
// tables scrolling sideways.
func TestDecisionPagesFitTheWindow(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	questions, err := filepath.Glob(filepath.Join(folder, "questions", "*.html"))
	if err != nil || len(questions) == 0 {
		t.Fatalf("no questions: %v", err)
	}
	first := slices.Min(questions)
	pages := []string{"cards.html", "chains.html", "figures.html", "decisions/zonular-support.html", "questions/" + filepath.Base(first), "cases/hb-017.html"}
	for _, width := range []int64{320, 390, 1280} {
		for _, p := range pages {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)); err != nil {
				t.Fatal(err)
			}
			open(t, ctx, folder, p, true)
			for _, fault := range evaluate[[]string](t, ctx, wide) {
				t.Errorf("%s at %d: %s", p, width, fault)
			}
		}
	}
	for _, p := range pages {
		data, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(p)))
		if err != nil || strings.Contains(string(data), "%!") {
			t.Errorf("%s: %v, or a phrase without its argument", p, err)
		}
	}
}
