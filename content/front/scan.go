package front

import (
	"bytes"
	"strings"
	"sync"
	"unicode/utf8"

	"caseleaf/content/diagnose"
)

// maxFaults is how many faults of layout are reported for one file; past that
// the file is no case and more lines would help nobody.
const maxFaults = 60

// scanner goes once over a stretch of YAML, line by line, and looks for the
// faults that authors make. It knows the layout of YAML (what is text, what is
// quoted, what a comment, how lines hang together by indentation) but builds
// nothing: the tree comes from yaml.v3, which sees the text only when its shape
// is sound.
//
// All positions are byte offsets in the file; an indent is a count of spaces.
type scanner struct {
	src   *diagnose.Source
	bag   *diagnose.Bag
	text  []byte // the file up to the end of the stretch
	at    int    // where reading stands
	sound bool   // the shape of the text is what its author meant
	found int    // faults reported so far
	mild  int    // warnings given so far

	lineFrom, lineTo int // what lineEnd found last; lineTo is -1 at first

	levels  []level // open lists and mappings, outermost first
	waiting bool    // the last key or hyphen has no value yet
	wait    level   // that key or hyphen

	leads      map[string]*leadFault // lines that begin with the wrong kind of blank
	anchorSeen bool
	numbered   bool // the line being read has an indent to be relied on
	adrift     bool // a line before it had none

	simple []stretch // keys and values that stand as they are typed; see thin.go

	first   int   // offset of the first character that is no blank
	waitAt  int   // offset of the key or hyphen that waits
	bare    int   // offset of the last key that waited in vain, 0 when there is none
	wrong   level // the last indent reported as wrong
	wrongAt int   // where
}

// level is one open list or mapping.
type level struct {
	indent int
	list   bool
}

// newScanner makes the scanner of one stretch of a file; free takes back its room.
func newScanner(src *diagnose.Source, p part, bag *diagnose.Bag) *scanner {
	s := scannerPool.Get().(*scanner)
	*s = scanner{
		src: src, bag: bag, text: src.Data[:p.end], at: p.start, sound: true, lineTo: -1,
		waiting: true, wait: level{indent: -1}, wrong: level{indent: -1},
		levels: s.levels[:0], simple: s.simple[:0],
	}
	return s
}

var scannerPool = sync.Pool{New: func() any { return new(scanner) }}

func (s *scanner) free() {
	s.src, s.bag, s.text, s.leads = nil, nil, nil, nil
	scannerPool.Put(s)
}

// scan reports the faults of layout in its stretch of a file and says whether the
// shape of that is sound.
func (s *scanner) scan() bool {
	s.first, _, _, _ = s.nextLine(s.at)
	for s.at < len(s.text) && s.found < maxFaults {
		s.line()
		if n := len(s.levels); n > maxDepth {
			s.fault("too-deep", s.waitAt, 1, false, "more than %d lists and keys inside one another", maxDepth)
			break
		}
	}
	s.reportLeads()
	return s.sound
}

// line reads what begins on the line at s.at: an entry with its whole value,
// which may go on over several lines.
func (s *scanner) line() {
	start, end := s.at, s.lineEnd(s.at)
	first := s.skipAnyBlank(start, end)
	switch {
	case first == end:
		s.lead(start, end, true)
		s.at = end + 1
	case s.text[first] == '#':
		s.at = end + 1
	case s.documentMark(start, end):
		s.at = end + 1
	default:
		s.numbered = s.lead(start, first, false)
		s.entry(start, first)
	}
}

// documentMark reports lines that end or begin a document inside a file.
func (s *scanner) documentMark(start, end int) bool {
	line := bytes.TrimRight(s.text[start:end], " \t")
	if string(line) != "..." && string(line) != "---" {
		return false
	}
	if string(line) == "---" && s.waiting && s.wait.indent < 0 {
		return true // an opening mark before anything else is allowed
	}
	s.fault("documents", start, end-start, false,
		"a line of %s ends the text here, and what follows would be lost; one file holds one case, decision, course or bank.yaml, so take the line out", line)
	return true
}

// entry reads one line from its first character: hyphens, a key, a value.
func (s *scanner) entry(start, first int) {
	for {
		size := s.hyphen(first, first-start)
		if size == 0 {
			break
		}
		if size > 1 || s.text[first] != '-' || !s.isHyphen(first) {
			s.numbered = false
		}
		s.enter(level{first - start, true}, first)
		s.waiting, s.wait, s.waitAt = true, level{first - start, true}, first
		next := s.skipBlank(first+size, s.lineEnd(first))
		if next == s.lineEnd(first) || s.text[next] == '#' {
			s.emptyThenComment(next)
			return
		}
		if i := bytes.IndexByte(s.text[first:next], '\t'); i >= 0 {
			s.fault("tab", first+i, 1, false, "a tab stands after this hyphen; put one space there")
		}
		first = next
	}
	if c := s.text[first]; (c == '?' || c == ':') && s.endsKey(first, s.lineEnd(first)) {
		s.complexKey(first)
		return
	}
	column := first - start
	key, ok := s.key(first)
	if !ok {
		s.withoutKey(first, column)
		return
	}
	if s.proseKey(key) || s.bracketKey(key, column) {
		return
	}
	s.enter(level{column, false}, first)
	s.checkKey(key)
	s.simpleKey(key.from, key.to)
	s.waiting, s.wait, s.waitAt = true, level{column, false}, first
	s.value(s.skipBlank(key.colon+1, s.lineEnd(first)), column)
}

