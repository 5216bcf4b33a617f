package builder_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// larger opens all that is folded and makes the text of a page twice as large, as
// a reader does who sets the size of letters, or spaces it as WCAG 2.2, 1.4.12
// has it.
const larger = `((size, spaced) => {
  for (const d of document.querySelectorAll("details")) d.open = true;
  document.documentElement.style.fontSize = size;
  const sheet = new CSSStyleSheet();
  if (spaced) sheet.replaceSync("* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-block-end: 2em !important; }");
  document.adoptedStyleSheets = [sheet];
})`

// lost lists what a page loses by its text's size or spacing: text that its box
// cuts off, that stands on other text, or that is wider than the window and in no
// box that scrolls by itself. Of text in such a box what can be seen of it counts,
// and of a line three quarters: its sign above and below may touch others.
const lost = `(() => {
  const out = [], lines = [], width = document.documentElement.clientWidth;
  const say = (what, e) => out.length < 6 && out.push(what + ": " + e.tagName + "." + e.className + " " + e.textContent.trim().replace(/\s+/g, " ").slice(0, 40));
  const kept = new Map(), know = (e, make) => { if (!kept.has(e)) kept.set(e, make(e)); return kept.get(e); };
  // of is what is known of an element: whether it is passed over, and the box that what is in it is seen through.
  const of = e => know(e, () => {
    const up = e.parentElement ? of(e.parentElement) : { passed: false, scrolls: false, left: -1e6, right: 1e6, top: -1e6, bottom: 1e6 };
    const style = getComputedStyle(e), me = { ...up, style };
    me.passed = up.passed || e.matches("svg, .Unseen, .Skip, option, noscript") || e.offsetWidth === 1 || !e.checkVisibility({ visibilityProperty: true });
    if (e !== document.body && e !== document.documentElement && style.display !== "inline" && style.overflowX !== "visible") {
      const r = e.getBoundingClientRect();
      me.scrolls = up.scrolls || /auto|scroll/.test(style.overflowX);
      me.left = Math.max(up.left, r.left), me.right = Math.min(up.right, r.right), me.top = Math.max(up.top, r.top), me.bottom = Math.min(up.bottom, r.bottom);
    }
    return me;
  });
  if (document.documentElement.scrollWidth > width) out.push("the page scrolls sideways: " + document.documentElement.scrollWidth + " in " + width);
  for (const e of document.body.querySelectorAll("*")) {
    const { passed, style } = of(e);
    if (passed || style.display === "inline" || !e.clientWidth) continue;
    if (!/auto|scroll/.test(style.overflowX) && e.scrollWidth > e.clientWidth + 1 && (style.overflowX !== "visible" || e.matches("input, select, button"))) say("cut off at its side", e);
    if (/hidden|clip/.test(style.overflowY) && e.scrollHeight > e.clientHeight + 1) say("cut off below", e);
  }
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), range = document.createRange();
  for (let n; n = walker.nextNode();) {
    const parent = n.parentElement, box = of(parent);
    if (!n.data.trim() || box.passed) continue;
    range.selectNodeContents(n);
    for (const r of range.getClientRects()) {
      if (r.width < 1) continue;
      if (!box.scrolls && (r.right > width + 1 || r.left < -1)) say("beyond the window", parent);
      const left = Math.max(r.left, box.left) + 1, right = Math.min(r.right, box.right) - 1;
      const top = Math.max(r.top + r.height / 8, box.top), bottom = Math.min(r.bottom - r.height / 8, box.bottom);
      if (left < right && top < bottom && !parent.closest("sup, sub")) lines.push({ parent, left, right, top, bottom });
    }
  }
  lines.sort((a, b) => a.top - b.top);
  lines.forEach((a, i) => {
    for (let k = i + 1; k < lines.length && lines[k].top < a.bottom; k++) {
      const b = lines[k];
      if (a.left < b.right && b.left < a.right) say("stands on other text", b.parent);
    }
  });
  return out;
})()`

