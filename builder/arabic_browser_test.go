package builder_test

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/chromedp/chromedp"
)

func arabicHandout(t *testing.T) string {
	out := filepath.Join(t.TempDir(), "handout")
	build(t, os.DirFS("../testdata/arabic"), out)
	return out
}

// mirrored measures a page that runs from right to left: what leaves the window on either
// side, a text of a drawing that leaves the drawing, and which side the page starts at.
const mirrored = `(() => {
  const out = [], root = document.documentElement, width = root.clientWidth;
  if (root.dir !== "rtl" || getComputedStyle(document.querySelector("main")).direction !== "rtl") out.push("does not run from right to left");
  if (root.scrollWidth > width) {
    const who = [...document.querySelectorAll("body *")].filter(e => {
      const r = e.getBoundingClientRect();
      return r.width && (r.left < -1 || r.right > width + 1) && !e.closest(".Scroll, .Table-scroll, pre, svg, .Unseen, .Skip");
    }).slice(0, 3).map(e => e.tagName + "." + e.className + " " + e.textContent.trim().slice(0, 30));
    out.push("scrolls sideways: " + who.join(" | "));
  }
  for (const svg of document.querySelectorAll("main svg")) {
    const box = svg.viewBox.baseVal;
    if (!svg.getBoundingClientRect().width) continue;
    if (getComputedStyle(svg).direction !== "ltr") out.push("a drawing is mirrored");
    for (const text of svg.querySelectorAll("text")) {
      const b = text.getBBox();
      if (b.x < box.x - 1 || b.x + b.width > box.x + box.width + 1) out.push("cut in a drawing: " + text.textContent);
    }
  }
  const title = document.querySelector("h1"), range = document.createRange();
  if (title) {
    range.selectNodeContents(title);
    const r = range.getBoundingClientRect(), m = document.querySelector("main").getBoundingClientRect();
    if (r.width < m.width / 2 && m.right - r.right > m.width / 2) out.push("the title does not start at the right");
  }
  return out;
})()`

// No page of the Arabic bank scrolls sideways on a small phone or a desk, its drawings keep
// their direction, and no text of theirs is cut.
func TestArabicPagesFitTheWindow(t *testing.T) {
	ctx := browser(t)
	folder := arabicHandout(t)
	pages, _ := readPages(t, folder)
	w := &watcher{root: fileURL(folder, "") + "/"}
	w.listen(t, ctx)
	for _, p := range oneIn(t, 3, slices.Sorted(maps.Keys(pages))) {
		open(t, ctx, folder, p, true)
		for _, width := range []int64{320, 1280} {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)); err != nil {
				t.Fatal(err)
			}
			for _, f := range evaluate[[]string](t, ctx, mirrored) {
				t.Errorf("%s at %d: %s", p, width, f)
			}
			faults, _ := w.take()
			for _, f := range faults {
				t.Errorf("%s at %d: %s", p, width, f)
			}
		}
	}
}
