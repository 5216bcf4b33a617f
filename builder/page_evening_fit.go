package builder

import (
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// sheet is the room on one side of paper, in millimetres of height. Its sizes
// are those of themes/paper/paper.css on Letter, which is shorter than A4 and
// little wider; the characters in a line are counted for a wider face than most,
// so that a browser with other fonts does not run over. A test prints every
// sheet and counts its pages.
type sheet struct{ left float64 }

const (
	sheetHeight = 253 // Letter, 279.4 mm, less margins of 13 mm
	textLine    = 4.2 // a line of text
	smallLine   = 3.6 // a line of notes
	titleLine   = 8.2
	sectionGap  = 2.8 // rule and space above a part
	itemGap     = 1.1 // space below an item
)

// Characters in a line, by what stands in it.
const (
	wideChars  = 104 // notes over the whole width
	titleChars = 48
	leadChars  = 84 // the definition, in larger italics
	partChars  = 90 // text beside the heads
	nameChars  = 20 // what to watch for, bold, in a column of its own
	watchChars = 66 // its first sign and first move
	noteChars  = 82 // how soon it was noticed
)

// The most characters that one text may take; what is longer is cut at a word,
// since one author's long sentence must not push out all else.
const (
	mostLead, mostReady, mostSign, mostMove        = 240, 420, 160, 130
	mostQuestion, mostMet, mostLesson, mostCaution = 220, 120, 240, 240
)

// newSheet is a sheet less what every page carries.
func newSheet(m Masthead) *sheet {
	w := wordsIn(m.Language)
	s := &sheet{left: sheetHeight}
	if m.Invented {
		s.left -= linesOf(w.say("invented"), wideChars)*smallLine + 2
	}
	if m.Unreleased {
		s.left -= linesOf(w.say("unreleased"), wideChars)*smallLine + 2
	}
	s.left -= linesOf(m.Title+m.Edition, partChars)*textLine + 5
	foot := linesOf(w.say("protocol"), wideChars) + linesOf(m.Title+m.Edition+w.say("edition-of", ""), wideChars)
	s.left -= foot*smallLine + 6
	return s
}

// linesOf is how many lines of so many characters a text takes; signs of East
// Asian scripts count twice.
func linesOf(text string, chars int) float64 {
	if text == "" {
		return 0
	}
	n := 0
	for _, r := range text {
		n++
		if k := width.LookupRune(r).Kind(); k == width.EastAsianWide || k == width.EastAsianFullwidth {
			n++
		}
	}
	return float64(1 + (n-1)/chars)
}

// cut shortens a text at a word to at most so many characters.
func cut(text string, most int) string {
	n := 0
	for i, r := range text {
		n++
		if k := width.LookupRune(r).Kind(); k == width.EastAsianWide || k == width.EastAsianFullwidth {
			n++
		}
		if n < most {
			continue
		}
		short := text[:i]
		if space := strings.LastIndexFunc(short, unicode.IsSpace); space > len(short)/2 {
			short = short[:space]
		}
		return strings.TrimRightFunc(short, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsPunct(r) }) + "…"
	}
	return text
}

// take sets height aside, if there is that much.
func (s *sheet) take(height float64) bool {
	if height > s.left {
		return false
	}
	s.left -= height
	return true
}

// part is a list that is cut by rank.
type part struct {
	heights []float64 // of each item, with its space
	kept    int
	full    bool
}

// add keeps items up to a number, as long as they fit.
func (p *part) add(s *sheet, upTo int) {
	for !p.full && p.kept < min(upTo, len(p.heights)) {
		height := p.heights[p.kept]
		if p.kept == 0 {
			height += sectionGap + smallLine // the rule above, the count of what is left below
		}
		if !s.take(height) {
			p.full = true
			return
		}
		p.kept++
	}
}

// fit cuts a page to the sheet. Every part gets its first items, then what to
// watch for comes first.
func (s *sheet) fit(p *EveningPage, w *words) {
	p.Summary, p.Ready = cut(p.Summary, mostLead), cut(p.Ready, mostReady)
	s.left -= linesOf(p.Title, titleChars)*titleLine + smallLine + linesOf(p.Summary, leadChars)*5.2 + 4
	s.left -= linesOf(p.Page.Text+w.say("evening-page"), wideChars)*smallLine + 2
	for _, text := range []string{p.Ready, strings.Join([]string{p.Delay, p.Lasted}, " ")} {
		if len(text) > 1 {
			s.left -= linesOf(text, partChars)*textLine + sectionGap
		}
	}
	watch, choices, lessons, cautions := p.heights()
	for _, turn := range []struct {
		part *part
		upTo int
	}{{watch, 3}, {choices, 1}, {lessons, 1}, {cautions, 1}, {watch, 4}, {choices, 2}, {lessons, 2}, {watch, 99}, {lessons, 4}, {choices, 99}, {lessons, 8}, {cautions, 99}} {
		turn.part.add(s, turn.upTo)
	}
	p.Watch, p.MoreWatch = keep(p.Watch, watch.kept, w)
	p.Choices, p.MoreChoices = keep(p.Choices, choices.kept, w)
	p.Lessons, p.MoreLessons = keep(p.Lessons, lessons.kept, w)
	p.Cautions = p.Cautions[:cautions.kept] // all of them are on the page that every foot names
}

// heights shortens the texts of the lists and measures their items.
func (p *EveningPage) heights() (watch, choices, lessons, cautions *part) {
	watch, choices, lessons, cautions = &part{}, &part{}, &part{}, &part{}
	for i := range p.Watch {
		l := &p.Watch[i]
		l.Sign, l.Move = cut(l.Sign, mostSign), cut(l.Move, mostMove)
		text := (linesOf(l.Sign, watchChars) + linesOf(l.Move, watchChars-12)) * textLine
		text += linesOf(l.Noticed, noteChars) * smallLine
		watch.heights = append(watch.heights, max(text, linesOf(l.Name.Text, nameChars)*textLine)+itemGap+0.4)
	}
	for i := range p.Choices {
		c := &p.Choices[i]
		c.Question, c.Met = cut(c.Question, mostQuestion), cut(c.Met, mostMet)
		height := linesOf(c.Question, partChars)*textLine + linesOf(c.Met, partChars)*smallLine
		choices.heights = append(choices.heights, height+itemGap)
	}
	for i := range p.Lessons {
		l := &p.Lessons[i]
		l.Text = cut(l.Text, mostLesson)
		lessons.heights = append(lessons.heights, linesOf(l.Text+" "+l.Case.Text, partChars-4)*textLine+itemGap)
	}
	for i, c := range p.Cautions {
		p.Cautions[i] = cut(c, mostCaution)
		cautions.heights = append(cautions.heights, linesOf(p.Cautions[i], partChars)*smallLine+itemGap)
	}
	return watch, choices, lessons, cautions
}

// keep keeps the first items of a list and says how many more there are.
func keep[T any](list []T, n int, w *words) (kept []T, more string) {
	if n < len(list) {
		more = w.say("evening-more", len(list)-n)
	}
	return list[:n], more
}
