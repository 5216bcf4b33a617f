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
