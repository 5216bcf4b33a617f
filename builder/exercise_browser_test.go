package builder_test

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"caseleaf/casebank"
)

// oddHandout is the demonstration handout in a folder named as in field report
// FR-23.
func oddHandout(t *testing.T) string {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "Teaching #1, 50% done & more")
	build(t, casebank.FS(), folder)
	return folder
}

// keys presses keys, one after the other.
func keys(t *testing.T, ctx context.Context, list ...string) {
	t.Helper()
	for _, key := range list {
		if err := chromedp.Do(ctx, chromedp.KeyEvent(key)); err != nil {
			t.Fatal(err)
		}
	}
}

// tabTo presses Tab until the element that has the focus matches a selector.
func tabTo(t *testing.T, ctx context.Context, selector string) {
	t.Helper()
	for range 150 {
		keys(t, ctx, kb.Tab)
		if evaluate[bool](t, ctx, fmt.Sprintf("document.activeElement.matches(%q)", selector)) {
			return
		}
	}
	t.Fatalf("Tab never comes to %s; it is at %s", selector, evaluate[string](t, ctx, "document.activeElement.outerHTML.slice(0, 200)"))
}

// soon fails the test unless an expression becomes true in the page.
func soon(t *testing.T, ctx context.Context, reason, expression string) {
	t.Helper()
	for range 40 {
		if evaluate[bool](t, ctx, expression) {
			return
		}
		time.Sleep(50 * time.Millisecond) // a page being loaded
	}
	t.Errorf("%s: not %s", reason, expression)
}

// openAt goes to a fragment of a page, from another page.
func openAt(t *testing.T, ctx context.Context, folder, p, fragment string, script bool) {
	t.Helper()
	open(t, ctx, folder, "about.html", script)
	if err := chromedp.Do(ctx, chromedp.Navigate(fileURL(folder, p)+fragment)); err != nil {
		t.Fatal(err)
	}
}

// faultless fails the test for anything a page logged or asked for outside its
// folder since the last call.
func faultless(t *testing.T, w *watcher, where string) {
	t.Helper()
	faults, _ := w.take()
	for _, f := range faults {
		t.Errorf("%s: %s", where, f)
	}
}

