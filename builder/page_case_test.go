package builder

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"

	"caseleaf/content"
)

// What was chosen, why and what came of it waits behind details on every case
// page, and the reader meets the question and all options before it.
func TestChoiceWaits(t *testing.T) {
	site, pages := demoPages(t)
	decisions := 0
	for _, c := range site.Bank.Cases {
		root := pages[casePath(c.ID.Value)]
		cards := all(root, ".Decision")
		if len(cards) != len(c.Decisions()) {
			t.Errorf("%s: %d decision points shown, %d in the case", c.ID.Value, len(cards), len(c.Decisions()))
			continue
		}
		for i, e := range c.Decisions() {
			decisions++
			checkCard(t, c, e.Decision, cards[i])
		}
	}
	if decisions == 0 {
		t.Error("the demonstration bank has no decision point")
	}
}

func checkCard(t *testing.T, c *content.Case, d *content.DecisionPoint, card *html.Node) {
	t.Helper()
	var shown, hidden strings.Builder
	for n := range card.Descendants() {
		if n.Type != html.TextNode {
			continue
		}
		if inside(n, "details") && !inside(n, "summary") {
			hidden.WriteString(n.Data)
		} else {
			shown.WriteString(n.Data)
		}
	}
	if !strings.Contains(shown.String(), d.Question.Value) {
		t.Errorf("%s: question %q is not shown", c.ID.Value, d.Question.Value)
	}
	for _, o := range d.Options {
		if !strings.Contains(shown.String(), o.Text.Value) {
			t.Errorf("%s: option %q is not shown", c.ID.Value, o.Text.Value)
		}
	}
	for _, g := range []content.Given[string]{d.Because, d.Result} {
		if g.Known() && (strings.Contains(shown.String(), g.Value) || !strings.Contains(hidden.String(), g.Value)) {
			t.Errorf("%s: %q does not wait to be opened", c.ID.Value, g.Value)
		}
	}
	for _, details := range all(card, "details") {
		if slices.ContainsFunc(details.Attr, func(a html.Attribute) bool { return a.Key == "open" }) {
			t.Errorf("%s: a choice stands open", c.ID.Value)
		}
	}
}

// Every entry of every timeline is in the table, in order, with its own id.
func TestTimelineIsWhole(t *testing.T) {
	site, pages := demoPages(t)
	for _, c := range site.Bank.Cases {
		var got []string
		for _, row := range all(pages[casePath(c.ID.Value)], ".Entry") {
			got = append(got, attr(row, "id"))
		}
		if diff := cmp.Diff(anchorsOf(c).rows, got); diff != "" {
			t.Errorf("%s (-want +got)\n%s", c.ID.Value, diff)
		}
	}
}

// Delays and lengths of steps of three demonstration cases, worked out by hand
// from the times in their files.
func TestDemoFiguresByHand(t *testing.T) {
	site, _ := demoPages(t)
	lasted := func(p *CasePage, id string) string {
		for _, r := range p.Rows {
			if r.ID == id {
				return r.Name.Note
			}
		}
		return "no such row"
	}
	find := func(id string) *CasePage {
		for _, p := range site.Pages {
			if data, ok := p.Data.(*CasePage); ok && data.ID == id {
				return data
			}
		}
		t.Fatalf("no page of %s", id)
		return nil
	}
	hb009, hb022 := find("HB-009"), find("HB-022")
	for _, c := range []struct {
		reason, got, want string
	}{
		{"HB-009, began and noticed at 2:31", hb009.Delays[0].ToNoticed, "0 s"},
		{"HB-009, 2:33 - 2:31", hb009.Delays[0].ToActed, "2 s"},
		{"HB-009, 12:58 - 12:56", hb009.Delays[1].ToNoticed, "2 s"},
		{"HB-009, 13:00 - 12:58", hb009.Delays[1].ToActed, "2 s"},
		{"HB-009, first side port, 0:25 - 0:10", lasted(hb009, "t-10"), "lasted 15 s"},
		{"HB-009, last step, 24:20 - 22:30", lasted(hb009, "t-1350"), "lasted 1 min 50 s"},
		{"HB-022, its author does not know when it began", hb022.Delays[0].ToNoticed, "not known"},
		{"HB-022, 10:44 - 10:42", hb022.Delays[0].ToActed, "2 s"},
		{"HB-022, 13:06 - 13:02", hb022.Delays[1].ToNoticed, "4 s"},
		{"HB-022, sculpting, 7:40 - 4:10", lasted(hb022, "t-250"), "lasted 3 min 30 s"},
		{"HB-001, capsulorhexis, 6:05 - 3:15", lasted(find("HB-001"), "t-195"), "lasted 2 min 50 s"},
		{"HB-001, sculpting, 11:35 - 7:55", lasted(find("HB-001"), "t-475"), "lasted 3 min 40 s"},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %q, want %q", c.reason, c.got, c.want)
		}
	}
}

// A watch page quotes the first sign of every event that began in its step and
// leads to the moment.
func TestWatchPageQuotesTheCases(t *testing.T) {
	site, pages := demoPages(t)
	m := newMet(site.Bank)
	quoted := 0
	for step, list := range m.onsets {
		root := pages[stepPath(step)]
		if root == nil {
			t.Errorf("%s: events began here and there is no page", step)
			continue
		}
		for _, at := range list {
			quoted++
			found := slices.ContainsFunc(all(root, "a"), func(a *html.Node) bool {
				return attr(a, "href") == "../"+at.Path() && strings.Contains(textOf(a.Parent), at.Entry.Event.Sign.Value)
			})
			if !found {
				t.Errorf("%s: %s is not quoted", step, at.Path())
			}
		}
	}
	if quoted == 0 {
		t.Error("no event of the demonstration bank began in a known step")
	}
}

// No page with counts from cases lacks the words that they are no rate.
func TestCountsAreNoRates(t *testing.T) {
	site, pages := demoPages(t)
	words, _ := site.words().look("chosen")
	for _, p := range site.Pages {
		switch p.Data.(type) {
		case *StepPage, *StepsPage, *ComplicationPage, *ComplicationsPage, *TechniquePage, *TechniquesPage, *DecisionPage, *StartPage:
			if !strings.Contains(textOf(pages[p.Path]), words) {
				t.Errorf("%s: counts without the words that they are no rate", p.Path)
			}
		}
	}
}

// A page of every term that links go to is planned: what the two ways of
// finding a term's page say agrees with the pages there are.
func TestTermPagesExist(t *testing.T) {
	site, pages := demoPages(t)
	m := newMet(site.Bank)
	for _, term := range site.Bank.Vocabulary.All() {
		p := site.termPath(term.ID)
		if p != m.pageOf(term.ID) {
			t.Errorf("%s: %s and %s", term.ID, p, m.pageOf(term.ID))
		}
		file, _, _ := strings.Cut(p, "#")
		if pages[file] == nil {
			t.Errorf("%s: no page %s", term.ID, p)
		}
	}
}
