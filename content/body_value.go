package content

import (
	"bytes"
	"regexp"
	"slices"
	"strings"

	"caseleaf/content/diagnose"
)

// Mark-up that an author may have meant in front matter, where every text is
// shown as typed.
var (
	linkMarkup   = regexp.MustCompile(`!?\[[^\[\]]*\]\([^()]*\)?`)
	strongMarkup = regexp.MustCompile(`\*\*[^\s*][^*]*\*\*`)
	htmlMarkup   = regexp.MustCompile(`</?([A-Za-z][A-Za-z0-9-]*)(\s[^<>]*)?/?>|<!--`)
)

// checkValues warns of mark-up in the values of front matter, of the first in
// each line: it can do no harm there, and it does nothing. It warns of a line
// that follows upon itself as well, which a key pressed twice has doubled.
func checkValues(src *diagnose.Source, end int, bag *diagnose.Bag) {
	at := 0
	var last []byte
	for line := range bytes.Lines(src.Data[:min(end, len(src.Data))]) {
		if i, length := valueMarkup(line); i >= 0 {
			bag.Warn("markup-in-value", src.SpanAt(at+i, length), "mark-up works in the story only; here it is shown as typed, signs and all")
		}
		if text := bytes.TrimSpace(line); len(text) > 3 && text[0] != '#' && bytes.Equal(line, last) {
			bag.Warn("repeated-line", src.SpanAt(at, len(line)), "this line stands here twice; take one out")
		}
		last = line
		at += len(line)
	}
}

// valueMarkup returns the place of mark-up in a line, or -1.
func valueMarkup(line []byte) (at, length int) {
	if bytes.HasPrefix(bytes.TrimLeft(line, " "), []byte("#")) || !bytes.ContainsAny(line, "<[*") {
		return -1, 0
	}
	for _, form := range []*regexp.Regexp{linkMarkup, strongMarkup} {
		if m := form.FindIndex(line); m != nil {
			return m[0], m[1] - m[0]
		}
	}
	for _, m := range htmlMarkup.FindAllSubmatchIndex(line, -1) {
		name := ""
		if m[2] >= 0 {
			name = strings.ToLower(string(line[m[2]:m[3]]))
		}
		if name == "" || textElements[name] || pageElements[name] || m[4] >= 0 {
			return m[0], m[1] - m[0]
		}
	}
	return -1, 0
}

var keyForm = regexp.MustCompile(`^([a-z_]+):(\s|$)`)

// checkStrayKeys reports keys of front matter at the head of a story: the line
// of dashes stands too early.
func checkStrayKeys(b *Body, keys []string, bag *diagnose.Bag) {
	at := 0
	for line := range bytes.Lines(b.Markdown) {
		if text := bytes.TrimSpace(line); len(text) > 0 {
			m := keyForm.FindSubmatch(line)
			if m == nil || !slices.Contains(keys, string(m[1])) {
				return
			}
			bag.Error("key-in-story", b.Span(at, len(m[1])), "%q is a key of front matter, but stands below the line of dashes that ends it; move it above", m[1])
		}
		at += len(line)
	}
}
