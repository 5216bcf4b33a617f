package builder

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestLinesOf(t *testing.T) {
	for _, c := range []struct {
		text  string
		chars int
		want  float64
	}{
		{"", 10, 0}, {"ten signs.", 10, 1}, {"eleven sign", 10, 2},
		{"超声乳化针", 10, 1}, {"超声乳化针头", 10, 2}, // East Asian signs take the room of two
	} {
		if got := linesOf(c.text, c.chars); got != c.want {
			t.Errorf("%q in lines of %d: got %v, want %v", c.text, c.chars, got, c.want)
		}
	}
}

func TestCut(t *testing.T) {
	for _, c := range []struct {
		text string
		most int
		want string
	}{
		{"short enough", 20, "short enough"},
		{"cut at a word, not inside one", 17, "cut at a word…"}, // the comma goes with it
		{"unbrokenunbrokenunbroken", 10, "unbrokenu…"},
		{"超声乳化针头", 8, "超声乳…"},
	} {
		if got := cut(c.text, c.most); got != c.want {
			t.Errorf("%q cut to %d: got %q, want %q", c.text, c.most, got, c.want)
		}
	}
}

// A page with far too much of everything keeps some of each part, in the order
// of rank, counts what it leaves out, and takes no more than the sheet has.
func TestSheetKeepsSomeOfEach(t *testing.T) {
	w := wordsIn("en")
	long := strings.Repeat("much to say of this ", 60)
	p := &EveningPage{Heading: Heading{Title: "Step", Summary: long}, Ready: long, Delay: "Delay.", Lasted: "Lasted."}
	for range 40 {
		p.Watch = append(p.Watch, EveningWatch{Name: Link{Text: "Complication"}, Sign: long, Move: long, Noticed: "noticed after 3 s"})
		p.Choices = append(p.Choices, EveningChoice{long, long})
		p.Lessons = append(p.Lessons, EveningLesson{long, Link{Text: "HB-001"}})
		p.Cautions = append(p.Cautions, long)
	}
	sheet := newSheet(Masthead{Title: "Bank", Edition: "2026", Language: "en", Invented: true})
	sheet.fit(p, w)
	if sheet.left < 0 {
		t.Errorf("%.1f mm more than the sheet has", -sheet.left)
	}
	if len(p.Watch) < 3 || len(p.Choices) < 1 || len(p.Lessons) < 1 {
		t.Errorf("kept %d to watch, %d choices, %d lessons", len(p.Watch), len(p.Choices), len(p.Lessons))
	}
	if want := w.say("evening-more", 40-len(p.Watch)); p.MoreWatch != want {
		t.Errorf("says %q, want %q", p.MoreWatch, want)
	}
	for _, text := range []string{p.Watch[0].Sign, p.Summary, p.Ready} {
		if utf8.RuneCountInString(text) > mostReady+1 || !strings.HasSuffix(text, "…") {
			t.Errorf("%q is not cut", text)
		}
	}
}

// What fits is left whole, and nothing is said to be elsewhere.
func TestSheetLeavesShortPagesWhole(t *testing.T) {
	p := &EveningPage{
		Heading: Heading{Title: "Step"}, Watch: []EveningWatch{{Sign: "a sign"}}, Lessons: []EveningLesson{{Text: "a lesson"}},
		Cautions: []string{"a caution"},
	}
	newSheet(Masthead{Language: "en"}).fit(p, wordsIn("en"))
	if len(p.Watch) != 1 || len(p.Lessons) != 1 || len(p.Cautions) != 1 || p.MoreWatch+p.MoreChoices+p.MoreLessons != "" {
		t.Errorf("kept %+v", p)
	}
}