// A reader without a mouse opens a case from a folder with an odd name, answers
// two decision points, sees them summed up, finds them kept, and wipes them.
func TestExerciseByKeyboard(t *testing.T) {
	ctx := browser(t)
	folder := oddHandout(t)
	w := &watcher{root: fileURL(folder, "") + "/"}
	w.listen(t, ctx)
	open(t, ctx, folder, "cases/hb-009.html", true)
	soon(t, ctx, "at first", `!document.querySelector("#decision-2").checkVisibility()`)
	soon(t, ctx, "nothing chosen", `document.querySelector("#decision-1 summary").textContent === "Open without choosing"`)

	tabTo(t, ctx, "#decision-1 input[name=decision-1]")
	keys(t, ctx, " ", kb.ArrowDown) // the second option, which the case chose
	tabTo(t, ctx, "#decision-1 input[name=decision-1-sure]")
	keys(t, ctx, " ", kb.ArrowRight, kb.ArrowRight) // fairly sure
	tabTo(t, ctx, "#decision-1 > details > summary")
	soon(t, ctx, "chosen", `document.activeElement.textContent === "I have chosen. What was done?"`)
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "the first answer", `document.querySelector("#decision-1 .js-yours").textContent.startsWith("You chose as the case did,")`)
	soon(t, ctx, "how sure", `document.querySelector("#decision-1 .js-yours").textContent.endsWith("fairly sure.")`)
	soon(t, ctx, "what followed", `document.querySelector("#decision-2").checkVisibility() && !document.querySelector("#decision-3").checkVisibility()`)

	tabTo(t, ctx, "#decision-2 input[name=decision-2]")
	keys(t, ctx, " ", kb.ArrowDown) // the sulcus; the case chose the bag
	tabTo(t, ctx, "#decision-2 > details > summary")
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "the second answer", `document.querySelector("#decision-2 .js-yours").textContent.includes("The case chose A Three-piece lens in the bag")`)
	faultless(t, w, "the case")

	tabTo(t, ctx, `.Foot a[href$="progress.html"]`)
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "the progress page", `document.title.startsWith("Your progress") && !!document.querySelector(".Progress h3")`)
	text := evaluate[string](t, ctx, `document.querySelector(".Progress").innerText`)
	for _, want := range []string{
		"Decision points opened: 2, in 1 of", "You chose as the case did at 1, and otherwise at 1.", "Neither is marked as right",
		"You chose B Cut at the puncture", "(fairly sure)", "sureness not given", "The case chose A Three-piece lens in the bag",
		"The limb ran round to the back", "chose otherwise in HB-009 at 11:50",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("progress: %q is not said in\n%s", want, text)
		}
	}
	for _, never := range []string{"wrong", "correct", "score", "%", "{"} {
		if strings.Contains(text, never) {
			t.Errorf("progress says %q", never)
		}
	}
	soon(t, ctx, "a watch page", `!!document.querySelector('.Progress a[href^="steps/"]')`)

	open(t, ctx, folder, "cases/hb-009.html", true)
	soon(t, ctx, "kept", `document.querySelector("#decision-1 input[value=restart-opposite]").checked && document.querySelector("#decision-2 > details").open`)
	soon(t, ctx, "no third", `!document.querySelector("#decision-3 > details").open`)

	open(t, ctx, folder, "progress.html", true)
	soon(t, ctx, "tools", `document.querySelectorAll(".Tools button").length === 3`)
	tabTo(t, ctx, ".Tools button:nth-of-type(3)")
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "asked before wiping", `document.activeElement.textContent === "No, keep" && localStorage.length > 0`)
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "kept when told to keep", `document.querySelectorAll(".Tools button").length === 3 && localStorage.length > 0`)
	tabTo(t, ctx, ".Tools button:nth-of-type(3)")
	keys(t, ctx, kb.Enter)
	if err := chromedp.Do(ctx, chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(chromedp.ModifierShift))); err != nil {
		t.Fatal(err)
	}
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "wiped", `document.activeElement.textContent.startsWith("Wiped") && localStorage.length === 0`)
	faultless(t, w, "the progress page")
}

// answerFirst answers the first decision point of a page as a press would.
const answerFirst = `(() => {
  const stop = document.querySelector(".js-stop");
  stop.querySelectorAll("input[type=radio]")[1].click();
  stop.querySelector("[name$=-sure][value='1']").click();
  stop.querySelector("details > summary").click();
  return stop.querySelector(".js-yours").textContent;
})()`

// In a browser that refuses to keep anything, and so in one that gives every
// file a store of its own, choices last as long as the page and are handed to
// the progress page by the link to it.
func TestExerciseWithoutStore(t *testing.T) {
	for name, fault := range map[string]string{
		"no store":   `Object.defineProperty(window, "localStorage", { get() { throw new Error("refused"); } });`,
		"store full": `Storage.prototype.setItem = () => { throw new Error("full"); };`,
	} {
		t.Run(name, func(t *testing.T) {
			ctx := browser(t)
			folder := demoHandout(t)
			w := &watcher{root: fileURL(folder, "") + "/"}
			w.listen(t, ctx)
			send(t, ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: fault})
			open(t, ctx, folder, "cases/hb-009.html", true)
			if got := evaluate[string](t, ctx, answerFirst); !strings.HasPrefix(got, "You chose as the case did") {
				t.Errorf("said %q", got)
			}
			href := evaluate[string](t, ctx, `document.querySelector(".js-progress").href`)
			soon(t, ctx, "said that nothing is kept", `document.querySelector(".js-after").textContent.includes("keeps nothing")`)
			if err := chromedp.Do(ctx, chromedp.Navigate(href)); err != nil {
				t.Fatal(err)
			}
			soon(t, ctx, "handed over", `document.querySelector(".Progress").innerText.includes("leaning to it")`)
			faultless(t, w, name)
		})
	}
}

