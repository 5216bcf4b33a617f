package builder_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// axeScript is the accessibility checker axe-core, from the file that CASELEAF_AXE
// names. Without it the test is skipped, and fails where
// CASELEAF_BROWSER=required.
func axeScript(t *testing.T) string {
	t.Helper()
	name := os.Getenv("CASELEAF_AXE")
	if name == "" {
		if os.Getenv("CASELEAF_BROWSER") == "required" {
			t.Fatal("CASELEAF_BROWSER=required and CASELEAF_AXE names no axe.min.js")
		}
		t.Skip("CASELEAF_AXE names no axe.min.js: pages were not checked by axe-core")
	}
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// axeRules are, in light, every rule of WCAG 2.0 to 2.2, A and AA, and the good
// practices that go with them; in dark, where nothing but colours differs, those
// about colours.
var axeRules = map[string]string{
	"light": `["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]`,
	"dark":  `["cat.color"]`,
}

const axeRun = `axe.run(document, { resultTypes: ["violations"], runOnly: %s }).then(r => ({ Rules: r.passes.length + r.violations.length, Violations: r.violations.map(v => ({
  Rule: v.id, Help: v.help,
  Nodes: v.nodes.map(n => n.target.join(" ") + " " + n.html.slice(0, 160) + " — " +
    [...n.any, ...n.all, ...n.none].map(c => c.message).join("; ")),
})) }))`

type axeResult struct {
	Rules      int
	Violations []struct {
		Rule, Help string
		Nodes      []string
	}
}

// openAll presses every reveal that can be seen, in the order of the page, until
// none is left closed, as a reader does, and gives how many stay closed.
const openAll = `(() => {
  for (let again = true; again;) {
    again = false;
    for (const d of document.querySelectorAll("details:not([open])")) {
      const s = d.querySelector(":scope > summary");
      if (s && s.checkVisibility()) { s.click(); d.open = true; again = true; }
    }
  }
  return document.querySelectorAll("details:not([open])").length;
})()`

// preferring sets the colours that a reader prefers.
func preferring(t *testing.T, ctx context.Context, scheme string) {
	t.Helper()
	send(t, ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
}

// printing shows pages as they are printed, by a reader who prefers a scheme.
func printing(t *testing.T, ctx context.Context, scheme string) {
	t.Helper()
	send(t, ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print",
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
}

// No page of any kind has a violation of WCAG 2.2 AA that a machine can find,
// light or dark, with everything closed or everything opened, on a phone or on a
// wide screen.
func TestPagesByAxe(t *testing.T) {
	axe := axeScript(t)
	folder := demoHandout(t)
	pages := everyKind(t)
	for _, scheme := range []string{"light", "dark"} {
		t.Run(scheme, func(t *testing.T) {
			ctx := browser(t)
			preferring(t, ctx, scheme)
			for i, p := range pages {
				width := []int64{390, 1280}[i%2]
				if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)); err != nil {
					t.Fatal(err)
				}
				open(t, ctx, folder, p, true)
				if got := evaluate[bool](t, ctx, fmt.Sprintf(`matchMedia("(prefers-color-scheme: %s)").matches`, scheme)); !got {
					t.Fatalf("the browser does not prefer %s", scheme)
				}
				evaluate[bool](t, ctx, axe+"\n;typeof axe.run === 'function'")
				axeCheck(t, ctx, scheme, p+", closed")
				if left := evaluate[int](t, ctx, openAll); left > 0 {
					t.Errorf("%s: %d reveals cannot be opened", p, left)
				}
				axeCheck(t, ctx, scheme, p+", opened")
			}
		})
	}
}

func axeCheck(t *testing.T, ctx context.Context, scheme, where string) {
	t.Helper()
	got, err := chromedp.Run(ctx, chromedp.Evaluate[axeResult](fmt.Sprintf(axeRun, axeRules[scheme]), chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%s: %v", where, err)
	}
	if got.Rules < map[string]int{"light": 10, "dark": 1}[scheme] {
		t.Errorf("%s: axe-core tried only %d rules", where, got.Rules)
	}
	for _, v := range got.Violations {
		t.Errorf("%s: %s: %s\n  %s", where, v.Rule, v.Help, strings.Join(v.Nodes[:min(4, len(v.Nodes))], "\n  "))
	}
}

// The checker does find faults: a page made to be bad has those it was given.
func TestAxeFindsFaults(t *testing.T) {
	axe := axeScript(t)
	ctx := browser(t)
	open(t, ctx, demoHandout(t), "about.html", true)
	evaluate[bool](t, ctx, axe+"\n;typeof axe.run === 'function'")
	evaluate[bool](t, ctx, `(() => {
	  const main = document.querySelector("main"), make = (name, set) => main.appendChild(Object.assign(document.createElement(name), set));
	  make("img", { src: "data:," });
	  make("input", { type: "text" });
	  make("p", { textContent: "hardly to be read" }).style.color = "#ccc";
	  make("button", {});
	  return true;
	})()`)
	got, err := chromedp.Run(ctx, chromedp.Evaluate[axeResult](fmt.Sprintf(axeRun, axeRules["light"]), chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, v := range got.Violations {
		found[v.Rule] = true
	}
	for _, want := range []string{"image-alt", "label", "color-contrast", "button-name"} {
		if !found[want] {
			said, _ := json.Marshal(got.Violations)
			t.Errorf("axe-core does not find %s: %s", want, said)
		}
	}
}
