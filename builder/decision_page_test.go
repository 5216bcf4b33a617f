package builder

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"

	"caseleaf/builder/figure"
	"caseleaf/content"
)

// advice is how no page of a decision may speak.
var advice = regexp.MustCompile(`(?i)\b(we recommend|is recommended|you should|should be chosen|the best choice|is the best option)\b`)

// Every shared decision has its question, what the evidence is worth before all
// else, every option with what speaks for and against it, its count, its
// expected value and its switches, the tree and its table, the cases, sources
// and caution; and it never speaks as advice.
func TestDecisionPages(t *testing.T) {
	site, pages := demoPages(t)
	if len(site.Bank.Decisions) < 5 {
		t.Fatalf("%d decisions", len(site.Bank.Decisions))
	}
	for _, d := range site.Bank.Decisions {
		p := decisionPath(d.ID.Value)
		root := pages[p]
		main := all(root, "main")[0]
		checkThinFirst(t, p, main)
		checkOptions(t, site, d, main)
		for _, want := range []string{"tree", "tornado", "map"} {
			if countFigures(main, want) != 1 {
				t.Errorf("%s: %d figures %s", p, countFigures(main, want), want)
			}
		}
		text := textOf(main)
		for _, want := range []string{d.Question.Value, d.Caution.Value, "Under the numbers stated here", "Expected value of perfect information", "It is no advice"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: does not say %q", p, want)
			}
		}
		if said := advice.FindString(text); said != "" {
			t.Errorf("%s: reads as advice: %q", p, said)
		}
		checkMet(t, site, d, main)
	}
}

func countFigures(main *html.Node, id string) int {
	n := 0
	for _, f := range all(main, "figure") {
		if attr(f, "id") == id {
			n++
		}
	}
	return n
}

// checkThinFirst holds that the note on thin evidence comes before every
// section. All demonstration trees are thin: their numbers are invented.
func checkThinFirst(t *testing.T, p string, main *html.Node) {
	t.Helper()
	thin := all(main, ".Thin")
	if len(thin) != 1 {
		t.Errorf("%s: %d notes on thin evidence", p, len(thin))
		return
	}
	for n := range main.Descendants() {
		if n == thin[0] {
			return
		}
		if n.Data == "section" || n.Data == "svg" {
			t.Errorf("%s: %s comes before the note on thin evidence", p, n.Data)
			return
		}
	}
}

// checkOptions counts choices afresh from the cases.
func checkOptions(t *testing.T, site *Site, d *content.Decision, main *html.Node) {
	t.Helper()
	chosen, met := map[string]int{}, 0
	for _, c := range site.Bank.Cases {
		for _, e := range c.Decisions() {
			if e.Decision.Point.Or("") == d.ID.Value {
				met++
				chosen[e.Decision.Chosen.Or("")]++
			}
		}
	}
	options := all(main, ".Option")
	if len(options) != len(d.Options) {
		t.Fatalf("%s: %d options shown, %d in the tree", d.ID.Value, len(options), len(d.Options))
	}
	for i, o := range d.Options {
		text := textOf(options[i])
		count := fmt.Sprintf("Chosen %d of the %d times", chosen[o.ID.Value], met)
		for _, want := range []string{o.Text.Value, o.For.Value, o.Against.Value, count, "95 % of draws"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s, %s: does not say %q", d.ID.Value, o.ID.Value, want)
			}
		}
		if !strings.Contains(text, "preferred if") && !strings.Contains(text, "No single number") {
			t.Errorf("%s, %s: does not say when that would change", d.ID.Value, o.ID.Value)
		}
	}
}

