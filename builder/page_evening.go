package builder

import (
	"slices"
	"strings"

	"caseleaf/content/term"
)

// EveningPage is what pages/evening.tmpl lays out: one step on one sheet of
// paper, to be read the evening before. What the sheet cannot hold is counted
// and left to the watch page; see [sheet].
type EveningPage struct {
	Heading
	Ready    string // what to have ready, joined
	Watch    []EveningWatch
	Delay    string // how long others took to notice, with n
	Lasted   string // how long the step took, with n
	Choices  []EveningChoice
	Lessons  []EveningLesson
	Cautions []string
	Page     Link // the watch page

	// How many of each are on the watch page only; "" for none.
	MoreWatch, MoreChoices, MoreLessons string
}

// EveningWatch is one thing to watch for.
type EveningWatch struct {
	Name    Link
	Sign    string
	Move    string
	Noticed string // how soon the cases noticed it, with n; "" where they did not meet it
}

// EveningChoice is one question met in the step.
type EveningChoice struct {
	Question string
	Met      string // in which cases
}

// EveningLesson is one lesson with its case.
type EveningLesson struct {
	Text string
	Case Link // its text is the case's number
}

func eveningPath(id string) string { return "evening/" + fileStem(id) + ".html" }

// planEvenings makes the sheet of every step that has a watch page.
func planEvenings(s *Site) []Page {
	var pages []Page
	var headings []*Heading
	for _, t := range s.met.pages(term.Step) {
		p := s.eveningPage(t)
		pages = append(pages, Page{Path: eveningPath(t.ID), Template: "evening", Data: p})
		headings = append(headings, &p.Heading)
	}
	turn(pages, headings)
	return pages
}

// eveningPage gathers all there is to say of a step and keeps what fits.
func (s *Site) eveningPage(t term.Term) *EveningPage {
	w, m := s.words(), s.met
	h := s.headingBelow(stepsPage, t.Label)
	h.Kicker, h.Summary = w.say("evening-kicker"), t.Definition
	page := m.link(t.ID)
	h.Trail = append(h.Trail, page)
	p := &EveningPage{Heading: h, Page: page}
	for _, c := range known(s.Bank.Settings.Cautions) {
		if c != w.say("protocol") { // every foot says that
			p.Cautions = append(p.Cautions, c)
		}
	}
	lines := s.watchLines(m, t.ID)
	p.Ready = s.eveningReady(t.ID, lines)
	for _, l := range lines {
		p.Watch = append(p.Watch, s.eveningWatch(t.ID, l))
	}
	p.Delay, p.Lasted = s.eveningDelays(t.ID)
	for _, d := range s.decisionsIn(m, t.ID) {
		p.Choices = append(p.Choices, w.eveningChoice(d))
	}
	p.Lessons = s.eveningLessons(t.ID)
	newSheet(s.Masthead).fit(p, w)
	return p
}

// eveningReady joins what the watch table wants ready with the tools of the
// step, each once.
func (s *Site) eveningReady(step string, lines []WatchLine) string {
	var list []string
	seen := map[string]bool{}
	add := func(text string) {
		if key := strings.ToLower(text); text != "" && !seen[key] {
			seen[key] = true
			list = append(list, text)
		}
	}
	for _, l := range lines {
		for _, part := range strings.FieldsFunc(l.Ready, func(r rune) bool { return r == ',' || r == ';' }) {
			add(strings.TrimSpace(part))
		}
	}
	for _, l := range s.kitOf(s.met, step) {
		add(l.Text)
	}
	return strings.Join(list, " · ")
}

// eveningWatch shortens a line of the watch table and says how soon the cases
// noticed what began so.
func (s *Site) eveningWatch(step string, l WatchLine) EveningWatch {
	w := s.words()
	e := EveningWatch{Name: l.Complication, Sign: l.FirstSign, Move: l.FirstMove}
	if e.Sign == "" && len(l.Quotes) > 0 {
		e.Sign = l.Quotes[0].Sign
	}
	if l.Began == 0 {
		return e
	}
	began, _ := s.met.eventsIn(step, l.ID)
	noticed := w.say("evening-unnoticed")
	if seconds := delaySeconds(began, noticedAfter); len(seconds) > 0 {
		row := durationRow(Link{}, seconds)
		noticed = w.say("evening-noticed", row.N, row.Median)
	}
	e.Noticed = w.say("evening-began", l.Began) + w.say("list-semicolon") + noticed
	return e
}

func noticedAfter(at meeting) delay { return noticeDelay(at.Case, at.Entry.Event) }

// eveningDelays says how long others took: to notice what began in the step,
// and for the step itself.
func (s *Site) eveningDelays(step string) (noticed, lasted string) {
	w, m := s.words(), s.met
	switch seconds := delaySeconds(m.onsets[step], noticedAfter); {
	case len(seconds) > 0:
		row := durationRow(Link{}, seconds)
		noticed = w.say("evening-delay", row.N, row.Median, row.Least, row.Most)
	case len(m.onsets[step]) > 0:
		noticed = w.say("evening-delay-none")
	}
	var seconds []float64
	for _, at := range m.steps[step] {
		if d, ok := at.Span.Duration(); ok {
			seconds = append(seconds, float64(d.Seconds()))
		}
	}
	if len(seconds) > 0 {
		row := durationRow(Link{}, seconds)
		lasted = w.say("evening-lasted", row.N, row.Median, row.Least, row.Most)
	}
	return noticed, lasted
}

// eveningChoice says a question with the cases that met it.
func (w *words) eveningChoice(d DecisionLine) EveningChoice {
	c := EveningChoice{Question: d.Question}
	var cases []string
	for _, at := range d.Moments {
		if n := len(cases); n == 0 || cases[n-1] != at.Text {
			cases = append(cases, at.Text)
		}
	}
	if len(cases) > 0 {
		c.Met = w.say("evening-met", len(d.Moments), w.list(cases))
	}
	return c
}

// eveningLessons lists lessons of the cases in which an event began, was
// noticed, or a decision was met in the step: the first of each case, then the
// second of each, and so on.
func (s *Site) eveningLessons(step string) []EveningLesson {
	cases := casesOf(s.met.onsets[step])
	for _, c := range casesOf(s.met.noticed[step], s.met.inStep[step]) {
		if !slices.Contains(cases, c) {
			cases = append(cases, c)
		}
	}
	var list []EveningLesson
	for i, found := 0, true; found; i++ {
		found = false
		for _, c := range cases {
			if lessons := known(c.Lessons); i < len(lessons) {
				found = true
				list = append(list, EveningLesson{lessons[i], Link{Text: c.ID.Value, Path: casePath(c.ID.Value)}})
			}
		}
	}
	return list
}
