package builder_test

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// chromium finds a Chromium. Without one the test is skipped, and fails where
// CASELEAF_BROWSER=required.
func chromium(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			return found
		}
	}
	if os.Getenv("CASELEAF_BROWSER") == "required" {
		t.Fatal("CASELEAF_BROWSER=required and there is no Chromium on PATH")
	}
	t.Skip("no Chromium on PATH: pages were not opened in a browser")
	return ""
}

// oneIn is every n-th of a long list, which shows that a rule holds; every one where
// CASELEAF_BROWSER=required. A package has ten minutes by go test's own limit, on a
// slow laptop too.
func oneIn[T any](t *testing.T, n int, list []T) []T {
	t.Helper()
	if os.Getenv("CASELEAF_BROWSER") == "required" {
		return list
	}
	var some []T
	for i := 0; i < len(list); i += n {
		some = append(some, list[i])
	}
	t.Logf("%d of %d looked at; CASELEAF_BROWSER=required looks at all", len(some), len(list))
	return some
}

// browser is a tab of a Chromium for one test, which runs beside others: a browser
// waits for most of its time.
func browser(t *testing.T) context.Context {
	t.Helper()
	chromium(t)
	t.Parallel()
	return browserAlone(t)
}

// browserAlone is browser for a test that measures time, while no other runs.
func browserAlone(t *testing.T) context.Context {
	t.Helper()
	limited, cancelTime := context.WithTimeout(sharedBrowser(t), 15*time.Minute) // a stuck browser, not slowness
	t.Cleanup(cancelTime)
	ctx, cancel := chromedp.NewContext(limited, chromedp.WithNewBrowserContext())
	t.Cleanup(cancel)
	send(t, ctx, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
	send(t, ctx, network.Enable, network.EnableParams{})
	offline := network.EmulateNetworkConditionsByRuleParams{
		MatchedNetworkConditions: []*network.Conditions{{Offline: true, DownloadThroughput: -1, UploadThroughput: -1}},
	}
	send(t, ctx, network.EmulateNetworkConditionsByRule, offline)
	return ctx
}

// shared is the one Chromium of all tests, each of which has a profile of its own in
// it: to start one takes longer than most tests.
var shared struct {
	once sync.Once
	ctx  context.Context
	stop func()
	err  error
}

// sharedBrowser starts it for the first test that asks.
func sharedBrowser(t *testing.T) context.Context {
	t.Helper()
	path := chromium(t)
	shared.once.Do(func() {
		folder, err := os.MkdirTemp("", "caseleaf-browser-")
		if err != nil {
			shared.err = err
			return
		}
		options := append(chromedp.DefaultExecAllocatorOptions[:],
			chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(folder))
		allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
		ctx, cancel := chromedp.NewContext(allocator)
		shared.ctx, shared.err = ctx, chromedp.Do(ctx)
		shared.stop = func() { cancel(); stop(); _ = os.RemoveAll(folder) }
	})
	if shared.err != nil {
		t.Fatal(shared.err)
	}
	return shared.ctx
}

// send sends one command of the protocol.
func send[P, R any](t *testing.T, ctx context.Context, command cdp.Command[P, R], params P) {
	t.Helper()
	if _, err := chromedp.Call(ctx, command, params); err != nil {
		t.Fatalf("%s: %v", command.Method, err)
	}
}

// open goes to a page of a folder, with script or without.
func open(t *testing.T, ctx context.Context, folder, p string, script bool) {
	t.Helper()
	send(t, ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !script})
	if err := chromedp.Do(ctx, chromedp.Navigate(fileURL(folder, p))); err != nil {
		t.Fatalf("%s, script %v: %v", p, script, err)
	}
}

// evaluate runs the test's own script in the page.
func evaluate[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	got, err := chromedp.Run(ctx, chromedp.Evaluate[T](script))
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// pageKinds is one page of every kind, and the longest of those that grow.
var pageKinds = []string{
	"index.html", "cases.html", "cases/hb-009.html", "cases/hb-001.html", "sources/hb-009.html",
	"steps.html", "steps/quadrant-removal.html", "complications.html", "complications/posterior-capsule-tear.html",
	"techniques.html", "techniques/horizontal-chop.html", "decisions.html", "decisions/small-pupil.html", "progress.html",
	"risk-factors.html", "glossary.html", "about.html", "cautions.html", "courses.html",
	"search.html", "surgeons.html",
}

func fileURL(folder, path string) string {
	abs, err := filepath.Abs(filepath.Join(folder, filepath.FromSlash(path)))
	if err != nil {
		return ""
	}
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(abs)}).String()
}

// watcher collects what a page must not do.
type watcher struct {
	mu     sync.Mutex
	root   string // URL of the folder
	faults []string
	loaded int // requests inside the folder
}

