package front

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/content/diagnose"
)

// readText reads front matter that begins on line 2 of a file.
func readText(front string) (Document, bool, diagnose.Diagnostics) {
	bag := diagnose.NewBag()
	src, ok := Normalise("case.md", []byte("---\n"+front+"---\nBody.\n"), bag)
	if !ok {
		return Document{}, false, bag.Sorted()
	}
	doc, ok := Split(src, bag)
	return doc, ok, bag.Sorted()
}

// TestFaults lists each kind of slip in its smallest form; line 2 is the first
// line of the input.
func TestFaults(t *testing.T) {
	for _, test := range []struct {
		name  string
		front string
		want  []place
	}{
		// Blanks.
		{"tab after a hyphen", "a:\n  -\tx\n", []place{{"error", 3, 4, "tab"}}},
		{"tab in the first lines of a block text", "a: |\n\tx\nb: c\n", []place{{"error", 3, 1, "tab"}}},
		{"wide space as indent", "a:\n\u3000\u3000b: c\n", []place{{"error", 3, 1, "odd-space"}}},
		{"no-break space in a key", "eye\u00a0: right\n", []place{{"error", 2, 4, "odd-space"}}},
		{"zero-width space in a key", "e\u200bye: right\n", []place{{"error", 2, 2, "odd-space"}}},
		{"no-break space before a value", "eye: \u00a0right\n", []place{{"error", 2, 6, "odd-space"}}},
		{"no-break space after a value", "eye: right\u00a0\n", []place{{"error", 2, 11, "odd-space"}}},
		{"no-break space after a hyphen", "a:\n  - b\n  -\u00a0c\n", []place{{"error", 4, 4, "odd-space"}}},
		{"no-break space in braces", "a: {b:\u00a0c}\n", []place{{"error", 2, 7, "odd-space"}}},
		// Indents.
		{"one space too few", "a:\n  b: 1\n  c: 2\n d: 3\n", []place{{"error", 5, 1, "indent"}}},
		{"further in after a value", "a: 1\n  b: 2\nc: 3\n", []place{{"error", 3, 1, "indent"}}},
		{"further in after quotes", "a: \"1\"\n  b: 2\n", []place{{"error", 3, 1, "indent"}}},
		{"a nested entry that would join the text above", "a:\n  - one\n    - two\n", []place{{"error", 4, 1, "indent"}}},
		{"the first line is further in", "  a: 1\nb: 2\nc: 3\n", []place{{"error", 2, 1, "indent"}}},
		{"a block text falls back", "a: |\n    one\n  two\nb: c\n", []place{{"error", 4, 1, "indent"}}},
		// Lists.
		{"no hyphen", "a:\n  - one\n  two\n", []place{{"error", 4, 3, "list-layout"}}},
		{"a key among entries", "a:\n  - one\n  b: two\n", []place{{"error", 4, 1, "list-layout"}}},
		{"an entry among keys", "a: 1\n- b\n", []place{{"error", 3, 1, "list-layout"}}},
		{"a list on the line of its key", "a: - one\n", []place{{"error", 2, 4, "list-layout"}}},
		{"no space after the hyphen", "a:\n  - one\n  -two\n", []place{{"error", 4, 3, "space-after-hyphen"}}},
		{"none in the first entry", "a:\n  -one\n", []place{{"error", 3, 3, "space-after-hyphen"}}},
		{"a dash from a word processor", "a:\n  – b: c\n    d: e\n", []place{{"error", 3, 3, "list-layout"}}},
		{"a star for a hyphen", "a:\n  * one\n", []place{{"error", 3, 3, "list-layout"}}},
		// Colons.
		{"no space after the colon", "a: b\neye:right\n", []place{{"error", 3, 4, "space-after-colon"}}},
		{"nor in a nested key", "a:\n  b:c\n  d: e\n", []place{{"error", 3, 4, "space-after-colon"}}},
		{"nor after a hyphen", "a:\n  - at:0:40\n    step: x\n", []place{{"error", 3, 7, "space-after-colon"}}},
		{"no colon", "eye right\na: b\n", []place{{"error", 2, 1, "missing-colon"}}},
		{"a semicolon", "a:\n  - {b; c}\n  - d;\n      e: f\n", []place{{"error", 3, 6, "missing-colon"}, {"error", 5, 1, "indent"}}},
		{"a wide colon", "a: b\neye： right\n", []place{{"error", 3, 4, "missing-colon"}}},
		{"no colon before braces", "cataract {type: x}\n", []place{{"error", 2, 1, "missing-colon"}}},
		{"a colon in text", "title: Wait: it may dilate\n", []place{{"error", 2, 12, "colon-in-text"}}},
		{"a colon at the end of text", "title: Wait:\n", []place{{"error", 2, 12, "colon-in-text"}}},
		{"a colon in an entry", "a:\n  - Wait: it may dilate\n", []place{{"error", 3, 9, "colon-in-text"}}},
		{"a colon in the second line of text", "a: one\n  Two three: four\n", []place{{"error", 3, 12, "colon-in-text"}}},
		{"a colon in a list in brackets", "a: [Wait: it may]\n", []place{{"error", 2, 9, "colon-in-text"}}},
		{"a comma lost between keys", "a: {b: 1 c: 2}\n", []place{{"error", 2, 11, "colon-in-text"}}},
		// Commas and brackets.
		{"a comma in text", "a: {b: one, two three, c: d}\n", []place{{"error", 2, 11, "comma-in-text"}}},
		{"two commas in text", "a: {b: one two, three, four five}\n", []place{{"error", 2, 15, "comma-in-text"}}},
		{"a comma, then a colon in the text", "a: {b: one two, three four: five}\n", []place{{"error", 2, 15, "comma-in-text"}}},
		{"a sentence in a list", "a: [Ask before the list, not at the table.]\n", []place{{"warning", 2, 24, "comma-in-text"}}},
		{"two commas together", "a: {b: 1,, c: 2}\n", []place{{"error", 2, 10, "bracket"}}},
		{"a bracket not closed", "a:\n  - {b: 1\n  - {c: 2}\n", []place{{"error", 3, 5, "bracket"}}},
		{"a bracket not opened", "a: b: 1}\n", []place{{"error", 2, 4, "bracket"}}},
		{"one bracket too many", "a: {b: 1}}\n", []place{{"error", 2, 10, "bracket"}}},
		{"the wrong bracket", "a: [b, c}\n", []place{{"error", 2, 9, "bracket"}}},
		{"text after a bracket", "a: {b: 1} c\n", []place{{"error", 2, 11, "text-after-end"}}},
		{"a bracket in text in braces", "a: {b: hooks [4]}\n", []place{{"error", 2, 14, "bracket"}}},
		{"a question in braces", "a: {b: Wait or go? Now, c: d}\n", []place{{"error", 2, 18, "reserved-start"}}},
		// Quotes.
		{"quotes not closed", "a: \"one\nb: two\n", []place{{"error", 2, 4, "quote-not-closed"}}},
		{"quotes not closed, closed by a later one", "a: \"one\nb: \"two\"\n", []place{{"error", 2, 4, "quote-not-closed"}}},
		{"quotes not opened", "a: one two\"\n", []place{{"warning", 2, 11, "quote-unpaired"}}},
		{"curly quotes in braces", "a: {b: “one, two”}\n", []place{{"error", 2, 8, "curly-quotes"}}},
		{"a curly quote that a straight one closes", "a: {b: ”one two\"}\n", []place{{"warning", 2, 8, "curly-quotes"}}},
		{"a path in double quotes", `a: "C:\pictures"` + "\n", []place{{"error", 2, 7, "backslash"}}},
		// Comments.
		{"a number sign in text", "a: one two # 3\n", []place{{"error", 2, 12, "comment-in-text"}}},
		{"one that begins the text", "a: #3 stuck\nb: c\n", []place{{"error", 2, 4, "comment-in-text"}}},
		{"one that begins an entry", "a:\n  - #3 stuck\n", []place{{"error", 3, 5, "comment-in-text"}}},
		{"one in braces", "a: {b: piece #3}\n", []place{{"error", 2, 14, "comment-in-text"}}},
		{"one that begins text in braces", "a: {b: #3}\n", []place{{"error", 2, 8, "comment-in-text"}}},
		// What a bank does not take.
		{"an alias without an anchor", "a: *b\n", []place{{"error", 2, 4, "anchor"}}},
		{"emphasis", "a: *iris* billowed\n", []place{{"error", 2, 4, "reserved-start"}}},
		{"a mention", "a: @trainer\n", []place{{"error", 2, 4, "reserved-start"}}},
		{"a sign for more", "a: > 5 mm\n", []place{{"error", 2, 4, "reserved-start"}}},
		{"a type", "a: !!binary x\n", []place{{"error", 2, 4, "tag"}}},
		{"an exclamation", "a: !important\n", []place{{"error", 2, 4, "tag"}}},
		{"merged keys", "a: {<<: {b: c}}\n", []place{{"error", 2, 5, "merge-key"}}},
		{"a list for a key", "? [a, b]\n: c\n", []place{{"error", 2, 1, "complex-key"}}},
		{"a key twice in braces", "a: {b: 1, b: 2}\n", []place{{"error", 2, 11, "duplicate-key"}}},
		{"an entry twice", "a:\n  - {b: c}\n  - d\n  - {b: c}\n", []place{{"warning", 5, 5, "repeated-entry"}}},
		{"a text twice in brackets", "a: [b, c, b]\n", []place{{"warning", 2, 11, "repeated-entry"}}},
		{"the end of a document", "a: b\n...\nc: d\n", []place{{"error", 1, 1, "fence-not-closed"}}},
		{"no keys", "- a\n- b\n", []place{{"error", 2, 1, "not-a-mapping"}}},
		{"nothing", "", []place{{"error", 2, 1, "no-front-matter"}}},
		{"only comments", "# a\n", []place{{"error", 2, 1, "no-front-matter"}}},
		{"a control character", "a: b\x01\n", []place{{"error", 2, 5, "control-character"}}},
		{"a control character of two bytes", "a: b\u0080\n", []place{{"error", 2, 5, "control-character"}}},
		{"a lost letter", "a: 3\ufffd mm\n", []place{{"error", 2, 5, "lost-letter"}}},
		{"a letter coded twice", "a: 3Â½ mm, it’s und fÃ¼r\n", []place{{"warning", 2, 5, "twice-coded"}}},
		{"an apostrophe coded twice", "a: itâ€™s\n", []place{{"warning", 2, 6, "twice-coded"}}},
		{"nested too deeply", "a: " + strings.Repeat("[", 5000) + strings.Repeat("]", 5000) + "\n", []place{{"error", 2, 104, "too-deep"}}},
		// Several at once.
		{"three faults in one run", "eye:right\na: b: c\n\tb: c\n", []place{
			{"error", 2, 4, "space-after-colon"}, {"error", 3, 5, "colon-in-text"}, {"error", 4, 1, "tab"},
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, _, ds := readText(test.front)
			if diff := cmp.Diff(test.want, places(ds)); diff != "" {
				var text strings.Builder
				ds.WriteText(&text)
				t.Errorf("messages (-want +got):\n%s\n%s", diff, text.String())
			}
		})
	}
}

