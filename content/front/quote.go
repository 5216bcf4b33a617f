package front

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Quotation marks that word processors and other keyboards make.
const (
	curlyOpen  = "“„«‘‚‹‟‛”"
	curlyClose = "”“»’‘›"
)

func isCurly(text []byte) bool {
	r, size := utf8.DecodeRune(text)
	return size > 1 && strings.ContainsRune(curlyOpen, r)
}

// uncurl takes the curly marks off both ends of a text that stands in them;
// where they stand round a part of it, they become straight ones.
func uncurl(text string) string {
	inner := strings.TrimFunc(text, func(r rune) bool { return strings.ContainsRune(curlyOpen, r) || strings.ContainsRune(curlyClose, r) })
	if !strings.ContainsAny(inner, "“”„«»‟") {
		return inner
	}
	return straight.Replace(text)
}

var straight = strings.NewReplacer("“", `"`, "”", `"`, "„", `"`, "«", `"`, "»", `"`, "‟", `"`)

// quote puts text in straight quotation marks as YAML reads them back.
func quote(text string) string {
	text = strings.TrimSpace(text)
	if !strings.ContainsAny(text, `"\`) {
		return `"` + text + `"`
	}
	return "'" + strings.ReplaceAll(text, "'", "''") + "'"
}

// wrapped warns of an unquoted text that stands in curly quotation marks, which
// become part of it, and of one that ends with a straight mark it does not
// begin with.
func (s *scanner) wrapped(from, to int) {
	text := strings.TrimSpace(string(s.text[from:to]))
	last, _ := utf8.DecodeLastRuneInString(text)
	switch {
	case isCurly([]byte(text)) && (strings.ContainsRune(curlyClose, last) || last == '"' || last == '\''):
		_, first := utf8.DecodeRuneInString(text)
		s.warn("curly-quotes", from, first, "curly quotation marks do not quote: they are part of this text and will be shown; use straight ones to quote it", "")
	case last == '"' && strings.Count(text, `"`)%2 == 1 && !digitBefore(text):
		s.warn("quote-unpaired", from+len(text)-1, 1, "this text ends with a quotation mark but does not begin with one; the mark will be shown", "")
	}
}

// digitBefore reports whether the mark at the end of a text follows a digit, as
// in 6", where it means inches.
func digitBefore(text string) bool {
	return len(text) > 1 && text[len(text)-2] >= '0' && text[len(text)-2] <= '9'
}

// quoted reads the quoted text at s.at. When the text is sound, or its end can
// be guessed, s.at stands after its closing mark and the answer is true; else
// s.at stands on a line to go on with.
func (s *scanner) quoted(parent int, flow bool) bool {
	open := s.at
	mark := s.text[open]
	for i := open + 1; i < len(s.text); i++ {
		switch c := s.text[i]; {
		case c == '\n' && s.leaves(i+1, parent):
			return s.notClosed(open, i)
		case c == '\\' && mark == '"':
			s.escape(i)
			if i+1 < len(s.text) && s.text[i+1] != '\n' {
				i++
			}
		case c != mark:
		case mark == '\'' && i+1 < len(s.text) && s.text[i+1] == mark:
			i++
		default:
			s.at = i + 1
			return s.endsWell(open, flow) || s.quoteInside(open, flow)
		}
	}
	return s.notClosed(open, len(s.text))
}

// notClosed reports a quoted text without an end and goes on with the line
// after an offset.
func (s *scanner) notClosed(open, lineEnd int) bool {
	s.fault("quote-not-closed", open, 1, false, "the quotation mark that opens here is not closed; add one at the end of the text")
	s.at = lineEnd + 1
	return false
}

// escape checks what follows a backslash inside double quotes.
func (s *scanner) escape(at int) {
	if at+1 >= len(s.text) || goodEscape(s.text[at+1:]) {
		return
	}
	_, size := utf8.DecodeRune(s.text[at+1:])
	s.fault("backslash", at, 1+size, false, `inside double quotation marks a backslash begins a code, and %s is none; write two backslashes, or use single quotation marks`,
		s.text[at:at+1+size])
}

// goodEscape reports whether text begins with what may follow a backslash.
func goodEscape(text []byte) bool {
	digits := map[byte]int{'x': 2, 'u': 4, 'U': 8}[text[0]]
	if digits == 0 {
		return strings.IndexByte("0abt\tnvfre \"'\\N_LP\n", text[0]) >= 0
	}
	if len(text) <= digits {
		return false
	}
	value, err := strconv.ParseUint(string(text[1:1+digits]), 16, 32)
	return err == nil && value <= unicode.MaxRune && (value < 0xd800 || value > 0xdfff)
}

// endsWell reports whether what follows a closing mark may follow it.
func (s *scanner) endsWell(open int, flow bool) bool {
	end := s.lineEnd(s.at)
	next := s.skipBlank(s.at, end)
	if next >= end || s.text[next] == '#' && next > s.at {
		return true
	}
	return flow && strings.IndexByte(",]}:", s.text[next]) >= 0
}

// quoteInside reports a quotation mark inside a quoted text that ended it too
// early, and goes on after the mark that was meant to.
func (s *scanner) quoteInside(open int, flow bool) bool {
	mark := s.text[open]
	inner := s.at - 1
	end := s.lineEnd(inner)
	meant := s.meantEnd(inner, end, mark, flow)
	suggestion := ""
	if meant < end {
		suggestion = quote(string(s.text[open+1 : meant]))
		s.at = meant + 1
	} else if flow {
		s.at = s.flowResync(inner+1, end)
	} else {
		s.at = end
	}
	if mark == '\'' {
		s.fault("quote-inside", inner, 1, false, "this apostrophe ends the text in single quotation marks; double it, or use double quotation marks").Suggest(suggestion)
	} else {
		s.fault("quote-inside", inner, 1, false, `this double quote ends the text in double quotation marks; write \" for it, or use single quotation marks`).Suggest(suggestion)
	}
	return true
}

// meantEnd finds the mark, past one that ended a text too early, that was meant
// to end it; end when there is none.
func (s *scanner) meantEnd(inner, end int, mark byte, flow bool) int {
	for i := inner + 1; i < end; i++ {
		if s.text[i] != mark {
			continue
		}
		next := s.skipBlank(i+1, end)
		if next == end || s.text[next] == '#' && next > i+1 || flow && strings.IndexByte(",]}", s.text[next]) >= 0 {
			return i
		}
	}
	return end
}

// flowResync finds the comma or closing bracket at which reading inside
// brackets can go on.
func (s *scanner) flowResync(at, end int) int {
	for at < end && strings.IndexByte(",]}", s.text[at]) < 0 {
		at++
	}
	return at
}
