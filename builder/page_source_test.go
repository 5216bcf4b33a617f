package builder

import (
	"html/template"
	"strings"
	"testing"

	"caseleaf/builder/prose"
	"caseleaf/content/privacy"
	"caseleaf/themes"
)

// A listing is scanned as the front matter it is: an address passes below
// sources and nowhere else, and a date of an operation never does.
func TestListingIsStillScanned(t *testing.T) {
	render, err := newRenderer(themes.FS(), Masthead{Title: "Bank", Language: "en"})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		reason, yaml string
		blocked      string // class that blocks; empty for none
	}{
		{"a source's address is meant to be read", "case: HB-900\nsources:\n  - {text: A review, url: \"https://journal.example.org/x\"}\n", ""},
		{"an address elsewhere is no source", "case: HB-900\nplan: see https://photos.example.org/x\n", "url"},
		{"a date may identify", "case: HB-900\nhistory: Seen on 14 March 2021\n", "date"},
	} {
		data, err := render.render(Page{Path: "sources/hb-900.html", Template: "source", Data: &SourcePage{
			Heading: Heading{Title: "Case"}, File: "cases/hb-900.md", Listing: template.HTML(prose.FrontMatter(c.yaml)),
		}})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range privacy.ScanOutput("sources/hb-900.html", data) {
			if f.Severity == privacy.Block {
				got = append(got, string(f.Class))
			}
		}
		if strings.Join(got, " ") != c.blocked {
			t.Errorf("%s: blocked by %q, want %q", c.reason, got, c.blocked)
		}
	}
}
