package front

import (
	"bytes"
	"slices"
	"strings"
	"unicode/utf8"
)

// keySpan is a key with the colon that ends it.
type keySpan struct {
	from, to int // the key's text, quotes included
	colon    int
	quoted   bool
	listed   bool // it follows a hyphen on its line
}

// key finds the key that begins at an offset; ok is false when the line holds
// no colon that YAML takes for the end of a key.
func (s *scanner) key(at int) (keySpan, bool) {
	end := s.lineEnd(at)
	k := keySpan{from: at, listed: s.waiting && s.wait.list}
	switch s.text[at] {
	case '"', '\'':
		to := s.closingQuote(at, end)
		next := s.skipBlank(to+1, end)
		if to < end && next < end && s.text[next] == ':' && s.endsKey(next, end) {
			k.to, k.colon, k.quoted = to+1, next, true
			return k, true
		}
		return k, false
	case '{', '[', '|', '>', '#', ',', '}', ']':
		return k, false
	}
	for i := at; i < end; i++ {
		switch {
		case s.text[i] == ':' && s.endsKey(i, end):
			k.to, k.colon = at+len(bytes.TrimRight(s.text[at:i], " \t")), i
			return k, i > at
		case s.text[i] == '#' && i > at && isBlank(s.text[i-1]):
			return k, false
		}
	}
	return k, false
}

// endsKey reports whether the colon at an offset is followed by a blank or by
// the end of the line.
func (s *scanner) endsKey(colon, end int) bool { return colon+1 >= end || isBlank(s.text[colon+1]) }

// closingQuote is the offset of the quotation mark that closes the one at an
// offset, on the same line; end when there is none.
func (s *scanner) closingQuote(at, end int) int {
	mark := s.text[at]
	for i := at + 1; i < end; i++ {
		switch {
		case s.text[i] == '\\' && mark == '"':
			i++
		case s.text[i] != mark:
		case mark == '\'' && i+1 < end && s.text[i+1] == mark:
			i++
		default:
			return i
		}
	}
	return end
}

// proseKey reports a sentence that YAML would take for a key because of the
// colon in it, and passes over its line: no key of a bank has a blank in it.
func (s *scanner) proseKey(k keySpan) bool {
	text := s.text[k.from:k.to]
	if k.quoted || wordLength(text) == len(text) || bytes.ContainsAny(text, "{[") {
		return false
	}
	spaced := bytes.ContainsAny(text, " \t")
	if !spaced && !(k.listed && (isCapital(text) || isCurly(text))) {
		return false
	}
	end := s.lineEnd(k.from)
	if joined := s.keyWithBlanks(k); joined != "" {
		s.fault("colon-in-text", k.colon, 1, false, "a key has no blanks in it; join its words by _, or, if this is text, put the whole of it in straight quotation marks").
			Suggest(shorten(joined+string(s.text[k.to:end]), 60))
	} else if !s.reservedStart(k.from, true) {
		s.colonFault(k.from, end, k.colon)
	}
	s.waiting, s.adrift = false, true
	s.at = end + 1
	return true
}

// keyWithBlanks gives the words of a key that was written with blanks, such as
// `follow up`, joined: two or three words in small letters, in step with the
// keys of an open mapping. Else it gives "".
func (s *scanner) keyWithBlanks(k keySpan) string {
	words := bytes.Fields(s.text[k.from:k.to])
	column := k.from - s.lineStart(k.from)
	if k.listed || s.waiting && column > s.wait.indent || len(words) > 3 || !slices.Contains(s.levels, level{column, false}) {
		return ""
	}
	for _, w := range words {
		if wordLength(w) != len(w) || isCapital(w) {
			return ""
		}
	}
	return string(bytes.Join(words, []byte("_")))
}

func isCapital(text []byte) bool {
	r, _ := utf8.DecodeRune(text)
	return strings.ToLower(string(r)) != string(r)
}

// checkKey looks for what makes a key look right and be wrong.
func (s *scanner) checkKey(k keySpan) {
	text := s.text[k.from:k.to]
	for i := range text {
		if s.oddAt(k.from+i) > 0 {
			s.oddSpace(k.from+i, "in this key")
			return
		}
	}
	switch {
	case !k.quoted && isCurly(text):
		s.fault("curly-quotes", k.from, len(text), false, "curly quotation marks do not quote; a key needs none")
	case !k.quoted:
		s.reservedStart(k.from, true)
	}
}