// With text twice as large, by the size of letters or by the browser's zoom, and
// with more room between letters, words and lines (WCAG 2.2, 1.4.4 and 1.4.12), no
// page of any kind loses text, on a phone or on a wide screen.
func TestLargeTextIsWhole(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	for _, p := range oneIn(t, 6, everyKind(t)) {
		open(t, ctx, folder, p, true)
		for _, way := range []struct {
			name          string
			width, height int64
			scale         float64
			larger        string
		}{
			{"a phone, letters twice as large", 390, 844, 1, `("200%", false)`},
			{"a phone, spaced", 390, 844, 1, `("", true)`},
			{"a wide screen, spaced", 1280, 800, 1, `("", true)`},
			{"a wide screen, letters twice as large", 1280, 800, 1, `("200%", false)`},
			{"a wide screen, zoomed to 200 %", 640, 400, 2, `("", false)`},
		} {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(way.width, way.height, chromedp.EmulateScale(way.scale))); err != nil {
				t.Fatal(err)
			}
			evaluate[chromedp.Void](t, ctx, larger+way.larger)
			for _, f := range evaluate[[]string](t, ctx, lost) {
				t.Errorf("%s, %s: %s", p, way.name, f)
			}
		}
	}
}

// The measure sees text that is cut off, that stands on other text or on its own
// next line, and that is too wide; what scrolls by itself it lets pass.
func TestLostTextIsSeen(t *testing.T) {
	ctx := browser(t)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 844)); err != nil {
		t.Fatal(err)
	}
	open(t, ctx, demoHandout(t), "about.html", true)
	for _, c := range []struct{ style, want string }{
		{"", ""},
		{"height: 1em; overflow: hidden", "cut off below"},
		{"white-space: nowrap; overflow: hidden", "cut off at its side"},
		{"margin-block-end: -4em", "stands on other text"},
		{"line-height: 0.4", "stands on other text"},
		{"white-space: nowrap", "beyond the window"},
		{"white-space: nowrap; overflow-x: auto", ""},
	} {
		evaluate[bool](t, ctx, `(document.querySelector("main p").style.cssText = "`+c.style+`", true)`)
		found := evaluate[[]string](t, ctx, lost)
		if seen := slices.ContainsFunc(found, func(f string) bool { return strings.HasPrefix(f, c.want) }); seen != (c.want != "") || !seen && len(found) > 0 {
			t.Errorf("style %q: found %q, want %q", c.style, found, c.want)
		}
	}
}

// moving counts what moves, or would move once it is pointed at or opened.
const moving = `(() => {
  const out = document.getAnimations().map(a => "runs: " + (a.animationName || a.transitionProperty || "an animation"));
  for (const e of document.querySelectorAll("*")) for (const part of [null, "::before", "::after", "::details-content"]) {
    const s = getComputedStyle(e, part), long = list => list.split(",").some(d => parseFloat(d) > 0.01);
    if (long(s.transitionDuration) || s.animationName !== "none" && long(s.animationDuration)) out.push("moves: " + e.tagName + "." + e.className + (part || ""));
    if (s.scrollBehavior === "smooth") out.push("glides: " + e.tagName);
  }
  return out.slice(0, 5);
})()`

// Where a reader prefers less motion, nothing on a page of any kind moves.
func TestNothingMovesForWhoPrefersSo(t *testing.T) {
	ctx := browser(t)
	send(t, ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: "reduce"}}})
	for _, p := range oneIn(t, 3, everyKind(t)) {
		open(t, ctx, demoHandout(t), p, true)
		if !evaluate[bool](t, ctx, `matchMedia("(prefers-reduced-motion: reduce)").matches`) {
			t.Fatal("the browser does not prefer less motion")
		}
		for _, f := range evaluate[[]string](t, ctx, moving) {
			t.Errorf("%s: %s", p, f)
		}
	}
	for fault, script := range map[string]string{
		"a transition": `document.querySelector("main p").style.transition = "color 1s"`,
		"a glide":      `document.documentElement.style.scrollBehavior = "smooth"`,
		"an animation": `document.querySelector("main p").animate([{ opacity: 0 }, { opacity: 1 }], 9000)`,
	} {
		open(t, ctx, demoHandout(t), "about.html", true)
		evaluate[bool](t, ctx, "("+script+", true)")
		if len(evaluate[[]string](t, ctx, moving)) == 0 {
			t.Errorf("%s is not seen", fault)
		}
	}
}
