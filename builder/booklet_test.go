package builder_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"caseleaf/casebank"
	"caseleaf/content"

	"golang.org/x/net/html"
)

// withheld lists every text of a case that says what was done, why, or what
// came of it, and those that often do: title, summary, notes. Short ones (none,
// 6/9, in the bag) stand in other places with other meanings, so only texts of
// fewest letters and more can be told to be withheld.
func withheld(bank *content.Bank, c *content.Case) []string {
	const fewest = 20
	var all []string
	add := func(list ...content.Given[string]) {
		for _, g := range list {
			if g.Known() && utf8.RuneCountInString(g.Value) >= fewest {
				all = append(all, g.Value)
			}
		}
	}
	add(c.Summary, c.Limits, c.Outcome.FurtherSurgery, c.Outcome.Note, c.Tolerance, c.Perspective)
	add(c.Lessons...)
	add(c.Alternatives...)
	if c.Title.Known() {
		all = append(all, c.Title.Value)
	}
	for i := range c.Timeline.Entries {
		switch e := &c.Timeline.Entries[i]; {
		case e.Step != nil:
			add(e.Step.Note)
		case e.Finding != nil:
			add(e.Finding.Note)
		case e.Event != nil:
			add(e.Event.Cause, e.Event.Action, e.Event.Note)
		case e.Decision != nil:
			add(e.Decision.Because, e.Decision.Result)
			if d, ok := bank.Decision(e.Decision.Point.Value); ok {
				add(branchTexts(d.Options)...)
			}
		}
	}
	for _, k := range c.Kit {
		add(k.Note)
	}
	for line := range strings.Lines(string(c.Body.Markdown)) {
		// The first words of each paragraph; links break the rest up.
		if words, _, _ := strings.Cut(strings.TrimSpace(line), "["); utf8.RuneCountInString(words) >= fewest && !strings.ContainsAny(words[:1], "#|`<!") {
			all = append(all, strings.TrimSpace(words))
		}
	}
	return all
}

// branchTexts are the texts of all chance branches below a tree's options.
func branchTexts(options []content.TreeOption) []content.Given[string] {
	var list []content.Given[string]
	var below func(n *content.Node)
	below = func(n *content.Node) {
		for i := range n.Chance {
			list = append(list, n.Chance[i].Text)
			below(&n.Chance[i].Then)
		}
		if n.Decide != nil {
			list = append(list, branchTexts(n.Decide.Options)...)
		}
	}
	for i := range options {
		below(&options[i].Then)
	}
	return list
}

// everything is all text and every attribute of a page, text by text, with white
// space made single.
func everything(t *testing.T, file string) string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	root, err := html.Parse(f)
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	for n := range root.Descendants() {
		if n.Type == html.TextNode || n.Type == html.CommentNode {
			out.WriteString(n.Data + "\n")
		}
		for _, a := range n.Attr {
			out.WriteString(a.Val + "\n")
		}
	}
	return single(out.String())
}

// single makes white space single.
func single(text string) string { return strings.Join(strings.Fields(text), " ") }

// Nothing that is withheld stands anywhere in a participants' copy, neither as
// text nor in an attribute, a drawing or the document's head; all of it that
// is printed of a case at all stands in the tutors' copy.
func TestParticipantsCopyWithholds(t *testing.T) {
	for name, b := range map[string]struct {
		files  fs.FS
		folder string
		copies []string
		fewest int // texts that must be found in the tutors' copies, lest the check look for nothing
	}{
		"demo":             {casebank.FS(), demoHandout(t), []string{"booklets/all", "courses/wet-lab/booklet"}, 500},
		"second-specialty": {os.DirFS("../testdata/second-specialty"), secondHandout(t), []string{"booklets/all", "courses/box-day/booklet"}, 30},
	} {
		bank, _, err := content.Read(b.files)
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for _, stem := range b.copies {
			participants := everything(t, filepath.Join(b.folder, stem+"-participants.html"))
			tutors := everything(t, filepath.Join(b.folder, stem+"-tutors.html"))
			for _, c := range bank.Cases {
				for _, text := range withheld(bank, c) {
					if strings.Contains(participants, single(text)) {
						t.Errorf("%s: %s-participants.html holds %q of %s", name, stem, text, c.ID.Value)
					}
					if strings.Contains(tutors, single(text)) {
						told++
					}
				}
			}
		}
		if told < b.fewest {
			t.Errorf("%s: %d texts are in the tutors' copies; want %d at least", name, told, b.fewest)
		}
	}
}

// Options are marked up alike in the participants' copy, so that their HTML does
// not tell which was chosen.
func TestParticipantsOptionsAlike(t *testing.T) {
	f, err := os.Open(filepath.Join(demoHandout(t), "booklets", "all-participants.html"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	root, err := html.Parse(f)
	if err != nil {
		t.Fatal(err)
	}
	shapes := map[string]int{}
	for n := range root.Descendants() {
		if n.Type != html.ElementNode || n.Data != "li" || n.Parent == nil || !strings.Contains(classOf(n.Parent), "Ticks") {
			continue
		}
		shape := classOf(n)
		for d := range n.Descendants() {
			if d.Type == html.ElementNode && d.Data != "i" {
				shape += " " + d.Data + "." + classOf(d)
			}
		}
		shapes[shape]++
	}
	// For and against, one of them, neither, and the reader's own.
	if len(shapes) == 0 || len(shapes) > 4 {
		t.Errorf("%d shapes of options, want 1 to 4: %v", len(shapes), shapes)
	}
}

func classOf(n *html.Node) string {
	for _, a := range n.Attr {
		if a.Key == "class" {
			return a.Val
		}
	}
	return ""
}
