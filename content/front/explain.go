package front

import (
	"strings"

	"caseleaf/content/diagnose"
)

// problems puts into words what yaml.v3 says of layouts that the scanner let
// pass. Its own words name tokens and streams, which mean nothing to an author.
var problems = []struct {
	part  string // of the library's message
	code  diagnose.Code
	words string
}{
	{"EOF", "no-front-matter", "nothing but comments or empty lines stands here; keys and values were expected"},
	{"rest", "documents", "the text above ends before this line, and what follows would be lost; check the indent of the lines around it"},
	{"mapping values", "colon-in-text", "a colon and a space stand where no key can be, on this line or the next; put the text in straight quotation marks, or check the indent"},
	{"tab", "tab", "a tab stands on this line or the next where a space must be"},
	{"cannot start any token", "reserved-start", "a text on this line begins with a character that needs straight quotation marks around it"},
	{"unknown escape", "backslash", "a backslash inside double quotation marks begins a code that does not exist; write two backslashes"},
	{"hexdecimal", "backslash", "a backslash inside double quotation marks begins a code that is not complete; write two backslashes"},
	{"could not find expected ':'", "missing-colon", "a colon with a space after it is missing on this line or the one before"},
	{"expected ',' or", "bracket", "a comma, a closing bracket or quotation marks are missing in the brackets on this line"},
	{"expected '-'", "list-layout", "a line of this list, or the first line after it, is out of step; every entry begins with a hyphen in the same column"},
	{"expected key", "indent", "a line below this one is out of step; keys that belong together begin in the same column"},
	{"end of stream", "quote-not-closed", "quotation marks that open here are not closed"},
	{"anchor", "anchor", "anchors (&name) and aliases (*name) are not allowed in a bank"},
	{"tag", "tag", "a text may not begin with an exclamation mark unless it is in straight quotation marks"},
	{"directive", "reserved-start", "a line may not begin with %"},
	{"control characters", "control-character", "an invisible control character stands on this line or near it; delete it"},
	{"exceeded max depth", "too-deep", "too many brackets or lists inside one another"},
}

// explain reports a layout that yaml.v3 could not read, at the line it names,
// held inside the stretch.
func explain(src *diagnose.Source, p part, line int, problem string, bag *diagnose.Bag) {
	last := src.SpanAt(max(p.end-1, p.start), 0).Line()
	line = min(max(line, p.firstLine), max(last, p.firstLine), src.Lines())
	span := src.Span(line, 1, max(1, len([]rune(src.Line(line)))))
	for _, known := range problems {
		if strings.Contains(problem, known.part) {
			bag.Error(known.code, span, "%s", known.words)
			return
		}
	}
	bag.Error("layout", span, "the layout of this line, or of one next to it, cannot be understood; compare it with a case that works")
}