// TestGood lists layouts that authors use and that must draw no message.
func TestGood(t *testing.T) {
	for name, front := range map[string]string{
		"comments":               "# head\na: b   # why\nc: {d: e}  # f\nextent: 5-7 # clock hours\ng: \"#1\"\nh: C#\n",
		"a comment after a key":  "a: # why\n  b: c\n",
		"an empty commented key": "a: # one sentence\nb: c\n",
		"no-break space in text": "a: 3\u00a0mm pupil\nb: \"\u00a0c\u00a0\"\n",
		"times and addresses":    "a: 1:02:03\nb: https://example.org/x?y=1#z\nc: term:iris-hooks\n",
		"text over two lines":    "a: one\n  two\nb:\n  three\n  four\n",
		"quoted over two lines":  "a: \"one\n  two: three\"\nb: c\n",
		"block text":             "a: |\n  b: c\n  # d\n    e\n\n  f {\nb: >-\n  g\n",
		"block text in a list":   "a:\n  - |\n    b\n  - >\n    c\n",
		"braces over lines":      "a: {\n  b: c,   # d\n  e: [f,\n    g]\n}\nh: i\n",
		"a list at its key":      "a:\n- b\n- c\nd: e\n",
		"lists in lists":         "a:\n  - - b\n    - c\n  -\n    d: e\n",
		"a trailing comma":       "a: [b, c,]\n",
		"empty values":           "a:\nb: {}\nc: []\nd: \"\"\n",
		"apostrophes":            "a: surgeon's o'clock\nb: 'it''s'\nc: {d: o'clock}\n",
		"inches":                 "a: the 6\" ring, 5' 6\"\n",
		"quotes inside text":     "a: the \"old\" ring\n",
		"curly quotes inside":    "a: the “old” ring\nb: \"“old”\"\n",
		"negative numbers":       "a: -0.5\nb:\n  - -1\n  - +2\n",
		"a quoted key":           "\"a\": b\n'c': d\n",
		"a tab after the colon":  "a:\tb\n",
		"other alphabets":        "a: Зрачок 3 мм\nb: 瞳孔\n",
		"line separators":        "a: \"one\u2028two\"\nb: c\n",
		"windows blanks":         "a: b  \n  \nc: d\n",
		"lower-case phrases":     "a: [room one, room two]\n",
		"percent and signs":      "a: 5 %\nb: <40 and >20\nc: a & b * c\nd: = 3\n",
		"capitals with tildes":   "a: SÃO e Âmbar, grâce\n",
		"an escape":              "a: \"\\u2028 \\x41 \\\\ \\\"\"\n",
	} {
		t.Run(name, func(t *testing.T) {
			_, ok, ds := readText(front)
			if !ok || len(ds) > 0 {
				var text strings.Builder
				ds.WriteText(&text)
				t.Errorf("ok = %v for\n%s\n%s", ok, front, text.String())
			}
		})
	}
}
