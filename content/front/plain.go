package front

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// plain reads an unquoted text that begins at an offset and may go on over
// lines indented further than parent.
func (s *scanner) plain(at, parent int) {
	from := at
	s.reservedStart(at, false)
	for {
		end := s.lineEnd(at)
		stop, hash := s.plainStop(at, end)
		if hash {
			s.comment(from, stop, end)
			s.edges(from, stop)
			s.at = end + 1
			return
		}
		if stop < end {
			s.colonFault(from, end, stop)
			s.at = end + 1
			return
		}
		next, indent, line, found := s.nextLine(end + 1)
		if !found || indent <= parent || line[0] == '#' || looksLikeEntry(line) || s.oddAt(next) > 0 || line[0] == '\t' {
			s.edges(from, end)
			s.wrapped(from, end)
			if at == from {
				s.simpleText(from, from+len(bytes.TrimRight(s.text[from:end], " \t")))
			}
			s.at = end + 1
			return
		}
		at = next
	}
}

// plainStop finds the colon or the comment that ends an unquoted text on its
// line; without either it gives end.
func (s *scanner) plainStop(at, end int) (stop int, hash bool) {
	for i := at; i < end; i++ {
		switch c := s.text[i]; {
		case c == ':' && s.endsKey(i, end):
			return i, false
		case c == '#' && i > at && isBlank(s.text[i-1]):
			return i, true
		}
	}
	return end, false
}

// colonFault reports a colon inside an unquoted text. The text runs from from
// to the end of a line.
func (s *scanner) colonFault(from, end, colon int) {
	text := strings.TrimSpace(string(s.text[from:end]))
	opens, closes := strings.Count(text, "{")+strings.Count(text, "["), strings.Count(text, "}")+strings.Count(text, "]")
	_, odd := utf8.DecodeRune(s.text[from:])
	switch {
	case isCurly([]byte(text)):
		s.fault("curly-quotes", from, odd, false, "curly quotation marks do not quote: the colon inside this text needs straight quotation marks around it").
			Suggest(quote(uncurl(text)))
	case closes > opens:
		s.fault("bracket", from, colon-from, false, "an opening bracket { or [ is missing before this text: it holds a key and ends with a closing bracket")
	default:
		s.fault("colon-in-text", colon, 1, false, "a colon and a space inside unquoted text read as a key; put the whole text in straight quotation marks").
			Suggest(quote(text))
	}
}

// comment reports a comment that swallowed the rest of a sentence. A comment
// that was meant as one stands after two blanks or after a single word, and a
// blank follows its mark.
func (s *scanner) comment(from, hash, end int) {
	value := strings.TrimRight(string(s.text[from:hash]), " \t")
	gap := hash - from - len(value)
	rest := string(s.text[hash+1 : end])
	spaced := rest == "" || rest[0] == ' ' || rest[0] == '\t'
	prose := strings.ContainsAny(value, " \t")
	digit := strings.TrimLeft(rest, " \t")
	numbered := digit != "" && digit[0] >= '0' && digit[0] <= '9'
	if spaced && (gap >= 2 || !prose) && !(numbered && gap < 2) {
		return
	}
	s.swallowed(from, hash, end)
}

// swallowed reports that everything from the # on is lost to a comment.
func (s *scanner) swallowed(from, hash, end int) {
	text := strings.TrimSpace(string(s.text[from:end]))
	s.fault("comment-in-text", hash, end-hash, true,
		"the text from # on is taken as a comment and would be lost; put the whole text in straight quotation marks, or, if it is a comment, leave two spaces before the # and one after it").
		Suggest(quote(text))
}

// emptyThenComment reads the end of a line whose key or hyphen has no value on
// it. A comment there is one, unless it holds the only text there is.
func (s *scanner) emptyThenComment(at int) {
	end := s.lineEnd(at)
	s.at = end + 1
	if at >= end || s.text[at] != '#' || at+1 >= end || isBlank(s.text[at+1]) || s.text[at+1] == '#' {
		return
	}
	_, indent, line, found := s.nextLine(end + 1)
	if found && (indent > s.wait.indent || indent == s.wait.indent && line[0] == '-' && !s.wait.list) {
		return
	}
	s.swallowed(at, at, end)
}

// reservedStart reports a text that begins with a character YAML keeps for
// itself. For a key only anchors and tags are looked for.
func (s *scanner) reservedStart(at int, key bool) bool {
	end := s.lineEnd(at)
	switch c := s.text[at]; c {
	case '&', '*':
		if name := nameLength(s.text[at+1 : end]); name > 0 && s.endsName(at+1+name, end) && (c == '&' || s.aloneOnLine(at+1+name, end)) {
			s.anchor(at, name+1)
			return true
		}
	case '!':
		s.fault("tag", at, 1, false, "a text may not begin with an exclamation mark, which marks a type; put the text in straight quotation marks")
		return true
	case '%', '@', '`', ',', '}', ']':
	case '?', ':':
		if key || at+1 < end && !isBlank(s.text[at+1]) {
			return false
		}
	default:
		if s.oddAt(at) > 0 {
			s.oddSpace(at, "before this text")
			return true
		}
		return false
	}
	s.fault("reserved-start", at, 1, false, "a text may not begin with %c unless it is in straight quotation marks", s.text[at]).
		Suggest(quote(strings.TrimSpace(string(s.text[at:end]))))
	return true
}

// anchor reports the first anchor or alias of a file; the others say no more.
func (s *scanner) anchor(at, length int) {
	s.sound = false
	if s.anchorSeen {
		return
	}
	s.anchorSeen = true
	s.fault("anchor", at, length, false,
		"anchors (&name) and aliases (*name) are not allowed in a bank, so nothing is expanded; write the text out, or put it in straight quotation marks if it begins with & or *")
}

func nameLength(text []byte) int {
	n := 0
	for n < len(text) && (text[n] >= 'a' && text[n] <= 'z' || text[n] >= 'A' && text[n] <= 'Z' || text[n] >= '0' && text[n] <= '9' || text[n] == '_' || text[n] == '-') {
		n++
	}
	return n
}

func (s *scanner) endsName(at, end int) bool {
	return at >= end || isBlank(s.text[at]) || bytes.IndexByte([]byte(",]}:"), s.text[at]) >= 0
}

// aloneOnLine reports whether no text follows an alias, as none may.
func (s *scanner) aloneOnLine(at, end int) bool {
	next := s.skipBlank(at, end)
	return next >= end || bytes.IndexByte([]byte(",]}:#"), s.text[next]) >= 0
}

// edges reports a character at either end of an unquoted text that looks like a
// space and would become part of it.
func (s *scanner) edges(from, to int) {
	text := bytes.TrimRight(s.text[from:to], " \t")
	if len(text) == 0 {
		return
	}
	if r, size := utf8.DecodeLastRune(text); isOdd(r) {
		s.oddSpace(from+len(text)-size, "after this text")
	}
}

func (s *scanner) oddSpace(at int, where string) {
	r, size := utf8.DecodeRune(s.text[at:])
	s.fault("odd-space", at, size, false, "a %s (U+%04X) stands %s; put a plain space there, or nothing", oddName(r), r, where)
}
