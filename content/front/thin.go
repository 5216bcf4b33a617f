package front

import (
	"bytes"
	"sync"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"caseleaf/content/diagnose"
)

// Nearly all of front matter is keys and simple values: an id, a sentence in
// quotation marks. The scanner has seen where each begins and ends and what it
// reads as, so the library, which looks at every character many times, is given an
// empty text of the same width for each, and what stands there is put into its tree
// afterwards. Only the shape is left for it to find. That takes half the time and
// keeps no second copy of the texts.

// simpleText notes the text between two offsets, its quotation marks included, as
// a value that stands as it is typed. What follows it must be able to follow a
// quoted text.
func (s *scanner) simpleText(from, to int) {
	text := s.text[from:to]
	if len(text) < 2 || len(text) <= utf8.UTFMax && utf8.RuneCount(text) < 2 {
		return // an empty text takes two columns
	}
	switch text[0] {
	case '"':
		if bytes.ContainsAny(text, "\\\n\t") {
			return
		}
	case '\'':
		if bytes.ContainsAny(text, "\n\t") || bytes.IndexByte(text[1:len(text)-1], '\'') >= 0 {
			return
		}
	default:
		if !plainSimple(text) {
			return
		}
	}
	s.simple = append(s.simple, stretch{from, to})
}

// simpleLine notes the text from an offset to where reading stands, where nothing
// else stands on its line.
func (s *scanner) simpleLine(from int) {
	if end := s.lineEnd(s.at); s.skipBlank(s.at, end) == end {
		s.simpleText(from, s.at)
	}
}

// simpleKey notes an unquoted key of one word.
func (s *scanner) simpleKey(from, to int) {
	if text := s.text[from:to]; len(text) > 1 && wordLength(text) == len(text) {
		s.simple = append(s.simple, stretch{from, to})
	}
}

// plainSimple reports an unquoted text that the library, too, would take for a
// text, or for a number, which is a text in a bank.
func plainSimple(text []byte) bool {
	if c := text[0]; !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c >= 0x80) {
		return false
	}
	for i, c := range text {
		if c == '\n' || c == '\t' || c == ':' && (i+1 == len(text) || text[i+1] < '0' || text[i+1] > '9') {
			return false
		}
	}
	return !(len(text) == 4 && (text[0] == 'n' || text[0] == 'N') && bytes.EqualFold(text, []byte("null")))
}

// thinned is a stretch of YAML in which simple texts are left out.
type thinned struct {
	src    *diagnose.Source
	text   []byte
	places []textPlace // what was left out, in the order of the text
	next   int         // the first of them that the tree has not got back
}

// textPlace is where a text stands, its quotation marks included.
type textPlace struct {
	line, column int // of the file
	stretch
}

var thinnedPool = sync.Pool{New: func() any { return new(thinned) }}

// thin writes the text of a stretch, with as many line ends before it as put it
// into its place and one more, and leaves the simple texts out.
func thin(src *diagnose.Source, p part, simple []stretch) *thinned {
	t := thinnedPool.Get().(*thinned)
	t.src, t.text, t.places, t.next = src, t.text[:0], t.places[:0], 0
	for range p.firstLine {
		t.text = append(t.text, '\n')
	}
	line, column, at := p.firstLine, 1, p.start
	for _, s := range simple {
		between := src.Data[at:s.from]
		if i := bytes.LastIndexByte(between, '\n'); i >= 0 {
			line += bytes.Count(between, lineEndMark)
			column = 1 + utf8.RuneCount(between[i+1:])
		} else {
			column += utf8.RuneCount(between)
		}
		t.places = append(t.places, textPlace{line, column, s})
		t.text = append(t.text, between...)
		width := utf8.RuneCount(src.Data[s.from:s.to])
		t.text = append(t.text, '"', '"')
		for range width - 2 {
			t.text = append(t.text, ' ')
		}
		at, column = s.to, column+width
	}
	t.text = append(t.text, src.Data[at:p.end]...)
	return t
}

var lineEndMark = []byte{'\n'}

// free gives the room that was taken back; the tree keeps nothing of it.
func (t *thinned) free() {
	t.src = nil
	thinnedPool.Put(t)
}

// fill puts the texts back into a tree. It reports false when the tree is another
// than the scanner thought.
func (t *thinned) fill(root *yaml.Node) bool {
	t.put(root)
	return t.next == len(t.places)
}

func (t *thinned) put(n *yaml.Node) {
	lift(n, t.src)
	if n.Kind == yaml.ScalarNode && n.Style&yaml.DoubleQuotedStyle != 0 && t.next < len(t.places) {
		if p := t.places[t.next]; p.line == n.Line && p.column == n.Column {
			t.next++
			t.restore(n, p.stretch)
		}
	}
	for _, c := range n.Content {
		t.put(c)
	}
}

func (t *thinned) restore(n *yaml.Node, at stretch) {
	switch t.src.Data[at.from] {
	case '"':
		n.Value = t.src.Text(at.from+1, at.to-1)
	case '\'':
		n.Value, n.Style = t.src.Text(at.from+1, at.to-1), yaml.SingleQuotedStyle
	default:
		n.Value, n.Style = t.src.Text(at.from, at.to), 0
	}
}
