package front

import (
	"fmt"
	"unicode/utf8"
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
		f = &leadFault{at: at, length: length, name: name}
		s.leads[name] = f
	}
	f.lines = append(f.lines, s.src.SpanAt(at, 0).Line)
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
// reports a line that belongs to none.
func (s *scanner) enter(l level, at int) {
	waited := s.waiting
	s.waiting = false
	if waited && (l.indent > s.wait.indent || l.list && !s.wait.list && l.indent == s.wait.indent) {
		s.levels = append(s.levels, l)
		return
	}
	popped := -1
	for len(s.levels) > 0 && s.levels[len(s.levels)-1].indent > l.indent {
		popped = s.levels[len(s.levels)-1].indent
		s.levels = s.levels[:len(s.levels)-1]
	}
	if len(s.levels) == 0 || s.levels[len(s.levels)-1].indent < l.indent {
		s.wrongIndent(l, popped, at)
		s.levels = append(s.levels, l)
		return
	}
	s.sameIndent(l, at)
}

// wrongIndent reports a line whose indent is that of no open list or mapping.
func (s *scanner) wrongIndent(l level, popped, at int) {
	if !s.numbered {
		return // the blanks at its head have been reported
	}
	if popped < 0 {
		s.fault("indent", at-l.indent, l.indent+1, false,
			"this line is indented further than the line above it, which has its value already; move it left into step, or put the text above in straight quotes if this line belongs to it")
		return
	}
	outer := 0
	if len(s.levels) > 0 {
		outer = s.levels[len(s.levels)-1].indent
	}
	s.fault("indent", at-l.indent, l.indent+1, false,
		"this line begins in column %d, between the lines above it that begin in columns %d and %d; put it in step with one of them",
		l.indent+1, outer+1, popped+1)
}

// sameIndent checks that a list entry is among list entries and a key among
// keys.
func (s *scanner) sameIndent(l level, at int) {
	n := len(s.levels) - 1
	top := &s.levels[n]
	switch {
	case top.list == l.list:
	case top.list && n > 0 && s.levels[n-1] == l:
		s.levels = s.levels[:n] // a list written at the indent of its key has ended
	case top.list:
		if s.numbered {
			s.fault("list-layout", at, 1, false, "this line stands among the entries of a list but has no hyphen; put a hyphen and a space before it, or indent it to the text of the entry above")
		}
		top.list = false
	default:
		if s.numbered {
			s.fault("list-layout", at, 1, false, "a hyphen makes this a list entry, but the lines around it are keys; take the hyphen away, or check the indent")
		}
		top.list = true
	}
}
