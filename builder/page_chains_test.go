package builder

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Where cases are many, each first event has a page of its own, which the first page
// leads to, and every case stands once on all of them.
func TestChainsInParts(t *testing.T) {
	site, _ := demoPages(t)
	pages := site.chainPages(10)
	first := pages[0].Data.(*ChainsPage)
	met := map[string]bool{}
	for i, p := range pages {
		for _, g := range p.data().(*ChainsPage).Groups {
			if g.Figure.Drawing == "" {
				t.Errorf("%s is not drawn", p.Path)
			}
			if i == 0 || g.Event.Text != first.Parts[i-1].Text || p.Path != first.Parts[i-1].Path {
				t.Errorf("%s is on page %d, %s", g.Event.Text, i, p.Path)
			}
			for _, c := range g.Cases {
				if met[c.Path] {
					t.Errorf("%s stands twice", c.Path)
				}
				met[c.Path] = true
			}
		}
	}
	for _, v := range first.Single {
		met[v.Case.Path] = true
	}
	want := 0
	for _, c := range site.Bank.Cases {
		if len(c.Events()) > 0 {
			want++
		}
	}
	if len(met) != want || len(pages) < 3 || len(first.Parts) != len(pages)-1 {
		t.Errorf("%d cases of %d on %d pages, of which %d are led to", len(met), want, len(pages), len(first.Parts))
	}
}

// Every case with an event stands once on the page of chains.
func TestChains(t *testing.T) {
	site, _ := demoPages(t)
	i := slices.IndexFunc(site.Pages, func(p Page) bool { return p.Path == chainsPage })
	p := site.Pages[i].Data.(*ChainsPage)
	var got, want []string
	for _, g := range p.Groups {
		for _, c := range g.Cases {
			got = append(got, c.Note)
		}
	}
	for _, w := range p.Single {
		got = append(got, w.Case.Note)
	}
	for _, c := range site.Bank.Cases {
		if len(c.Events()) > 0 {
			want = append(want, c.ID.Value)
		}
	}
	slices.Sort(got)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("cases (-want +got):\n%s", diff)
	}
	if told := site.words().say("chains-summary", len(want), len(site.Bank.Cases)); p.Summary != told {
		t.Errorf("%q, want %q", p.Summary, told)
	}
}