// checkMet holds that every moment of the cases is linked at its place.
func checkMet(t *testing.T, site *Site, d *content.Decision, main *html.Node) {
	t.Helper()
	var want, got []string
	for _, at := range site.met.decisions[d.ID.Value] {
		want = append(want, "../"+at.Path())
	}
	for _, table := range all(main, ".Met") {
		for _, a := range all(table, ".Moment") {
			got = append(got, attr(a, "href"))
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%s: moments (-want +got):\n%s", d.ID.Value, diff)
	}
}

// Every question that only one case asks stands once on a page without values,
// and the list of decisions leads to that page.
func TestQuestionPages(t *testing.T) {
	site, pages := demoPages(t)
	shown := map[string]int{}
	listed := textOf(all(pages[decisionsPage], "main")[0])
	links := map[string]bool{}
	for _, a := range all(pages[decisionsPage], "a") {
		links[attr(a, "href")] = true
	}
	for p, root := range pages {
		if !strings.HasPrefix(p, "questions/") {
			continue
		}
		if !links[p] {
			t.Errorf("%s: not in the list of decisions", p)
		}
		for _, h := range all(root, "h2") {
			shown[textOf(h)]++
		}
		if text := textOf(all(root, "main")[0]); strings.Contains(text, "Expected") || len(all(root, "svg")) > 0 {
			t.Errorf("%s: values where none are stated", p)
		}
	}
	if len(site.met.alone) == 0 {
		t.Fatal("no question of one case in the demonstration bank")
	}
	for _, at := range site.met.alone {
		if q := at.Entry.Decision.Question.Value; shown[q] != 1 {
			t.Errorf("%s: %q stands %d times", at.Case.ID.Value, q, shown[q])
		}
	}
	for _, d := range site.Bank.Decisions {
		if !strings.Contains(listed, d.Title.Value) {
			t.Errorf("%s is not in the list of decisions", d.ID.Value)
		}
	}
}

// A card shows its question and nothing of the answer until it is turned, and
// on paper every back lies behind its own front.
func TestCards(t *testing.T) {
	site, pages := demoPages(t)
	root := pages[cardsPage]
	cards := all(root, "article")
	if want := len(site.Bank.Decisions) + len(site.met.alone); len(cards) != want {
		t.Errorf("%d cards, want %d", len(cards), want)
	}
	for i, d := range site.Bank.Decisions {
		var front strings.Builder
		for n := range cards[i].Descendants() {
			if n.Type == html.TextNode && !inside(n, "details") {
				front.WriteString(n.Data)
			}
		}
		if !strings.Contains(front.String(), d.Question.Value) {
			t.Errorf("card %d: the question is not on its front", i+1)
		}
		for _, o := range d.Options {
			if strings.Contains(front.String(), o.Text.Value) {
				t.Errorf("card %d: option %q is on its front", i+1, o.Text.Value)
			}
			if !strings.Contains(textOf(cards[i]), o.Text.Value) {
				t.Errorf("card %d: option %q is nowhere", i+1, o.Text.Value)
			}
		}
	}
}

// Many cards are parted by step: each stands once, the first page leads to every
// deck, and no deck is a page of megabytes.
func TestDecks(t *testing.T) {
	site, _ := demoPages(t)
	pages := site.cardPages(10)
	first := pages[0].Data.(*CardsPage)
	cards := 0
	for i, p := range pages {
		for _, sheet := range p.data().(*CardsPage).Sheets {
			cards += len(sheet.Cards)
		}
		if i > 0 && first.Decks[i-1].Path != p.Path {
			t.Errorf("deck %d is %s, and the first page leads to %s", i, p.Path, first.Decks[i-1].Path)
		}
	}
	if want := len(site.Bank.Decisions) + len(site.met.alone); cards != want || len(pages) < 3 {
		t.Errorf("%d cards on %d pages, want %d on several", cards, len(pages), want)
	}
	if len(first.Decks) != len(pages)-1 {
		t.Errorf("%d decks are led to, of %d", len(first.Decks), len(pages)-1)
	}
}

// Five cards, worked by hand: turned over along the long edge, left is right.
func TestSheets(t *testing.T) {
	cards := make([]Card, 7)
	for i := range cards {
		cards[i].Number = i + 1
	}
	var got [][]int
	for _, s := range sheets(cards) {
		for _, side := range [][]Card{s.Cards, s.Backs} {
			var numbers []int
			for _, c := range side {
				numbers = append(numbers, c.Number)
			}
			got = append(got, numbers)
		}
	}
	want := [][]int{{1, 2, 3, 4}, {2, 1, 4, 3}, {5, 6, 7}, {6, 5, 0, 7}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("fronts and backs (-want +got):\n%s", diff)
	}
}

// eyeWords belong to no other specialty.
var eyeWords = regexp.MustCompile(`(?i)\b(eyes?|cornea|corneal|pupil|limbus|clock hours?|capsulorhexis|temporal)\b`)

// A case with an event that took a stretch of the circumference has the eye at
// that event; a bank of another specialty has no eye at all.
func TestEyeOfACase(t *testing.T) {
	site, pages := demoPages(t)
	for _, c := range site.Bank.Cases {
		extents := 0
		for i := range c.Timeline.Entries {
			if e := c.Timeline.Entries[i].Event; e != nil && e.Extent.Known() {
				extents++
			}
		}
		text := textOf(all(pages[casePath(c.ID.Value)], "main")[0])
		if extents > 0 && !strings.Contains(text, "The eye, to scale") {
			t.Errorf("%s: %d extents and no drawing of the eye", c.ID.Value, extents)
		}
	}
	bank, _, err := content.Read(os.DirFS("../testdata/second-specialty"))
	if err != nil {
		t.Fatal(err)
	}
	second := Plan(bank, Options{})
	for _, d := range second.drawn {
		if d.kind == eyeKind || d.kind == sectionKind {
			t.Errorf("%s: an eye in a bank that has none", d.path)
		}
	}
	for _, d := range second.drawn {
		if word := eyeWords.Find(figure.Alone(second.figureOf(d))); word != nil {
			t.Errorf("%s: says %q", d.path, word)
		}
	}
	for _, p := range second.Pages {
		if c, ok := p.data().(*CasePage); ok && len(c.Eye) > 0 {
			t.Errorf("%s: an eye in a bank that has none", p.Path)
		}
	}
}

// HB-017 grew from 2–6 to 1–8 o'clock before the wound at 9; HB-001 had no
// event, and is drawn as it was left, without a pupil that nobody measured then.
func TestFaceFollowsTheCase(t *testing.T) {
	site, _ := demoPages(t)
	face := func(id string) (string, bool) {
		for _, d := range site.drawn {
			if d.path == figurePath("cases", id, eyeKind) {
				return fmt.Sprint(site.figureOf(d).Table().Rows), true
			}
		}
		return "", false
	}
	for id, want := range map[string][]string{
		"HB-017": {"2 to 6 o’clock (4 clock hours), then 1 to 8 o’clock (7 clock hours)", "2.4 mm at 9 o’clock", "pupil 5.5 mm", "11.7 mm (standard value)"},
		"HB-001": {"1 mm at 11 o’clock", "capsule opening 5.1 mm"},
	} {
		text, ok := face(id)
		if !ok {
			t.Errorf("%s: no face", id)
		}
		for _, w := range want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: %q is not in %s", id, w, text)
			}
		}
	}
	if text, _ := face("HB-001"); strings.Contains(text, "pupil") {
		t.Errorf("HB-001: a pupil that nobody measured: %s", text)
	}
}

