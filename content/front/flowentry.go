package front

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// nodeKind says how a key or value inside brackets is written.
type nodeKind int

const (
	plainNode nodeKind = iota
	quotedNode
	bracketNode
)

// node reads one key or value inside brackets.
func (f *flowReader) node() (nodeKind, bool) {
	s := f.scanner
	switch s.text[s.at] {
	case '"', '\'':
		return quotedNode, s.quoted(f.parent, true)
	case '{', '[':
		return bracketNode, s.flow(f.parent, f.depth+1)
	}
	return plainNode, f.plain()
}

// endsFlowText marks the characters at which an unquoted text inside brackets may
// end.
var endsFlowText = [256]bool{',': true, '[': true, ']': true, '{': true, '}': true, '?': true, ':': true, '#': true, '\n': true, '"': true, '\'': true}

// plain reads an unquoted text inside brackets; s.at stands after its last
// character.
func (f *flowReader) plain() bool {
	s := f.scanner
	from := s.at
	s.flowStart(from)
	for s.at < len(s.text) {
		c := s.text[s.at]
		switch {
		case !endsFlowText[c]: // nearly all
		case c == ',' || c == '[' || c == ']' || c == '{' || c == '}' || c == '?' && s.at > from:
			return f.trim(from)
		case c == ':' && s.endsFlowKey(s.at) && s.at > from:
			return f.trim(from)
		case c == '#' && s.at > from && (isBlank(s.text[s.at-1]) || s.text[s.at-1] == '\n'):
			return f.textComment(from)
		case c == '\n' && s.leaves(s.at+1, f.parent):
			return f.trim(from)
		case (c == '"' || c == '\'') && f.key && s.colonLost(from, s.at):
			return f.trim(from)
		}
		s.at++
	}
	return f.trim(from)
}

// trim sets s.at after the last character that is no blank.
func (f *flowReader) trim(from int) bool {
	s := f.scanner
	s.at = from + max(1, len(bytes.TrimRight(s.text[from:s.at], " \t\n")))
	return true
}

// colonLost reports whether the text before a quotation mark is a single word,
// perhaps with a wrong sign after it, and so was meant as a key.
func (s *scanner) colonLost(from, mark int) bool {
	text := bytes.TrimRight(s.text[from:mark], " \t")
	if n := wordLength(text); n > 0 && n == mark-from-1 && s.text[mark-1] == ':' {
		return true
	}
	return mark > from && isBlank(s.text[mark-1]) && wordLength(text) >= len(text)-1 && wordLength(text) > 0
}

// endsFlowKey reports whether the colon at an offset ends a key inside
// brackets.
func (s *scanner) endsFlowKey(at int) bool {
	return at+1 >= len(s.text) || isBlank(s.text[at+1]) || s.text[at+1] == '\n'
}

// flowStart reports a text inside brackets that begins with a character YAML
// keeps for itself.
func (s *scanner) flowStart(at int) {
	end := s.lineEnd(at)
	switch c := s.text[at]; {
	case c == '|' || c == '>' || c == '?' || c == ':' || c == '-' && (at+1 >= end || isBlank(s.text[at+1])):
		s.fault("reserved-start", at, 1, false, "inside brackets a text may not begin with %c unless it is in straight quotation marks", c)
	default:
		s.reservedStart(at, false)
	}
}

// textComment handles a comment after unquoted text inside brackets; false when
// the closing bracket is lost with it.
func (f *flowReader) textComment(from int) bool {
	s := f.scanner
	hash := s.at
	end := s.lineEnd(hash)
	if f.losesEnd(s.text[hash:end]) {
		s.swallowedInFlow(from, hash, end)
		s.at = end + 1
		return false
	}
	s.comment(from, hash, end)
	return f.trim(from)
}

// checkKey looks for what makes a key inside brackets look right and be wrong.
func (f *flowReader) checkKey(key stretch, kind nodeKind) {
	s := f.scanner
	text := s.text[key.from:key.to]
	switch {
	case kind == bracketNode:
		s.fault("complex-key", key.from, 1, false, "a key must be a plain word, not a list or braces")
	case f.listed:
		s.fault("colon-in-text", s.at, 1, false, "a colon and a space inside unquoted text in a list read as a key; put the text in straight quotation marks").
			Suggest(quote(string(s.text[key.from:s.flowResync(s.at, s.lineEnd(s.at))])))
	case kind == quotedNode:
	case bytes.ContainsAny(text, " \t\n") && f.last.to > 0:
		f.cutAt(key.from, s.flowResync(s.at, s.lineEnd(s.at)))
	default:
		f.flush()
		for i := range text {
			if s.oddAt(key.from+i) > 0 {
				s.oddSpace(key.from+i, "in this key")
				return
			}
		}
	}
}

