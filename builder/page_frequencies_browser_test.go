package builder_test

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"caseleaf/builder"
	"caseleaf/content"
)

// fakeLibrary stands for the chart library: it takes what the real one takes,
// asks every formatter for every tip, and draws nothing.
const fakeLibrary = `window.echarts = { init: function (stage) {
  stage.textContent = "fake";
  return {
    setOption: function (o) {
      o.series.forEach(function (s) {
        (s.data || []).forEach(function (d) { if (d && d.tip) o.tooltip.formatter({ data: d }); });
      });
    },
    dispatchAction: function () {}, resize: function () {}, dispose: function () { stage.textContent = ""; }
  };
} };`

// realLibrary is the copy that an earlier build left in the user's cache. Tests
// ask no network: without a copy the part that needs it is skipped, and fails
// where CASELEAF_CHARTS=required.
func realLibrary(t *testing.T) *builder.Library {
	t.Helper()
	search := builder.LibrarySearch{}
	if cache, err := os.UserCacheDir(); err == nil {
		search.Cache = filepath.Join(cache, "caseleaf")
	}
	lib, note := search.Find()
	if lib == nil {
		if os.Getenv("CASELEAF_CHARTS") == "required" {
			t.Fatal("CASELEAF_CHARTS=required: " + note)
		}
		t.Skip("the real chart library was not tried: " + note)
	}
	return lib
}

// ratesHandout builds a bank with a library, or without.
func ratesHandout(t *testing.T, bank string, lib *builder.Library) string {
	t.Helper()
	files := os.DirFS(bank)
	read, found, err := content.Read(files)
	if err != nil || found.Failed() {
		t.Fatalf("%s: %v, failed %v", bank, err, found.Failed())
	}
	out := filepath.Join(t.TempDir(), "handout")
	if _, err := builder.Build(read, builder.Options{Out: out, BankFiles: files, Charts: lib}); err != nil {
		t.Fatal(err)
	}
	return out
}

func fake() *builder.Library {
	return &builder.Library{Script: []byte(fakeLibrary), Licence: []byte("l"), Notice: []byte("n")}
}

// ratePages are the pages of rates of testdata/hostile, and others on which its
// names stand.
var ratePages = []string{"frequencies.html", "frequencies/from-cases.html", "frequencies/odd-tear.html", "cases/hb-129.html", "cases/hb-130.html",
	"complications/odd-tear.html", "techniques/odd-way.html", "index.html"}

// trap makes anything that runs leave a mark.
const trap = `window.ran = []; ["alert", "confirm", "prompt"].forEach(function (f) { window[f] = function (x) { window.ran.push(f + " " + x); }; });`

// hover opens every chart and points at everything that is drawn, by mouse and by
// key; it gives what ran, what markup came of tips, and how many marks there were.
const hover = `(async () => {
  const wait = ms => new Promise(done => setTimeout(done, ms));
  const out = { ran: [], marks: 0, open: 0, said: 0, markup: 0 };
  for (const button of document.querySelectorAll(".js-chart-open")) {
    button.click();
    for (let i = 0; i < 100 && button.getAttribute("aria-expanded") !== "true"; i++) await wait(20);
    if (button.getAttribute("aria-expanded") === "true") out.open++;
    const figure = button.closest("figure"), stage = figure.querySelector(".js-chart-stage");
    stage.scrollIntoView();
    await wait(30);
    const ground = stage.firstElementChild || stage;
    for (const mark of stage.querySelectorAll("svg path, svg rect, svg text, svg circle")) {
      const r = mark.getBoundingClientRect();
      const at = { clientX: r.x + r.width / 2, clientY: r.y + r.height / 2, bubbles: true, view: window };
      for (const type of ["mousemove", "mouseover", "click"]) ground.dispatchEvent(new MouseEvent(type, at));
      out.marks++;
    }
    for (let i = 0; i < 60; i++) {
      stage.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
      const said = figure.querySelector(".js-chart-said");
      if (said.textContent) out.said++;
      out.markup += said.children.length;
    }
    await wait(30);
    out.markup += stage.querySelectorAll("img, script, iframe, b").length;
  }
  out.ran = window.ran.slice();
  return out;
})()`

type hovered struct {
	Ran    []string `json:"ran"`
	Marks  int      `json:"marks"`
	Open   int      `json:"open"`
	Said   int      `json:"said"`
	Markup int      `json:"markup"`
}

