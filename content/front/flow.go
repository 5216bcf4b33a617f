package front

import (
	"bytes"

	"caseleaf/content/diagnose"
)

// flow reads { … } or [ … ] from its opening bracket at s.at. It reports true
// with s.at after the closing bracket; false when there is none, with s.at on a
// line to go on with. Depth counts the brackets around it.
func (s *scanner) flow(parent, depth int) bool {
	open := s.at
	if depth > maxDepth {
		s.fault("too-deep", open, 1, false, "more than %d brackets inside one another", maxDepth)
		s.at = len(s.text)
		return false
	}
	f := &flowReader{scanner: s, open: open, parent: parent, depth: depth, listed: s.text[open] == '['}
	s.at++
	for s.found < maxFaults {
		if !f.space() {
			return false
		}
		c := s.text[s.at]
		if c == '}' || c == ']' {
			f.flush()
			if (c == ']') != f.listed {
				s.fault("bracket", s.at, 1, false, "this bracket %c closes %c, which it does not match", c, s.text[open]).
					Also(s.src.SpanAt(open, 1), "opened here")
			}
			s.at++
			return true
		}
		if !f.entry() {
			return false
		}
	}
	s.at = len(s.text)
	return false
}

// flowReader reads the entries between one pair of brackets.
type flowReader struct {
	*scanner
	open, parent, depth int
	listed              bool // [ … ], not { … }
	key                 bool // a key is being read

	last  stretch  // the value read last, when it is unquoted text
	cut   *stretch // a text that commas have cut, from its value to its last piece
	comma int      // the first comma in it
}

// stretch is a run of bytes of the file.
type stretch struct{ from, to int }

// space skips blanks, line ends and comments inside brackets. It reports false,
// having said so, when the brackets are never closed.
func (f *flowReader) space() bool {
	s := f.scanner
	for s.at < len(s.text) {
		c := s.text[s.at]
		switch {
		case isBlank(c):
			s.at++
		case c == '\n':
			if s.leaves(s.at+1, f.parent) {
				return f.notClosed(s.at + 1)
			}
			s.at++
		case c == '#':
			if !f.comment() {
				return false
			}
		case s.oddAt(s.at) > 0:
			s.oddSpace(s.at, "between brackets")
			s.at += s.oddAt(s.at)
		default:
			return true
		}
	}
	return f.notClosed(len(s.text))
}

// comment passes over a comment between entries; one that begins without a
// blank, or holds a closing bracket, was meant as text. It reports false when
// the closing bracket is lost with it.
func (f *flowReader) comment() bool {
	s := f.scanner
	end := s.lineEnd(s.at)
	rest := s.text[s.at+1 : end]
	lost := f.losesEnd(rest)
	if lost {
		s.swallowedInFlow(s.at, s.at, end)
		s.at = end + 1
		return false
	}
	if len(rest) > 0 && !isBlank(rest[0]) && rest[0] != '#' {
		s.sound = false
		s.swallowed(s.at, s.at, end)
	}
	s.at = end
	return true
}

// losesEnd reports whether a comment holds the closing bracket of entries that
// stand on one line.
func (f *flowReader) losesEnd(comment []byte) bool {
	return bytes.ContainsAny(comment, "}]") && f.lineStart(f.at) <= f.open
}

func (s *scanner) swallowedInFlow(from, hash, end int) {
	s.fault("comment-in-text", hash, end-hash, false,
		"the text from # on is taken as a comment, its closing bracket included; put the text in straight quotation marks").
		Suggest(quote(string(bytes.TrimRight(s.text[from:end], " \t]},"))))
}

func (f *flowReader) notClosed(resume int) bool {
	s := f.scanner
	f.flush()
	s.fault("bracket", f.open, 1, false,
		"the bracket %c that opens here is not closed; close it at the end of its last line, and indent the lines between", s.text[f.open])
	s.at = resume
	return false
}

// entry reads one entry, to the comma after it or the closing bracket.
func (f *flowReader) entry() bool {
	s := f.scanner
	if s.text[s.at] == ',' {
		s.fault("bracket", s.at, 1, false, "a comma without an entry before it; take it out")
		s.at++
		return true
	}
	from := s.at
	f.key = !f.listed
	kind, ok := f.node()
	f.key = false
	if !ok {
		return false
	}
	key := stretch{from, s.at}
	if !f.space() {
		return false
	}
	if s.text[s.at] != ':' {
		if f.withoutColon(key, kind) {
			return f.separatorAfterFault()
		}
		f.simpleValue(key, kind)
		return f.separator()
	}
	return f.value(key, kind)
}

