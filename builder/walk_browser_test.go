package builder_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// unseenFocus says what is wrong with how the focus is shown, or nothing: it is
// on a control, in the window, and a line of at least two pixels goes round it,
// not in the colour of the page.
const unseenFocus = `(() => {
  const e = document.activeElement, s = getComputedStyle(e), r = e.getBoundingClientRect();
  const who = e.tagName + " " + (e.id || e.textContent.trim().slice(0, 40)) + ": ";
  if (e === document.body || e.tagName === "MAIN") return who + "nothing has the focus";
  if (!e.matches(":focus-visible")) return who + "the focus is not to be seen";
  if (r.width < 2 || r.height < 2 || r.bottom <= 0 || r.top >= innerHeight || r.right <= 0 || r.left >= innerWidth) return who + "outside the window";
  if (s.outlineStyle === "none" || parseFloat(s.outlineWidth) < 2) return who + "outline " + s.outline;
  if (s.outlineColor === getComputedStyle(document.body).backgroundColor) return who + "outline in the colour of the page";
  return "";
})()`

// stop presses Tab until the focus is on an element, which must show it.
func stop(t *testing.T, ctx context.Context, selector string) {
	t.Helper()
	tabTo(t, ctx, selector)
	seen(t, ctx)
}

func seen(t *testing.T, ctx context.Context) {
	t.Helper()
	if fault := evaluate[string](t, ctx, unseenFocus); fault != "" {
		t.Errorf("the focus cannot be seen: %s", fault)
	}
}

// reach waits until an expression is true in the page that a key leads to; one
// that is being left or loaded answers nothing.
func reach(t *testing.T, ctx context.Context, expression string) {
	t.Helper()
	for range 400 {
		if ready, err := chromedp.Run(ctx, chromedp.Evaluate[bool](expression)); err == nil && ready {
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	t.Fatalf("never true: %s\nat %s", expression, evaluate[string](t, ctx, `location.href`))
}

// The whole walk without a mouse, from the disk, in a folder with an odd name and
// without a network: from the start to a search, to a case, through two of its
// decision points, to the summing up and to paper. Keys are all it uses, and at
// each stop the focus is to be seen.
func TestWholeWalkByKeyboard(t *testing.T) {
	ctx, reader := browser(t), pdfReader(t)
	folder := oddHandout(t)
	w := &watcher{root: fileURL(folder, "") + "/"}
	w.listen(t, ctx)
	open(t, ctx, folder, "index.html", true)
	keys(t, ctx, kb.Tab)
	seen(t, ctx) // the link past the masthead
	stop(t, ctx, "#page-find")
	keys(t, ctx, "two compartmnts of milk"+kb.Enter)

	reach(t, ctx, `location.pathname.endsWith("/search.html") && document.getElementById("search-hits").dataset.for === "two compartmnts of milk"`)
	stop(t, ctx, "#search-box")
	for range 10 {
		keys(t, ctx, kb.ArrowDown)
		seen(t, ctx)
		if evaluate[bool](t, ctx, `document.activeElement.getAttribute("href") === "cases/hb-009.html"`) {
			break
		}
	}
	keys(t, ctx, kb.Enter)
	reach(t, ctx, `location.pathname.endsWith("/cases/hb-009.html") && !!document.querySelector("#decision-1[data-moment]")`)

	stop(t, ctx, "#decision-1 input[name=decision-1]")
	keys(t, ctx, " ", kb.ArrowDown)
	seen(t, ctx)
	stop(t, ctx, "#decision-1 input[name=decision-1-sure]")
	keys(t, ctx, " ", kb.ArrowDown, kb.ArrowDown) // fairly sure
	seen(t, ctx)
	stop(t, ctx, "#decision-1 > details > summary")
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "the first answer", `document.querySelector("#decision-1 .js-yours").textContent === "You chose as the case did, fairly sure."`)

	stop(t, ctx, "#decision-2 input[name=decision-2]")
	keys(t, ctx, " ", kb.ArrowDown)
	stop(t, ctx, "#decision-2 input[name=decision-2-sure]")
	keys(t, ctx, " ") // a guess
	stop(t, ctx, "#decision-2 > details > summary")
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "the second answer", `document.querySelector("#decision-2 .js-yours").textContent.includes("a guess. The case chose A")`)

	stop(t, ctx, `.Foot a[href*="progress.html"]`)
	keys(t, ctx, kb.Enter)
	reach(t, ctx, `document.title.startsWith("Your progress") && !!document.querySelector(".Tools button")`)
	evaluate[bool](t, ctx, `(window.print = () => { window.asked = true; }, true)`) // a dialog would stand in the way
	stop(t, ctx, ".Tools button:first-of-type")
	keys(t, ctx, kb.Enter)
	soon(t, ctx, "the print view asked for", `window.asked === true`)
	faultless(t, w, "the walk")

	text := single(strings.Join(printed(t, ctx, reader, chromedp.PaperA4), "\n"))
	for _, want := range []string{
		"Your progress", "Decision points opened: 2, in 1 of", "HB-009 Two compartments of milk",
		"You chose B Cut at the puncture", "(fairly sure)", "So did the case.", "You chose B In the sulcus (a guess). The case chose A Three-piece lens in the bag",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on paper:\n%s", want, text)
		}
	}
	for _, never := range []string{"Save as a text file", "Wipe", "Search the handout", "☐"} {
		if strings.Contains(text, never) {
			t.Errorf("%q is on paper", never)
		}
	}
}
