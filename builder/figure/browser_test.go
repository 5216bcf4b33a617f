package figure

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// browserPath finds a browser, or skips the test with a word; where CASELEAF_BROWSER is
// "required", having none is a failure.
func browserPath(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "headless-shell"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("CASELEAF_BROWSER") == "required" {
		t.Fatal("no browser found, and CASELEAF_BROWSER=required")
	}
	t.Skip("SKIPPED: no browser found; the labels were not measured in one")
	return ""
}

// measureTexts lists texts that leave their drawing and pairs that overlap by more than half
// a pixel, as the browser measures them.
const measureTexts = `(() => {
  const out = [];
  let texts = 0, drawings = 0;
  for (const svg of document.querySelectorAll("svg.figure-drawing")) {
    drawings++;
    const frame = svg.viewBox.baseVal, name = svg.parentNode.id + " " + svg.classList[1];
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

// measured is what measureTexts returns.
type measured struct {
	Problems        []string
	Texts, Drawings int
}

// TestInBrowser measures all figures in a browser in the widest common faces, wide and
// narrow: no text outside its viewBox, no two texts overlapping.
func TestInBrowser(t *testing.T) {
	path := browserPath(t)
	page := filepath.Join(t.TempDir(), "all.html")
	all := everyFigure()
	for _, face := range []string{"system-ui", "DejaVu Sans", "Liberation Sans"} {
		if err := os.WriteFile(page, browserPage(all, face), 0o644); err != nil {
			t.Fatal(err)
		}
		got := inBrowser(t, path, page)
		if got.Drawings != 2*len(all) || got.Texts < 10*len(all) {
			t.Fatalf("%s: %d drawings of %d figures with %d texts were measured", face, got.Drawings, len(all), got.Texts)
		}
		for i, p := range got.Problems {
			if i == 20 {
				t.Errorf("%s: and %d more", face, len(got.Problems)-i)
				break
			}
			t.Errorf("%s: %s", face, p)
		}
		t.Logf("%s: %d texts in %d drawings measured", face, got.Texts, got.Drawings)
	}
}

// browserPage shows every figure at both widths.
func browserPage(all map[string]Figure, face string) []byte {
	names := make([]string, 0, len(all))
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	var b bytes.Buffer
	b.WriteString(`<!doctype html><meta charset="utf-8"><style>` + StyleSheet() +
		`svg.figure-drawing { display: block !important; max-width: none; } text { font-family: "` + face + `", sans-serif }</style>`)
	for _, name := range names {
		b.WriteString(`<div id="` + name + `">`)
		b.Write(SVG(all[name]))
		b.WriteString("</div>\n")
	}
	return b.Bytes()
}

// inBrowser opens a page without network and measures it.
func inBrowser(t *testing.T, path, page string) measured {
	t.Helper()
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.UserDataDir(t.TempDir()))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), opts...)
	defer cancel()
	ctx, cancel = context.WithTimeout(ctx, 5*time.Minute) // a stuck browser, not slowness
	defer cancel()
	ctx, cancel = chromedp.NewContext(ctx)
	defer cancel()
	if _, err := chromedp.Run(ctx, chromedp.Navigate("file://"+page)); err != nil {
		t.Fatal(err)
	}
	got, err := chromedp.Run(ctx, chromedp.Evaluate[measured](measureTexts))
	if err != nil {
		t.Fatal(err)
	}
	return got
}
