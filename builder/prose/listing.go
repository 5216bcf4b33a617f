package prose

import (
	"strings"

	"github.com/alecthomas/chroma/v2"
)

// The classes of a listing are chroma's, so that [StyleSheet] colours both.
var (
	listedKey     = listedClass(chroma.NameTag)
	listedText    = listedClass(chroma.LiteralString)
	listedNumber  = listedClass(chroma.LiteralNumber)
	listedComment = listedClass(chroma.Comment)
)

func listedClass(t chroma.TokenType) string {
	return `<span class="c-` + chroma.StandardTypes[t] + `">`
}

// FrontMatter marks up the front matter of a case, line by line: keys, quoted
// texts, numbers with their units, comments. Every case has such a listing, and
// this takes a fiftieth of the time of [Highlight], whose lexer knows all of
// YAML; front matter is the small part of it that the reader accepts.
func FrontMatter(code string) string {
	var out strings.Builder
	out.Grow(2*len(code) + 80)
	out.WriteString("<pre class=\"c-chroma\" tabindex=\"0\"><code>")
	l := listing{out: &out}
	for line := range strings.Lines(code) {
		l.line(line)
	}
	out.WriteString("</code></pre>\n")
	return out.String()
}

// listing writes lines; start says that a key or a value may begin here.
type listing struct {
	out   *strings.Builder
	start bool
}

func (l *listing) line(line string) {
	l.start = true
	for line != "" {
		n := l.next(line)
		line = line[n:]
	}
}

// next writes what stands at the beginning of text and returns its length.
func (l *listing) next(text string) int {
	switch c := text[0]; {
	case c == ' ' || c == '\n' || c == '\t' || strings.IndexByte("{[,-", c) >= 0 && l.start:
		l.out.WriteByte(c)
		return 1
	case c == '#' && l.start:
		n := len(strings.TrimRight(text, "\n"))
		l.span(listedComment, text[:n])
		return n
	case (c == '"' || c == '\'') && l.start:
		n := quoted(text, c)
		l.value(listedText, text, n)
		return n
	case strings.IndexByte("{}[],", c) >= 0:
		l.out.WriteByte(c)
		l.start = c == '{' || c == '[' || c == ','
		return 1
	}
	n := word(text)
	if l.start && n < len(text) && text[n] == ':' && (n+1 == len(text) || strings.IndexByte(" \n", text[n+1]) >= 0) {
		l.span(listedKey, text[:n])
		l.out.WriteByte(':')
		return n + 1
	}
	l.value("", text, n)
	return n
}

// value writes a value, or the head of one.
func (l *listing) value(class, text string, n int) {
	if class == "" && l.start && text[0] >= '0' && text[0] <= '9' {
		class = listedNumber
	}
	l.start = false
	l.span(class, text[:n])
	if n < len(text) && text[n] == ' ' && n+1 < len(text) && text[n+1] == '#' {
		l.start = true // only after a blank is # a comment
	}
}

func (l *listing) span(class, text string) {
	if class == "" {
		l.out.WriteString(escape(text))
		return
	}
	l.out.WriteString(class)
	l.out.WriteString(escape(text))
	l.out.WriteString("</span>")
}

// word is the length of a run of text up to a blank, a bracket, or the colon
// that ends a key; keys hold no blanks.
func word(text string) int {
	for i := 1; i < len(text); i++ {
		switch c := text[i]; {
		case strings.IndexByte(" \n{}[],", c) >= 0:
			return i
		case c == ':' && (i+1 == len(text) || text[i+1] == ' ' || text[i+1] == '\n'):
			return i
		}
	}
	return len(text)
}

// quoted is the length of a quoted text with both its marks; without an end it
// is the rest of the line.
func quoted(text string, mark byte) int {
	for i := 1; i < len(text); i++ {
		switch {
		case mark == '"' && text[i] == '\\':
			i++
		case text[i] == mark && mark == '\'' && i+1 < len(text) && text[i+1] == mark:
			i++
		case text[i] == mark:
			return i + 1
		}
	}
	return len(strings.TrimRight(text, "\n"))
}