// Every figure's file is well formed, needs nothing else and is listed with
// what it may be used for.
func TestFigureFiles(t *testing.T) {
	site, pages := demoPages(t)
	listed := map[string]bool{}
	for _, a := range all(pages[figuresPage], "a") {
		listed[attr(a, "href")] = true
	}
	for _, kind := range []figureKind{stripKind, eyeKind, sectionKind, treeKind, tornadoKind, mapKind, chainsKind} {
		if !slices.ContainsFunc(site.drawn, func(d drawnFigure) bool { return d.kind == kind }) {
			t.Errorf("no figure of kind %s", kind)
		}
	}
	for _, d := range site.drawn {
		data := figure.Alone(site.figureOf(d))
		if !listed[d.path] {
			t.Errorf("%s is not listed", d.path)
		}
		for _, need := range []string{"var(", "href", "currentColor", "url(", "<script", "<style"} {
			if bytes.Contains(data, []byte(need)) {
				t.Errorf("%s does not stand alone: %s", d.path, need)
			}
		}
		if !bytes.Contains(data, []byte(`fill="#ffffff"`)) {
			t.Errorf("%s has no white ground", d.path)
		}
		for dec := xml.NewDecoder(bytes.NewReader(data)); ; {
			if _, err := dec.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Errorf("%s: %v", d.path, err)
				break
			}
		}
	}
}