// What was chosen is saved as a text file, and nothing that came in by the
// address runs or is read as markup.
func TestProgressAsText(t *testing.T) {
	ctx := browser(t)
	folder, into := demoHandout(t), t.TempDir()
	send(t, ctx, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{
		Behavior: "allow", DownloadPath: into, BrowserContextID: chromedp.FromContext(ctx).BrowserContextID,
	})
	open(t, ctx, folder, "cases/hb-009.html", true)
	evaluate[string](t, ctx, answerFirst)
	open(t, ctx, folder, "progress.html", true)
	evaluate[bool](t, ctx, `(document.querySelectorAll(".Tools button")[1].click(), true)`)
	var data []byte
	for range 100 {
		if data, _ = os.ReadFile(filepath.Join(into, "progress.txt")); len(data) > 0 {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	for _, want := range []string{"Your progress", "HB-009 Two compartments of milk\r\n", "- 3:00 One limb has gone past the pupil", "leaning to it"} {
		if !strings.Contains(string(data), want) {
			t.Errorf("%q is not in the text file:\n%s", want, data)
		}
	}
	hostile := url.PathEscape(`{"HB-009/t-180":{"c":"<img src=x onerror=alert(1)>","s":"<b>x</b>","o":1},"HB-009/t-151":{"m":"<i>"},"__proto__":7}`)
	send(t, ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: trap})
	openAt(t, ctx, folder, "progress.html", "#"+hostile, true)
	soon(t, ctx, "drawn", `!!document.querySelector(".Progress h2")`)
	soon(t, ctx, "nothing ran", `window.ran.length === 0 && !document.querySelector(".Progress img, .Progress b, .Progress i")`)
}

// Without script the folded parts open by hand, all at once by one line, and by
// a link to a moment in them.
func TestExerciseWithoutScript(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	open(t, ctx, folder, "cases/hb-009.html", false)
	withScript := func() {
		send(t, ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{})
	}
	const hidden = `[...document.querySelectorAll(".Entry, .Decision, .Lessons, .Strip, .Prose, .Sources")].filter(e => !e.checkVisibility({ contentVisibilityAuto: true })).length`
	withScript()
	soon(t, ctx, "folded at first", hidden+" > 10")
	send(t, ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	for range 20 { // the masthead, the trail, then the line
		keys(t, ctx, kb.Tab)
		withScript()
		at := evaluate[bool](t, ctx, `document.activeElement.matches("#page-whole > summary")`)
		send(t, ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		if at {
			break
		}
	}
	keys(t, ctx, kb.Enter)
	withScript()
	soon(t, ctx, "all at once", hidden+" === 0")

	openAt(t, ctx, folder, "cases/hb-009.html", "#t-1350", false)
	withScript()
	soon(t, ctx, "by a link", `(r => r.top >= 0 && r.bottom <= innerHeight && document.getElementById("t-1350").checkVisibility())(document.getElementById("t-1350").getBoundingClientRect())`)
}

// A link from another page to a moment opens what it is folded into; the answer
// that came open so is not noted as the reader's.
func TestLinksOpenWhatIsFolded(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	for _, target := range []string{"#t-1350", "#t-840", "#decision-3", "#n-salvage-part-two", "#page-strip"} {
		openAt(t, ctx, folder, "cases/hb-009.html", target, true)
		soon(t, ctx, target, fmt.Sprintf(`(r => r.top >= -1 && r.top < innerHeight && document.querySelector(%q).checkVisibility())(document.querySelector(%q).getBoundingClientRect())`, target, target))
		soon(t, ctx, target+" notes nothing", `localStorage.length === 0`)
	}
}

// Nothing moves under the reader's eye while a page is loaded, neither at first
// nor when choices are brought back.
func TestNothingShifts(t *testing.T) {
	ctx := browser(t)
	folder := demoHandout(t)
	for _, width := range []int64{390, 1280} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 800)); err != nil {
			t.Fatal(err)
		}
		for _, p := range []string{"cases/hb-009.html", "progress.html", "cases/hb-009.html", "progress.html"} {
			if moved := alwaysMoved(t, ctx, folder, p); len(moved) > 0 {
				t.Errorf("%s at %d: layout shift %q", p, width, moved)
			}
			if strings.HasPrefix(p, "cases/") {
				evaluate[string](t, ctx, answerFirst)
			}
		}
	}
}