// hoverAll opens a page and points at everything on it.
func hoverAll(t *testing.T, ctx context.Context) hovered {
	t.Helper()
	got, err := chromedp.Run(ctx, chromedp.Evaluate[hovered](hover, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// With the layer present, absent, and with script off, nothing from a bank that
// tries to break out runs on any page or in any tip, nothing outside the folder is
// asked for, and the console stays empty; the drawings stand in all three.
func TestHostileRatesInBrowser(t *testing.T) {
	for _, state := range []struct {
		name    string
		library *builder.Library
		script  bool
	}{{"present", fake(), true}, {"absent", nil, true}, {"script off", fake(), false}} {
		t.Run(state.name, func(t *testing.T) {
			tryHostile(t, ratesHandout(t, "../testdata/hostile", state.library), state.script, state.library != nil)
		})
	}
}

// The same with the real library.
func TestHostileRatesInRealLibrary(t *testing.T) {
	tryHostile(t, ratesHandout(t, "../testdata/hostile", realLibrary(t)), true, true)
}

func tryHostile(t *testing.T, folder string, script, layer bool) {
	ctx := browser(t)
	w := &watcher{root: fileURL(folder, "") + "/"}
	w.listen(t, ctx)
	send(t, ctx, log.Enable, cdp.Empty{})
	send(t, ctx, runtime.Enable, cdp.Empty{})
	send(t, ctx, page.Enable, page.EnableParams{})
	send(t, ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: trap})
	for _, p := range ratePages {
		open(t, ctx, folder, p, script)
		rates := strings.HasPrefix(p, "frequenc")
		if script {
			got := hoverAll(t, ctx)
			if len(got.Ran) > 0 || got.Markup > 0 {
				t.Errorf("%s: ran %v, %d elements came of tips", p, got.Ran, got.Markup)
			}
			if rates && layer && (got.Open == 0 || got.Said < 60) {
				t.Errorf("%s: %d charts opened, %d marks said", p, got.Open, got.Said)
			}
			if !layer && got.Open > 0 {
				t.Errorf("%s: %d charts opened without the layer", p, got.Open)
			}
		} else {
			send(t, ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{})
		}
		if rates {
			checkShown(t, ctx, p, script && layer)
		}
		faults, _ := w.take()
		for _, f := range faults {
			t.Errorf("%s: %s", p, f)
		}
	}
}

// checkShown looks whether every figure shows its drawing, or, where its chart is
// open, the chart; and whether the button is there only for who can use it.
func checkShown(t *testing.T, ctx context.Context, p string, charts bool) {
	t.Helper()
	const look = `[...document.querySelectorAll("figure")].map(f => {
      const shown = e => !!e && e.getClientRects().length > 0;
      return [f.hasAttribute("data-chart"), shown(f.querySelector(".Figure-drawing")), shown(f.querySelector(".js-chart-stage")), shown(f.querySelector(".js-chart-open"))];
    })`
	for i, f := range evaluate[[][]bool](t, ctx, look) {
		open := f[0] && charts
		if want := []bool{f[0], !open, open, open}; !slices.Equal(f, want) {
			t.Errorf("%s: figure %d has a chart, shows drawing, chart, button: %v, want %v", p, i, f, want)
		}
	}
}

// On paper the drawing stands in every figure and no chart, whatever is open on
// the screen.
func TestPaperHasTheDrawings(t *testing.T) {
	ctx := browser(t)
	folder := ratesHandout(t, "../testdata/hostile", fake())
	open(t, ctx, folder, "frequencies.html", true)
	openCharts(t, ctx)
	send(t, ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	const look = `[...document.querySelectorAll("figure")].map(f => {
      const shown = e => !!e && e.getClientRects().length > 0;
      return [shown(f.querySelector(".Figure-drawing svg")), shown(f.querySelector(".js-chart-stage")), shown(f.querySelector(".js-chart-open"))];
    })`
	for i, f := range evaluate[[][]bool](t, ctx, look) {
		if want := []bool{true, false, false}; !slices.Equal(f, want) {
			t.Errorf("figure %d shows on paper drawing, chart, button: %v, want %v", i, f, want)
		}
	}
}

// openCharts opens every chart of a page that has no trap.
func openCharts(t *testing.T, ctx context.Context) {
	t.Helper()
	evaluate[bool](t, ctx, trap+`;true`)
	if got := hoverAll(t, ctx); got.Open == 0 {
		t.Fatal("no chart opened")
	}
}

// By keyboard alone: Tab reaches the button, Enter opens the chart, Tab goes on to
// it, arrows say marks, Escape goes back.
func TestChartByKeyboard(t *testing.T) {
	ctx := browser(t)
	folder := ratesHandout(t, "../testdata/hostile", fake())
	open(t, ctx, folder, "frequencies.html", true)
	time.Sleep(200 * time.Millisecond)
	if got := evaluate[string](t, ctx, `(() => { const b = document.querySelector(".js-chart-open"); b.focus(); return document.activeElement === b ? b.tagName : ""; })()`); got != "BUTTON" {
		t.Fatalf("focus went to %q", got)
	}
	step := func(key, what string) {
		t.Helper()
		if err := chromedp.Do(ctx, chromedp.KeyEvent(key)); err != nil {
			t.Fatal(err)
		}
		time.Sleep(200 * time.Millisecond)
		if !evaluate[bool](t, ctx, what) {
			t.Errorf("after %q not: %s", key, what)
		}
	}
	step(kb.Enter, `document.querySelector(".js-chart-open").getAttribute("aria-expanded") === "true"`)
	step(kb.Tab, `document.activeElement.matches(".js-chart-stage")`)
	step(kb.ArrowRight, `document.querySelector(".js-chart-said").textContent.includes("/")`)
	step(kb.Escape, `document.activeElement.matches(".js-chart-open") && document.querySelector(".js-chart-open").getAttribute("aria-expanded") === "false"`)
}

// The pages of rates fit every window; only tables scroll sideways.
func TestRatesFitTheWindow(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	for _, width := range []int64{320, 390, 1280} {
		for _, p := range []string{"frequencies.html", "frequencies/posterior-capsule-tear.html"} {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)); err != nil {
				t.Fatal(err)
			}
			open(t, ctx, folder, p, true)
			for _, f := range evaluate[[]string](t, ctx, wide) {
				t.Errorf("%s at %d: %s", p, width, f)
			}
		}
	}
}
