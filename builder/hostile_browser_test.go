package builder_test

import (
	"context"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"caseleaf/builder"
	"caseleaf/content"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// TestHostileBank opens every page of a bank whose every text attacks the page
// it stands on, opens what can be opened and points at everything on it. Nothing
// runs, no element comes of a text, and nothing outside the folder is asked for.
func TestHostileBank(t *testing.T) {
	ctx := browser(t)
	files, places := hostileBank()
	if len(places) < 60 {
		t.Fatalf("only %d places are attacked", len(places))
	}
	folder := filepath.Join(t.TempDir(), "a folder #1 100% ü")
	paths := buildHostile(t, files, folder)
	w := &watcher{root: fileURL(folder, "") + "/"}
	w.listen(t, ctx)
	send(t, ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: trap + "window.ran = Object.assign(x => window.ran.list.push(x), {list: []});"})
	shown := ""
	looked := oneIn(t, 3, paths)
	for _, p := range looked {
		open(t, ctx, folder, p, true)
		got := poke(t, ctx)
		for _, n := range got.Ran {
			t.Errorf("%s: what stands at %d (%s) ran", p, n, places[n])
		}
		for _, e := range got.Elements {
			t.Errorf("%s: a text became an element: %s", p, e)
		}
		if faults, _ := w.take(); len(faults) > 0 {
			t.Errorf("%s: %s", p, strings.Join(faults, "; "))
		}
		shown += got.Text
	}
	evaluate[bool](t, ctx, `window.ran(0), document.body.setAttribute("onclick", ""), true`)
	if got := poke(t, ctx); len(got.Ran) != 1 || len(got.Elements) != 1 {
		t.Errorf("the test sees nothing of what runs: %v", got)
	}
	want := 4 * len(places)
	if len(looked) < len(paths) {
		want = len(places)
	}
	if n := strings.Count(shown, "ran("); n < want {
		t.Errorf("the attacks are shown %d times on all pages; the test looks at too little", n)
	}
	t.Logf("%d places, %d of %d pages", len(places), len(looked), len(paths))
}

// buildHostile builds the bank and lists its pages.
func buildHostile(t *testing.T, files fs.FS, folder string) []string {
	t.Helper()
	bank, found, err := content.Read(files)
	if err != nil || found.Failed() {
		var text strings.Builder
		_ = found.WriteText(&text)
		t.Fatalf("%v\n%s", err, &text)
	}
	if _, err := builder.Build(bank, builder.Options{Out: folder, BankFiles: files}); err != nil {
		t.Fatal(err)
	}
	m, err := builder.ReadManifest(folder)
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for _, f := range m.Files {
		if strings.HasSuffix(f.Path, ".html") || strings.HasSuffix(f.Path, ".svg") && strings.HasPrefix(f.Path, "cases/") {
			paths = append(paths, f.Path)
		}
	}
	slices.Sort(paths)
	return paths
}

// poked is what came of poking at a page.
type poked struct {
	Ran      []int    `json:"ran"`
	Elements []string `json:"elements"`
	Text     string   `json:"text"`
}

// poking opens, chooses and points at everything, and lists elements and
// attributes that no page of ours has.
const poking = `(async () => {
  for (const d of document.querySelectorAll("details")) d.open = true;
  for (const e of document.querySelectorAll("input[type=radio], input[type=checkbox]")) e.click();
  for (const e of document.querySelectorAll("body *")) {
    for (const type of ["mouseover", "mousemove", "focus"]) e.dispatchEvent(new MouseEvent(type, {bubbles: true}));
  }
  await new Promise(done => setTimeout(done, 30));
  const odd = [...document.querySelectorAll("iframe, object, embed, base, math, foreignObject, animate, set, video, body script:not([src]), link[href*='//'], meta[http-equiv=refresh], [srcdoc]")];
  for (const e of document.querySelectorAll("*:not(link[rel=icon])")) for (const a of e.attributes)
    if (/^on/i.test(a.name) || /^(href|src|action|xlink:href)$/.test(a.name) && (/^\s*(javascript|vbscript|data):/i.test(a.value) || /\/\/hostile\//.test(a.value))) odd.push(e);
  return {ran: window.ran.list, elements: odd.map(e => e.outerHTML.slice(0, 120)), text: document.documentElement.textContent};
})()`

func poke(t *testing.T, ctx context.Context) poked {
	t.Helper()
	got, err := chromedp.Run(ctx, chromedp.Evaluate[poked](poking, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return got
}
