package builder

import (
	"strings"
	"unicode/utf8"
)

// startHereName is the file that says how to open a handout that was passed on.
// Its capitals bring it to the eye; nothing links to it.
const startHereName = "START-HERE.txt"

// startHereWidth is how many characters a line of it holds.
const startHereWidth = 72

// startHere is plain text that every editor shows: lines end as Windows wants
// them, and a mark at the beginning tells old editors the alphabet where they
// would have to guess.
func (s *Site) startHere() []byte {
	w, m := s.words(), s.Masthead
	title := []string{m.Title}
	if m.Edition != "" {
		title = append(title, w.say("edition-of", m.Edition))
	}
	if course, ok := s.Bank.Course(s.Options.Course); ok {
		title = append(title, w.say("start-course", course.Title.Or(course.ID.Value)))
	}
	paragraphs := []string{
		strings.Join(title, "\n"), w.say("start-head"), w.say("start-unzip"), w.say("start-windows"), w.say("start-mac"),
		w.say("start-phone"), w.say("start-alone"), w.say("start-still"), w.say("start-nothing"), w.say("start-check"), w.say("protocol"),
	}
	if m.Invented {
		paragraphs = append(paragraphs, w.say("invented")+".")
	}
	var out strings.Builder
	for _, p := range paragraphs {
		for line := range strings.SplitSeq(p, "\n") {
			out.WriteString(folded(line, startHereWidth) + "\n")
		}
		out.WriteByte('\n')
	}
	text := strings.ReplaceAll(strings.TrimRight(out.String(), "\n")+"\n", "\n", "\r\n")
	if strings.ContainsFunc(text, func(r rune) bool { return r >= utf8.RuneSelf }) {
		text = "\ufeff" + text
	}
	return []byte(text)
}

// folded breaks a text into lines of at most width characters where words allow.
func folded(text string, width int) string {
	var out strings.Builder
	column := 0
	for i, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case column+1+n > width:
			out.WriteByte('\n')
			column = 0
		default:
			out.WriteByte(' ')
			column++
		}
		out.WriteString(word)
		column += n
	}
	return out.String()
}
