package front

import (
	"strings"

	"caseleaf/content/diagnose"
)

// fences says where the front matter and the body of a file lie.
type fences struct {
	firstLine  int // file line of the first line of front matter
	start, end int // byte offsets of the front matter
	body       int // byte offset of the body
}

// fence is the line that opens and closes front matter. Blanks after it do no
// harm; blanks before it make it text, so that a divider inside an indented
// note does not close the front matter.
const fence = "---"

func isFence(line string) bool { return strings.TrimRight(line, " \t") == fence }

func findFences(src *diagnose.Source, bag *diagnose.Bag) (fences, bool) {
	open := 1
	for open < src.Lines() && strings.TrimSpace(src.Line(open)) == "" {
		open++
	}
	if !isFence(src.Line(open)) {
		noFront(src, open, bag)
		return fences{}, false
	}
	for n := open + 1; n <= src.Lines(); n++ {
		if isFence(src.Line(n)) {
			if likely := storyBefore(src, open+1, n); likely > 0 {
				notClosedBefore(src, open, likely, n, bag)
				return fences{}, false
			}
			f := fences{firstLine: open + 1, start: src.Offset(open+1, 1), end: src.Offset(n, 1), body: len(src.Data)}
			if n < src.Lines() {
				f.body = src.Offset(n+1, 1)
			}
			return f, true
		}
	}
	notClosed(src, open, bag)
	return fences{}, false
}

// storyBefore finds, between two lines, the first that shows the front matter to
// have ended before: dashes that are no fence, or a sentence after an empty line.
// Then the fence found is a divider of the story.
func storyBefore(src *diagnose.Source, from, to int) int {
	for n := from; n < to; n++ {
		line := src.Line(n)
		if line != "" && line[0] != ' ' && nearFence(line) {
			return n
		}
		if looksLikeBody(line) && line[0] != '#' && strings.Count(line, " ") >= 3 && n > from && strings.TrimSpace(src.Line(n-1)) == "" {
			return n
		}
	}
	return 0
}

func notClosedBefore(src *diagnose.Source, open, likely, found int, bag *diagnose.Bag) {
	bag.Error("fence-not-closed", src.Span(open, 1, 3),
		"the front matter opens here, but its closing --- is missing, perhaps at line %d; the one at line %d seems to be a divider of the story", likely, found).
		Also(src.Span(likely, 1, len([]rune(src.Line(likely)))), "the front matter seems to end before this line")
}

// secondHead warns of front matter in the story: a case pasted below another
// would be shown as text. Code blocks are left alone.
func secondHead(src *diagnose.Source, body int, bag *diagnose.Bag) {
	code := ""
	for n := src.SpanAt(body, 0).Line(); n < src.Lines(); n++ {
		line := src.Line(n)
		if mark := codeMark(line); mark != "" && (code == "" || code == mark) {
			if code == "" {
				code = mark
			} else {
				code = ""
			}
		}
		next := src.Line(n + 1)
		if code == "" && isFence(line) && (strings.HasPrefix(next, "case:") || strings.HasPrefix(next, "decision:")) {
			bag.Warn("documents", src.Span(n+1, 1, len([]rune(next))), "front matter stands in the story here and is shown as text; one file holds one case, so give this one a file of its own")
			return
		}
	}
}

// codeMark is the sign that opens or closes a code block on a line, or "".
func codeMark(line string) string {
	line = strings.TrimLeft(line, " ")
	for _, mark := range []string{"```", "~~~"} {
		if strings.HasPrefix(line, mark) {
			return mark
		}
	}
	return ""
}

// noFront says what stands where the opening fence should.
func noFront(src *diagnose.Source, line int, bag *diagnose.Bag) {
	text := strings.TrimSpace(src.Line(line))
	span := src.Span(line, 1, len([]rune(src.Line(line))))
	switch {
	case text == "":
		bag.Error("no-front-matter", src.Span(1, 1, 0), "the file is empty; a case begins with a line of three dashes, ---")
	case nearFence(text):
		bag.Error("no-front-matter", span, "the front matter must open with a line of exactly three dashes, ---").Suggest(fence)
	default:
		bag.Error("no-front-matter", span, "no front matter: the file must open with a line of three dashes, ---, before %q", shorten(text, 30))
	}
}

// notClosed points at the opening fence and at the likely place of the closing
// one: a line that nearly is one, else the first line that reads like a story.
func notClosed(src *diagnose.Source, open int, bag *diagnose.Bag) {
	likely, why := 0, ""
	for n := open + 1; n <= src.Lines() && likely == 0; n++ {
		if line := src.Line(n); nearFence(strings.TrimSpace(line)) && !strings.HasPrefix(line, "  ") {
			likely, why = n, "this looks like the closing line; it must be exactly --- at the left edge"
		}
	}
	for n := open + 1; n <= src.Lines() && likely == 0; n++ {
		if looksLikeBody(src.Line(n)) {
			likely, why = n, "the front matter seems to end before this line"
		}
	}
	d := bag.Error("fence-not-closed", src.Span(open, 1, 3),
		"the front matter opens here, but its closing --- was not found")
	if likely > 0 {
		d.Message += ", perhaps lost at line " + itoa(likely)
		d.Also(src.Span(likely, 1, len([]rune(src.Line(likely)))), why)
	}
}

// nearFence reports whether text is made of dashes of any sort only, but is no
// fence: --, ----, an em dash, = signs.
func nearFence(text string) bool {
	text = strings.TrimRight(text, " \t")
	return text != "" && text != "-" && strings.Trim(text, "-–—‐‑‒―−_=+.") == "" && len(text) < 20
}

// looksLikeBody reports whether a line at the left edge can be no line of front
// matter: a heading, or a sentence without a key.
func looksLikeBody(line string) bool {
	if line == "" || line[0] == ' ' || line[0] == '\t' || line[0] == '-' {
		return false
	}
	if strings.HasPrefix(line, "## ") {
		return true
	}
	return line[0] != '#' && !strings.Contains(line, ":") && strings.Contains(line, " ")
}
