package privacy

import (
	"strings"
	"testing"
)

// A sentence that was silent on a page is not scanned again in a list of strings,
// whatever stands round it; one that is found is found at its place in both.
func TestTextsAreKnownAgain(t *testing.T) {
	o := builtin().NewOutput()
	if found := o.Scan("a.html", []byte("<p>\n The rim&#39;s edge lay at 6 o&#39;clock. </p>")); len(found) > 0 {
		t.Fatal(found)
	}
	known := o.silent.count.Load()
	o.Scan("b.json", []byte(`["The rim's edge lay at 6 o'clock."]`))
	o.Scan("c.html", []byte(`<li title="The rim&#39;s edge lay at 6 o&#39;clock."><b>The rim&#39;s</b> edge lay at 6 o&#39;clock.`))
	if o.silent.count.Load() != known {
		t.Errorf("%d texts were scanned; want %d", o.silent.count.Load(), known)
	}
	const page = "<p>\n\n  It&#39;s said that Mr&nbsp;O&#39;Hara of 12 March 2019 came. </p>"
	found := o.Scan("d.html", []byte(page))
	if len(found) == 0 {
		t.Fatal("nothing is found")
	}
	for _, f := range found {
		if text := page[f.Start:f.End]; strings.TrimSpace(text) != text || text == "" {
			t.Errorf("%s at %q", f.Rule, text)
		}
	}
	for i, want := range []string{"O&#39;Hara", "12 March 2019"} {
		if got := page[found[i].Start:found[i].End]; !strings.HasSuffix(got, want) {
			t.Errorf("found %q; want %q", got, want)
		}
	}
}

// Front matter that the scanner read and found silent is known again where a
// page lists it in colours, and only there: a text that is not the same, or is
// read by other rules, is scanned.
func TestFrontMatterIsKnownAgain(t *testing.T) {
	const front = "title: The rim's edge\nnote: \"Seen by Mrs Oxtallow\"\n"
	const listed = `<div class="Listing" data-zone="front-matter"><div data-zone="front-matter"><pre class="c-chroma" tabindex="0"><code>` +
		`<span class="c-nt">title</span>: The rim&#39;s edge` + "\n" + `<span class="c-nt">note</span>: <span class="c-s">&quot;Seen by Mrs Oxtallow&quot;</span>` + "\n</code></pre>\n</div></div>"
	sc := New(Options{})
	find := func(page string) int { return len(sc.NewOutput().Scan("a.html", []byte(page))) }
	if len(sc.Scan(FrontMatter, front)) != 1 || find(listed) != 1 {
		t.Fatal("what identifies is not found in front matter that was read and found to")
	}
	sc.front.add(sc.front.sumString(strings.TrimSpace(front))) // as if it had been silent
	if find(listed) != 0 {
		t.Error("front matter is scanned again in its listing")
	}
	for what, page := range map[string]string{
		"another text":   strings.Replace(listed, "edge", "edges", 1),
		"other rules":    strings.Replace(listed, `<div data-zone="front-matter">`, `<div data-zone="published">`, 1),
		"another zone":   strings.ReplaceAll(listed, "front-matter", "body"),
		"an indentation": strings.Replace(listed, "<code>", "<code> ", 1),
	} {
		if find(page) == 0 {
			t.Errorf("%s passes for the front matter that was read", what)
		}
	}
}