// withoutKey reads a line that holds no key: the value of the key or hyphen
// above it, or a fault.
func (s *scanner) withoutKey(first, column int) {
	if s.waiting && (column > s.wait.indent || !s.numbered) {
		if !s.meantAsKey(first, column) {
			s.value(first, s.wait.indent)
		}
		return
	}
	end := s.lineEnd(first)
	s.stray(first, column, s.text[first:end])
	s.at = end + 1
}

// meantAsKey reports a text that was meant to be a key with its value, as the
// entries below at the same indent show.
func (s *scanner) meantAsKey(first, column int) bool {
	end := s.lineEnd(first)
	line := s.text[first:end]
	_, indent, next, found := s.nextLine(end + 1)
	siblings := found && indent == column && looksLikeEntry(next) && next[0] != '-'
	if !siblings && !(s.colonWord(line) && !s.wait.list) {
		return false
	}
	if n := wordLength(line); n == 0 {
		return false
	}
	s.missing(first, line)
	s.enter(level{column, false}, first)
	s.at = end + 1
	return true
}

// colonWord reports whether a line is a key, a colon and a value without a
// space between: `eye:right`, but not an address or a link to a term.
func (s *scanner) colonWord(line []byte) bool {
	n := wordLength(line)
	if n == 0 || n+1 >= len(line) || line[n] != ':' || line[n+1] == '/' || line[n+1] == ':' {
		return false
	}
	word := string(line[:n])
	return word != "term" && word != "time" && word != "https" && word != "http" && word != "mailto"
}

// stray reports a line that is neither a key with a value nor part of what
// stands above it.
func (s *scanner) stray(first, column int, line []byte) {
	s.waiting = false
	switch {
	case line[0] == '}' || line[0] == ']':
		s.fault("bracket", first, 1, false, "one closing %c too many: no bracket is open here", line[0])
	case nearFence(string(line)):
		s.fault("fence-not-closed", first, len(line), false, "this looks like the closing line of the front matter; it must be exactly --- at the left edge").Suggest(fence)
	case s.hasList(column):
		s.fault("list-layout", first, len(line), false, noHyphen)
	default:
		s.missing(first, line)
		if bytes.IndexByte(line, ' ') < 0 {
			s.enter(level{column, false}, first)
			s.waiting, s.wait, s.waitAt = true, level{column, false}, first
		}
	}
}

// bracketKey reports a line whose colon stands inside brackets, so that what
// comes before it is no key, and passes over the line.
func (s *scanner) bracketKey(k keySpan, column int) bool {
	text := s.text[k.from:k.to]
	open := bytes.IndexAny(text, "{[")
	if k.quoted || open < 0 {
		return false
	}
	s.enter(level{column, false}, k.from)
	if n := wordLength(text); n > 0 {
		s.missing(k.from, s.text[k.from:s.lineEnd(k.from)])
	} else {
		s.fault("missing-colon", k.from, len(text), false, "no colon found before the bracket: this line should read `key: value`")
	}
	s.at = k.from + open
	if s.flow(column, 1) {
		s.afterValue("the closing bracket")
	}
	return true
}

// missing reports a line that lacks the colon, or the space after it, that
// would make it a key with a value.
func (s *scanner) missing(first int, line []byte) {
	n := wordLength(line)
	if n == 0 {
		n = bytes.IndexAny(append(line[:len(line):len(line)], ' '), " :")
	}
	rest := strings.TrimSpace(string(line[n:]))
	word := string(line[:n])
	after := first + n
	switch {
	case n < len(line) && line[n] == ':' && s.oddAt(after+1) > 0:
		s.oddSpace(after+1, "after the colon")
	case n < len(line) && line[n] == ':':
		s.fault("space-after-colon", after, 1, false, "a space after the colon is missing in %q", shorten(string(line), 40)).
			Suggest(shorten(word+": "+rest[1:], 60))
	case strings.HasPrefix(rest, "："):
		s.fault("missing-colon", after, len("："), false, "this is the wide colon of another keyboard; use the plain colon and a space").
			Suggest(shorten(word+": "+strings.TrimSpace(rest[len("："):]), 60))
	default:
		s.fault("missing-colon", first, len(line), false, "no colon found: this line should read `key: value`; if it goes on with the text above, indent it further").
			Suggest(suggestColon(word, rest))
	}
}

// suggestColon proposes the line with its colon where the line reads like a key
// and a value.
func suggestColon(word, rest string) string {
	rest = strings.TrimSpace(strings.TrimLeft(rest, "=;.,："))
	if wordLength([]byte(word)) != len(word) || rest == "" {
		return ""
	}
	return shorten(word+": "+rest, 60)
}