// complexKey reports a line in the long form of keys, which begins with a
// question mark or a colon, and passes over it.
func (s *scanner) complexKey(at int) {
	if s.text[at] == '?' || s.sound {
		s.fault("complex-key", at, 1, false, "a line may not begin with %c and a space; every key is a plain word, then a colon and a space", s.text[at])
	}
	s.waiting, s.adrift = false, true
	s.at = s.lineEnd(at) + 1
}

// hyphen is the length of the hyphen of a list entry at an offset, 0 when there
// is none. Where a list stands, it also takes what was meant as one, and says
// so: a dash or bullet, or a hyphen without its space.
func (s *scanner) hyphen(at, indent int) int {
	if s.isHyphen(at) {
		return 1
	}
	end := s.lineEnd(at)
	mark, size := utf8.DecodeRune(s.text[at:end])
	if at+size >= end || !s.hasList(indent) {
		return 0
	}
	next := s.text[at+size]
	switch {
	case mark == '-' && s.oddAt(at+size) > 0:
		s.oddSpace(at+size, "after a hyphen")
		return size + s.oddAt(at+size)
	case mark == '-' && next != '-' && (next < '0' || next > '9'):
		s.fault("space-after-hyphen", at, 1, false, "a space is missing after the hyphen of this list entry").
			Suggest(shorten("- "+string(s.text[at+1:end]), 60))
		return size
	case mark == '-' && next == '-' && at+2 < end && isBlank(s.text[at+2]):
		s.fault("list-layout", at, 2, false, "a list entry begins with one hyphen and a space; here stand two").Suggest("- ")
		return 2
	case strings.ContainsRune("–—−‐•*+·_", mark) && isBlank(next):
		s.fault("list-layout", at, size, false, "a list entry begins with a hyphen and a space; here stands %q", mark).Suggest("- ")
		return size
	}
	return 0
}

// isHyphen reports whether a list entry's hyphen stands at an offset.
func (s *scanner) isHyphen(at int) bool {
	return s.text[at] == '-' && (at+1 == len(s.text) || isBlank(s.text[at+1]) || s.text[at+1] == '\n')
}

// value reads the value that begins at an offset on the line of its key or
// hyphen, whose indent is parent.
func (s *scanner) value(at, parent int) {
	end := s.lineEnd(at)
	if at == end || s.text[at] == '#' {
		s.emptyThenComment(at)
		return
	}
	s.waiting = false
	switch c := s.text[at]; {
	case c == '|' || c == '>':
		s.blockText(at, parent)
	case c == '"' || c == '\'':
		s.at = at
		if s.quoted(parent, false) {
			s.simpleLine(at)
			s.afterValue("a closing quotation mark")
		}
	case c == '{' || c == '[':
		s.at = at
		if s.flow(parent, 1) {
			s.afterValue("the closing bracket")
		}
	case s.isHyphen(at):
		s.fault("list-layout", at, 1, false, "a list cannot begin on the line of its key: put each entry on a line of its own below, indented, with a hyphen and a space")
		s.at = end + 1
	default:
		s.plain(at, parent)
	}
}

// afterValue checks that nothing but a comment follows a quoted text or a
// bracket on its line, and goes to the next line.
func (s *scanner) afterValue(what string) {
	end := s.lineEnd(s.at)
	next := s.skipBlank(s.at, end)
	if next < end && !(s.text[next] == '#' && next > s.at) {
		if c := s.text[next]; c == '}' || c == ']' {
			s.fault("bracket", next, 1, false, "one closing %c too many: no bracket is open here", c)
		} else {
			s.fault("text-after-end", next, end-next, false, "text goes on after %s; nothing but a comment may follow it on this line", what)
		}
	}
	s.at = end + 1
}

// fault reports an error of layout. Unless harmless, the shape of the text is
// no longer to be trusted.
func (s *scanner) fault(code diagnose.Code, at, length int, harmless bool, format string, args ...any) *diagnose.Diagnostic {
	s.found++
	if !harmless {
		s.sound = false
	}
	return s.bag.Error(code, s.src.SpanAt(at, length), format, args...)
}

// warn reports what can be right but probably is not.
func (s *scanner) warn(code diagnose.Code, at, length int, message, suggestion string) {
	if s.mild++; s.mild <= maxFaults {
		s.bag.Warn(code, s.src.SpanAt(at, length), "%s", message).Suggest(suggestion)
	}
}
