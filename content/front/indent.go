package front

import (
	"fmt"
	"unicode/utf8"

	"caseleaf/content/diagnose"
)

// tabName is the name under which lines that begin with a tab are gathered.
const tabName = "tab"

// leadFault gathers the lines that begin with one wrong kind of blank, so that
// a file of them gives one message.
type leadFault struct {
	at, length int
	name       string
	lines      []int
}

// lead checks the blanks from start to first, which should be spaces. It
// reports whether the indent of the line can be relied on.
func (s *scanner) lead(start, first int, empty bool) bool {
	for at := start; at < first; {
		r, size := utf8.DecodeRune(s.text[at:])
		if r != ' ' && !(empty && r == '\t') {
			name := tabName
			if r != '\t' {
				name = fmt.Sprintf("%s (U+%04X)", oddName(r), r)
			}
			s.addLead(name, at, first-at)
			return false
		}
		at += size
	}
	return true
}

func (s *scanner) addLead(name string, at, length int) {
	f := s.leads[name]
	if f == nil {
		if s.leads == nil {
			s.leads = map[string]*leadFault{}
		}
		f = &leadFault{at: at, length: length, name: name}
		s.leads[name] = f
	}
	f.lines = append(f.lines, s.src.SpanAt(at, 0).Line())
	s.sound = false
}

// reportLeads gives one message for each wrong kind of blank. The bag sorts, so
// the order of the map does not show.
func (s *scanner) reportLeads() {
	for name, f := range s.leads {
		more := ""
		if n := len(f.lines) - 1; n == 1 {
			more = fmt.Sprintf("; so does line %d", f.lines[1])
		} else if n > 1 {
			more = fmt.Sprintf("; so do %d more lines, the next is line %d", n, f.lines[1])
		}
		if name == tabName {
			s.fault("tab", f.at, f.length, false, "this line begins with a tab; indent with spaces, in step with the lines around it%s", more)
			continue
		}
		s.fault("odd-space", f.at, f.length, false,
			"this line begins with a %s, which looks like a space but is none; indent with plain spaces%s", name, more)
	}
}

// enter finds the list or mapping that a line belongs to by its indent, and
// reports a line that belongs to none. After a fault the lists and mappings
// stay open as the author meant them, so that one slip gives one message.
func (s *scanner) enter(l level, at int) {
	if s.drifted(l) {
		return
	}
	waited := s.waiting
	s.waiting = false
	if waited && (l.indent > s.wait.indent || l.list && !s.wait.list && l.indent == s.wait.indent) {
		s.levels = append(s.levels, l)
		return
	}
	if waited && !s.wait.list && s.wait.indent >= 0 {
		s.bare = s.waitAt
	}
	n := len(s.levels)
	for n > 0 && s.levels[n-1].indent > l.indent {
		n--
	}
	switch {
	case n > 0 && s.levels[n-1] == l:
		s.levels = s.levels[:n]
	case n > 1 && s.levels[n-1].indent == l.indent && s.levels[n-2] == l:
		s.levels = s.levels[:n-1] // a list written at the indent of its key has ended
	case n > 0 && s.levels[n-1].indent == l.indent:
		s.mixed(l, at)
		s.stay(l, n)
	case n == len(s.levels):
		s.tooDeep(l, at)
		s.levels = append(s.levels, l)
	case n == 0:
		s.firstTooDeep(l)
	default:
		s.between(l, n, at)
		s.stay(l, n)
	}
}

// firstTooDeep reports a first line indented further than those below it.
func (s *scanner) firstTooDeep(l level) {
	s.fault("indent", s.first-s.levels[0].indent, s.levels[0].indent+1, false,
		"this first line is indented further than the lines below it; begin it in column %d", l.indent+1)
	s.levels = append(s.levels[:0], l)
}

// stay leaves open what a misplaced line probably belongs to: of the levels
// further right than its indent the nearest of its kind, else all.
func (s *scanner) stay(l level, n int) {
	for i := n; i < len(s.levels); i++ {
		if s.levels[i].list == l.list {
			s.levels = s.levels[:i+1]
			return
		}
	}
}

// drifted accepts a line whose own indent, or that of a line before it, cannot
// be relied on, so that one wrong blank gives one message.
func (s *scanner) drifted(l level) bool {
	if !s.numbered {
		s.adrift, s.waiting = true, false
		return true
	}
	if !s.adrift {
		return false
	}
	s.adrift, s.waiting = false, false
	n := len(s.levels)
	for n > 0 && s.levels[n-1].indent > l.indent {
		n--
	}
	s.levels = s.levels[:n]
	if n == 0 || s.levels[n-1].indent < l.indent {
		s.levels = append(s.levels, l)
	} else {
		s.levels[n-1].list = l.list
	}
	return true
}

// misplaced reports a line at a wrong indent, once for a run of lines that
// share it.
func (s *scanner) misplaced(l level, at int, code diagnose.Code, format string, args ...any) {
	s.sound = false
	s.numbered = false
	if s.wrong == l && at-s.wrongAt < 400 {
		s.wrongAt = at
		return
	}
	s.wrong, s.wrongAt = l, at
	d := s.fault(code, at-l.indent, l.indent+1, false, format, args...)
	if s.bare > 0 && at-s.bare < 400 {
		length := wordLength(s.text[s.bare:s.lineEnd(s.bare)])
		d.Also(s.src.SpanAt(s.bare, length), "this key has no value; does the line belong to it?")
	}
}

// tooDeep reports a line indented further than any open list or mapping.
func (s *scanner) tooDeep(l level, at int) {
	s.misplaced(l, at, "indent", "this line is indented further than the line above it, which has its value already; move it left into step, or put the text above in straight quotes if this line belongs to it")
}

// between reports a line whose indent lies between those of open levels.
func (s *scanner) between(l level, n, at int) {
	outer := 0
	if n > 0 {
		outer = s.levels[n-1].indent
	}
	s.misplaced(l, at, "indent", "this line begins in column %d, between the lines above it that begin in columns %d and %d; put it in step with one of them",
		l.indent+1, outer+1, s.levels[n].indent+1)
}

// mixed reports a list entry among keys or a key among list entries.
func (s *scanner) mixed(l level, at int) {
	if l.list {
		s.misplaced(l, at, "list-layout", "a hyphen makes this a list entry, but the lines around it are keys; take the hyphen away, or check the indent")
		return
	}
	s.misplaced(l, at, "list-layout", noHyphen)
}

const noHyphen = "this line stands among the entries of a list but has no hyphen; put a hyphen and a space before it, or indent it to the text of the entry above"

// hasList reports whether a list is open at or next to an indent, or may begin
// there.
func (s *scanner) hasList(indent int) bool {
	if s.waiting {
		return !s.wait.list && s.wait.indent >= 0 && indent >= s.wait.indent
	}
	for _, l := range s.levels {
		if l.list && l.indent-1 <= indent && indent <= l.indent+1 {
			return true
		}
	}
	return false
}
