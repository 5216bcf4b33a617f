package front

import (
	"bytes"
	"unicode"
	"unicode/utf8"
)

// lineEnd is the offset of the line end at or after an offset, or the end of
// the text. The line found last is remembered: a file may be one long line.
func (s *scanner) lineEnd(at int) int {
	if at >= len(s.text) {
		return len(s.text)
	}
	if s.lineFrom <= at && at <= s.lineTo {
		return s.lineTo
	}
	s.lineFrom, s.lineTo = at, len(s.text)
	if i := bytes.IndexByte(s.text[at:], '\n'); i >= 0 {
		s.lineTo = at + i
	}
	return s.lineTo
}

// lineStart is the offset at which the line of an offset begins.
func (s *scanner) lineStart(at int) int { return bytes.LastIndexByte(s.text[:at], '\n') + 1 }

func isBlank(c byte) bool { return c == ' ' || c == '\t' }

// skipBlank is the offset of the first character before end that is neither
// space nor tab.
func (s *scanner) skipBlank(at, end int) int {
	for at < end && isBlank(s.text[at]) {
		at++
	}
	return at
}

// skipAnyBlank skips spaces, tabs and everything that only looks like them.
func (s *scanner) skipAnyBlank(at, end int) int {
	for at < end {
		if isBlank(s.text[at]) {
			at++
		} else if size := s.oddAt(at); size > 0 {
			at += size
		} else {
			break
		}
	}
	return at
}

// oddAt is the length in bytes of a character at an offset that cannot be seen
// or looks like a space without being one, else 0.
func (s *scanner) oddAt(at int) int {
	if at >= len(s.text) || s.text[at] < 0x80 {
		return 0
	}
	r, size := utf8.DecodeRune(s.text[at:])
	if isOdd(r) {
		return size
	}
	return 0
}

// isOdd reports characters that look like a space or like nothing, and are no
// space to YAML.
func isOdd(r rune) bool {
	return r >= 0x80 && r != 0x85 && (unicode.IsSpace(r) || r == 0xad || r == 0xfeff ||
		(r >= 0x200b && r <= 0x200f) || (r >= 0x202a && r <= 0x202e) || (r >= 0x2060 && r <= 0x2069))
}

// oddName names such a character in words.
func oddName(r rune) string {
	switch {
	case r == 0xa0 || r == 0x202f:
		return "no-break space"
	case r == 0xad:
		return "soft hyphen, which cannot be seen"
	case r == 0x3000:
		return "wide (ideographic) space"
	case r == 0x2028 || r == 0x2029:
		return "line separator"
	case unicode.IsSpace(r):
		return "typographic space"
	}
	return "character that cannot be seen"
}

// isWordStart and isWord say what a key is made of: every key of a bank is
// lower case letters, digits, hyphens and underscores.
func isWordStart(c byte) bool { return c >= 'a' && c <= 'z' }

func isWord(c byte) bool { return isWordStart(c) || c >= '0' && c <= '9' || c == '_' || c == '-' }

// wordLength is the length of the key-like word at the head of text.
func wordLength(text []byte) int {
	if len(text) == 0 || !isWordStart(text[0]) {
		return 0
	}
	n := 1
	for n < len(text) && isWord(text[n]) {
		n++
	}
	return n
}

// looksLikeEntry reports whether a line, without its indent, reads like a key
// with a value or like a list entry.
func looksLikeEntry(line []byte) bool {
	if len(line) > 0 && line[0] == '-' && (len(line) == 1 || isBlank(line[1])) {
		return true
	}
	n := wordLength(line)
	return n > 0 && n < len(line) && line[n] == ':' && (n+1 == len(line) || isBlank(line[n+1]))
}

// nextLine finds the first line from an offset on that is not empty, and gives
// its first character, its indent in spaces and its text; found is false at the
// end.
func (s *scanner) nextLine(at int) (first, indent int, line []byte, found bool) {
	for at < len(s.text) {
		end := s.lineEnd(at)
		first = at
		for first < end && s.text[first] == ' ' {
			first++
		}
		if s.skipAnyBlank(first, end) < end {
			return first, first - at, s.text[first:end], true
		}
		at = end + 1
	}
	return len(s.text), 0, nil, false
}

// leaves reports whether the line that begins at an offset lies outside a value
// whose key or hyphen has the given indent, because it is an entry at that
// indent or further left. It finds brackets and quotes that were never closed.
func (s *scanner) leaves(at, parent int) bool {
	end := s.lineEnd(at)
	first := at
	for first < end && s.text[first] == ' ' {
		first++
	}
	if first >= end {
		return first >= len(s.text)
	}
	return first-at <= parent && looksLikeEntry(s.text[first:end])
}