// value reads what follows the colon of an entry.
func (f *flowReader) value(key stretch, kind nodeKind) bool {
	s := f.scanner
	f.checkKey(key, kind)
	f.simpleKey(key.from, key.to)
	if bytes.IndexByte(s.text[key.from:s.at], '\n') >= 0 {
		s.fault("missing-colon", key.from, 1, false, "between braces a key and its colon must stand on one line")
	}
	s.at++
	if !f.space() {
		return false
	}
	f.last = stretch{}
	if c := s.text[s.at]; c == ',' || c == '}' || c == ']' {
		return f.separator()
	}
	from := s.at
	kind, ok := f.node()
	if !ok {
		return false
	}
	if kind == plainNode {
		f.last = stretch{from, s.at}
		s.wrapped(from, s.at)
	}
	read := stretch{from, s.at}
	if !f.space() {
		return false
	}
	if kind == plainNode && s.text[s.at] == ':' {
		f.colon(from)
		f.last = stretch{}
		return true
	}
	f.simpleValue(read, kind)
	return f.separator()
}

// simpleValue notes a value or an entry of a list before a comma or closing bracket.
func (f *flowReader) simpleValue(read stretch, kind nodeKind) {
	if c := f.text[f.at]; kind != bracketNode && (c == ',' || c == '}' || c == ']') {
		f.simpleText(read.from, read.to)
	}
}

// separator passes the comma after an entry, or stays at the closing bracket.
func (f *flowReader) separator() bool {
	s := f.scanner
	switch c := s.text[s.at]; c {
	case '}', ']':
		return true
	case ',':
		s.at++
		return true
	case '{', '[':
		s.fault("bracket", s.at, 1, false, "a bracket %c inside unquoted text, or a comma is missing before it; put the text in straight quotation marks", c)
		return s.flow(f.parent, f.depth+1) && f.space() && f.separator()
	case '?':
		s.fault("reserved-start", s.at, 1, false, "inside brackets a question mark needs straight quotation marks around its text").
			Suggest(f.quotedLast(s.at + 1))
	default:
		s.fault("text-after-end", s.at, 1, false, "a comma is missing before this, or the text needs straight quotation marks")
	}
	s.at++
	return f.separatorAfterFault()
}

// separatorAfterFault goes on after an entry whose fault has been reported: past
// what stands there to the next comma or closing bracket.
func (f *flowReader) separatorAfterFault() bool {
	s := f.scanner
	if !f.space() {
		return false
	}
	switch s.text[s.at] {
	case '{', '[', '"', '\'':
		if _, ok := f.node(); !ok || !f.space() {
			return false
		}
	}
	s.at = s.flowResync(s.at, s.lineEnd(s.at))
	if s.at < len(s.text) && s.text[s.at] == ',' {
		s.at++
	}
	return true
}

// quotedLast proposes the unquoted text read last, up to an offset, in quotes.
func (f *flowReader) quotedLast(to int) string {
	if f.last.to == 0 {
		return ""
	}
	return quote(string(f.text[f.last.from:to]))
}

// colon reports a colon inside the unquoted value of an entry and goes on after
// the entry.
func (f *flowReader) colon(from int) {
	s := f.scanner
	at := s.at
	end := s.lineEnd(at)
	to := s.flowResync(at, end)
	text := bytes.TrimSpace(s.text[from:to])
	var d *diagnose.Diagnostic
	if isCurly(text) {
		d = s.fault("curly-quotes", from, 1, false, "curly quotation marks do not quote: the colon inside this text needs straight quotation marks around it")
		text = []byte(uncurl(string(text)))
	} else {
		d = s.fault("colon-in-text", at, 1, false, "a colon and a space inside unquoted text read as a key; put the text in straight quotation marks, or a comma before the last word if it is the next key")
	}
	d.Suggest(quote(string(text)))
	s.at = to
	if to < end && s.text[to] == ',' {
		s.at++
	}
}