func (w *watcher) listen(t *testing.T, ctx context.Context) {
	t.Helper()
	err := chromedp.Listen(ctx, func(ev any) {
		w.mu.Lock()
		defer w.mu.Unlock()
		switch ev := ev.(type) {
		case *network.EventRequestWillBeSent:
			if u := ev.Request.URL; strings.HasPrefix(u, w.root) {
				w.loaded++
			} else if u != "data:," {
				w.faults = append(w.faults, "asked for "+u)
			}
		case *network.EventLoadingFailed:
			w.faults = append(w.faults, "could not load: "+ev.ErrorText)
		case *runtime.EventConsoleAPICalled:
			w.faults = append(w.faults, "console: "+string(ev.Type))
		case *runtime.EventExceptionThrown:
			w.faults = append(w.faults, "exception: "+ev.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			w.faults = append(w.faults, "log: "+ev.Entry.Text)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	send(t, ctx, log.Enable, cdp.Empty{})
	send(t, ctx, runtime.Enable, cdp.Empty{})
}

func (w *watcher) take() (faults []string, loaded int) {
	w.mu.Lock()
	defer w.mu.Unlock()
	faults, loaded = w.faults, w.loaded
	w.faults, w.loaded = nil, 0
	return faults, loaded
}

// Opened from the disk with the network off, with script and without, no page
// logs an error or asks for anything outside its folder.
func TestPagesInBrowser(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	w := &watcher{root: fileURL(folder, "") + "/"}
	w.listen(t, ctx)
	for _, script := range []bool{true, false} {
		for _, p := range oneIn(t, 2, everyKind(t)) {
			open(t, ctx, folder, p, script)
			title, err := chromedp.Run(ctx, chromedp.Title())
			if err != nil {
				t.Fatal(err)
			}
			faults, loaded := w.take()
			for _, f := range faults {
				t.Errorf("%s, script %v: %s", p, script, f)
			}
			if title == "" || loaded < 2 {
				t.Errorf("%s, script %v: title %q, %d files loaded; want the page and its style at least", p, script, title, loaded)
			}
		}
	}
}

// wide measures the page: what is wider than the window, apart from what
// scrolls by itself, and controls smaller than 24 CSS pixels (WCAG 2.2, 2.5.8;
// links within a sentence are excepted there).
const wide = `(() => {
  const out = [];
  const width = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > width) {
    const who = [...document.querySelectorAll("main *, header *, nav *")].filter(e => {
      const r = e.getBoundingClientRect();
      return r.right > width + 1 && !e.closest(".Scroll, pre, svg, .Unseen, .Skip");
    }).slice(0, 3).map(e => e.tagName + "." + e.className + " " + e.textContent.trim().slice(0, 30));
    out.push("wider than the window: " + who.join(" | "));
  }
  for (const e of document.querySelectorAll(".Menu a, .Trail a, .Jump a, .Turn a, .Masthead a, .Foot a, summary")) {
    const r = e.getBoundingClientRect();
    if (r.height < 24 || r.width < 24) out.push("small target: " + e.textContent.trim() + " " + Math.round(r.width) + " x " + Math.round(r.height));
  }
  return out;
})()`

// At every width from a small phone to a wide screen nothing but tables
// scrolls sideways and no control is too small to hit.
func TestPagesFitTheWindow(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	for _, p := range oneIn(t, 2, everyKind(t)) {
		open(t, ctx, folder, p, true)
		for _, width := range []int64{320, 390, 768, 1280, 1920} {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)); err != nil {
				t.Fatal(err)
			}
			faults := evaluate[[]string](t, ctx, wide)
			for _, f := range faults {
				t.Errorf("%s at %d: %s", p, width, f)
			}
		}
	}
}

// A case printed with everything closed, by a reader who prefers dark, has
// every choice in the text of the paper, and stays closed on the screen.
func TestCaseOnPaper(t *testing.T) {
	ctx := browser(t)
	pdftotext, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("CASELEAF_BROWSER") == "required" {
			t.Fatal("CASELEAF_BROWSER=required and there is no pdftotext on PATH")
		}
		t.Skip("no pdftotext on PATH: paper was not read")
	}
	folder := demoHandout(t)
	const openDetails = `document.querySelectorAll("details[open]").length`
	dark := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}}
	send(t, ctx, emulation.SetEmulatedMedia, dark)
	for name, size := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
		for _, script := range []bool{true, false} {
			open(t, ctx, folder, "cases/hb-009.html", script)
			data, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
			if err != nil {
				t.Fatal(err)
			}
			send(t, ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{})
			if n := evaluate[int](t, ctx, openDetails); n != 0 {
				t.Errorf("%s: %d reveals stand open after printing", name, n)
			}
			text := pdfText(t, pdftotext, data)
			for _, want := range mustPrint {
				if !strings.Contains(text, want) {
					t.Errorf("%s, script %v: %q is not on paper", name, script, want)
				}
			}
			for _, never := range []string{"Parts of the handout", "Skip to the text"} {
				if strings.Contains(text, never) {
					t.Errorf("%s, script %v: %q is on paper", name, script, never)
				}
			}
		}
	}
}

// mustPrint are texts of HB-009 that wait behind details on the screen, and the
// notice.
var mustPrint = []string{
	"invented and have not been reviewed by a licensed clinician",
	"The lost end was out of sight, the other half of the capsule was flat and sound",
	"a white stripe opened between two blue halves",
	"Needle held still and then withdrawn",
	"The limb ran round to the back as the optic opened",
}

// pdfText is the text of a PDF, its words parted by single spaces.
func pdfText(t *testing.T, pdftotext string, data []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "case.pdf")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(pdftotext, name, "-").Output()
	if err != nil {
		t.Fatal(fmt.Errorf("pdftotext: %w", err))
	}
	return strings.Join(strings.Fields(string(out)), " ")
}