// withoutColon judges an entry that has no colon: right in a list, in braces a
// piece of text cut off by a comma, or a key whose colon is faulty.
//
// It reports whether a fault was found that the text after it may be part of.
func (f *flowReader) withoutColon(key stretch, kind nodeKind) bool {
	s := f.scanner
	text := s.text[key.from:key.to]
	if f.listed {
		f.listEntry(key, kind)
		return false
	}
	n := wordLength(text)
	next := s.text[s.at]
	opens := next == '{' || next == '[' || next == '"' || next == '\''
	switch {
	case kind == plainNode && n > 0 && n < len(text) && text[n] == ':':
		f.flush()
		s.missing(key.from, text)
	case kind == plainNode && !opens && f.last.to > 0 && !f.lostColon(text, n):
		f.cutAt(key.from, key.to)
		return false
	case kind == plainNode && n > 0 && (n < len(text) || opens):
		f.flush()
		if f.last.to == 0 || opens {
			s.missing(key.from, text)
			break
		}
		s.fault("missing-colon", key.from, len(text), false, "between braces every entry is `key: value`, and this one has no colon; if it goes on with the text before the comma, put that whole text in straight quotation marks").
			Suggest(suggestColon(string(text[:n]), string(text[n:])))
	default:
		f.flush()
		s.fault("missing-colon", key.from, min(len(text), 40), false, "between braces every entry is `key: value`; this one has no key")
	}
	return true
}

// lostColon reports whether an entry without a colon was meant as a key and its
// value: its first word, n bytes long, is a key elsewhere in the file, what
// follows is no sentence, and neither is the entry before, which this could go
// on with.
func (f *flowReader) lostColon(text []byte, n int) bool {
	s := f.scanner
	if n == 0 || n == len(text) || f.cut != nil || len(bytes.Fields(text[n:])) > 3 || bytes.ContainsAny(s.text[f.last.from:f.last.to], " ") {
		return false
	}
	return bytes.Contains(s.text, append(bytes.Clone(text[:n]), ": "...))
}

// cutAt notes that the unquoted value before this piece was cut by a comma.
func (f *flowReader) cutAt(from, to int) {
	if f.cut == nil {
		f.cut = &stretch{f.last.from, to}
		f.comma = f.last.to + bytes.IndexByte(f.text[f.last.to:from], ',')
	}
	f.cut.to = to
}

// flush reports a text that commas have cut.
func (f *flowReader) flush() {
	if f.cut == nil {
		return
	}
	text := string(f.text[f.cut.from:f.cut.to])
	if isCurly([]byte(text)) {
		f.fault("curly-quotes", f.cut.from, 1, false, "curly quotation marks do not quote: the comma ends this text; use straight quotation marks").
			Suggest(quote(uncurl(text)))
	} else {
		rest := strings.TrimSpace(string(f.text[f.comma+1 : f.cut.to]))
		either := ""
		if key, value, two := strings.Cut(rest, " "); two && wordLength([]byte(key)) == len(key) && !strings.Contains(value, " ") && strings.ContainsAny(value, "0123456789") {
			either = fmt.Sprintf(", or, if %q is a key, a colon after it", key)
		}
		f.fault("comma-in-text", f.comma, 1, false, "between braces a comma ends the text, so %q would be lost from it; put the whole text in straight quotation marks%s", shorten(rest, 40), either).
			Suggest(quote(text))
	}
	f.cut = nil
}

// listEntry warns of a sentence that a comma has probably made two entries of:
// the first begins with a capital, the second does not, and both have several
// words.
func (f *flowReader) listEntry(key stretch, kind nodeKind) {
	s := f.scanner
	earlier := f.last
	f.last = stretch{}
	if kind != plainNode {
		return
	}
	f.last = key
	f.wrapped(key.from, key.to)
	text := s.text[key.from:key.to]
	if earlier.to == 0 || !bytes.ContainsAny(text, " ") {
		return
	}
	before := s.text[earlier.from:earlier.to]
	first, _ := utf8.DecodeRune(before)
	next, _ := utf8.DecodeRune(text)
	if !bytes.ContainsAny(before, " ") || !unicode.IsUpper(first) || !unicode.IsLower(next) {
		return
	}
	s.warn("comma-in-text", earlier.to, 1,
		"in a list between brackets the comma makes two entries of this; if it is one text, put it in straight quotation marks",
		quote(string(s.text[earlier.from:key.to])))
}
