package builder

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"caseleaf/content"
)

// CasePage is what pages/case.tmpl lays out.
type CasePage struct {
	Heading
	ID           string
	Facts        []Fact
	Exercise     *Exercise // nil where nothing is asked
	Overview     []Moment  // the entries in a word each, leading to their places
	Kit          []KitLine
	Strip        template.HTML // the drawn timeline, a figure of its own
	StripCaption string
	Eye          []FigureBlock // the eye to scale; none where the vocabulary is no eye's
	Delays       []DelayRow
	Own          string    // where readers have a copy of the recording
	Stretches    []Stretch // the timeline, parted where the reader stops
	Outcome      []Fact
	Lessons      []string
	Alternatives []string
	Limits       string
	Narrative    template.HTML
	Sources      []SourceLine
	Release      string
	Related      []RelatedCase
	Around       []AroundLine // neighbours by what the case shares with others
	Source       *Link        // the page of its front matter, when the bank asks for it
}

// Films reports whether a film can follow the times of the page.
func (p *CasePage) Films() bool {
	return p.Own != "" || slices.ContainsFunc(p.Stretches, func(s Stretch) bool { return len(s.Clips) > 0 })
}

// Fact is one line of a list of facts. Missing marks what the author did not
// give: it is said, never guessed.
type Fact struct {
	Label   string
	Values  []Link
	Missing bool
}

// KitLine is one thing on the tray.
type KitLine struct {
	Item   Link
	Amount string // count, strength and size, as far as given
	Note   string
}

// SourceLine is one source, with an address where it has one.
type SourceLine struct {
	Text    string
	Address string // https address of a DOI or page
	Shown   string // the address as printed
}

// RelatedCase is another case and what the two share.
type RelatedCase struct {
	Case Link
	Why  []Link
}

// planCases makes the page of every case and the list of all.
func planCases(s *Site) []Page {
	for _, list := range eachCase(s.Bank.Cases, func(c *content.Case) []drawnFigure { return s.view(c).listed() }) {
		for _, d := range list {
			s.keep(d)
		}
	}
	return append(append(s.casePages(), s.casesIndex(s.met)), s.sourcePages()...)
}

// casePages are the pages of the cases, none of which is planned yet.
func (s *Site) casePages() []Page {
	var pages []Page
	for i := range s.Bank.Cases {
		pages = append(pages, s.pageOfCase(i))
	}
	return pages
}

// pageOfCase is the page of the case at a place, not planned yet.
func (s *Site) pageOfCase(at int) Page {
	c := s.Bank.Cases[at]
	return Page{Path: casePath(c.ID.Value), Template: "case", of: c, plan: func() any {
		p := s.casePage(c)
		p.Previous, p.Next = s.beside(at)
		return p
	}}
}

// beside leads to the cases before and after the one at a place.
func (s *Site) beside(at int) (previous, next *Link) {
	link := func(i int) *Link {
		if i < 0 || i >= len(s.Bank.Cases) {
			return nil
		}
		c := s.Bank.Cases[i]
		return &Link{Text: caseTitle(c), Path: casePath(c.ID.Value)}
	}
	return link(at - 1), link(at + 1)
}

// view is a case as its page is planned.
func (s *Site) view(c *content.Case) *caseView {
	return &caseView{site: s, met: s.met, words: s.words(), c: c, anchors: anchorsOf(c), steps: c.Steps()}
}

// caseTitle is a case's title, or its id where it has none.
func caseTitle(c *content.Case) string { return c.Title.Or(c.ID.Value) }

// caseLink leads to a case; its note is the id.
func caseLink(c *content.Case) Link {
	return Link{Text: caseTitle(c), Path: casePath(c.ID.Value), Note: c.ID.Value}
}

func caseLinks(cases []*content.Case) []Link {
	var list []Link
	for _, c := range cases {
		list = append(list, caseLink(c))
	}
	return list
}

func (s *Site) casePage(c *content.Case) *CasePage {
	w, v := s.words(), s.view(c)
	h := s.headingBelow(casesPage, caseTitle(c))
	h.Summary, h.Protocol = c.Summary.Value, true
	h.Kicker = w.say("case-kicker", c.ID.Value)
	if c.Technique.Known() {
		h.Kicker += " · " + s.Bank.Term(c.Technique.Value).Label
	}
	p := &CasePage{
		Heading: h, ID: c.ID.Value,
		Facts: v.facts(), Kit: v.kit(), Delays: v.delays(),
		Outcome: v.outcome(), Lessons: known(c.Lessons), Alternatives: known(c.Alternatives),
		Limits: c.Limits.Value, Sources: sourceLines(c.Sources), Release: v.release(),
		Related: v.related(), Around: v.around(),
	}
	p.Stretches, p.Overview = v.stretches(), v.overview()
	p.Exercise = v.exercise(p.Stretches)
	p.Held, p.Own = p.Stops() > 0, c.Recording.Own.Value
	v.draw(p)
	p.Narrative = s.Prose(&c.Body, casePath(c.ID.Value))
	if s.showsSource() {
		p.Source = &Link{Text: w.say("source-link"), Path: sourcePath(c.ID.Value)}
	}
	return p
}

// caseView is one case while its page is planned.
type caseView struct {
	site    *Site
	met     *met
	words   *words
	c       *content.Case
	anchors anchors
	steps   []content.StepSpan
}

// known keeps the texts an author gave.
func known(list []content.Given[string]) []string {
	var out []string
	for _, g := range list {
		if g.Known() {
			out = append(out, g.Value)
		}
	}
	return out
}

func (v *caseView) kit() []KitLine {
	var lines []KitLine
	for _, k := range v.c.Kit {
		var amount []string
		if k.Count.Known() {
			amount = append(amount, fmt.Sprintf("%d ×", k.Count.Value))
		}
		if k.Strength.Known() {
			amount = append(amount, k.Strength.Value.String())
		}
		if k.Size.Known() {
			amount = append(amount, k.Size.Value)
		}
		lines = append(lines, KitLine{Item: v.met.link(k.Item.Value), Amount: v.words.list(amount), Note: k.Note.Value})
	}
	return lines
}

// sourceLines prints sources; an address is made only of a DOI or an https
// address that the author gave.
func sourceLines(list []content.Reference) []SourceLine {
	var lines []SourceLine
	for _, r := range list {
		line := SourceLine{Text: r.Text.Value}
		switch {
		case r.DOI.Known():
			line.Address, line.Shown = "https://doi.org/"+r.DOI.Value, "doi:"+r.DOI.Value
		case r.URL.Known() && strings.HasPrefix(r.URL.Value, "https://"):
			line.Address, line.Shown = r.URL.Value, strings.TrimPrefix(r.URL.Value, "https://")
		}
		lines = append(lines, line)
	}
	return lines
}

func (v *caseView) release() string {
	r := v.c.Release
	var parts []string
	switch r.Consent.Value {
	case "recorded":
		parts = append(parts, v.words.say("consent-recorded"))
	case "not-required":
		parts = append(parts, v.words.say("consent-not-required", r.Reason.Value))
	}
	if r.ReviewedBy.Known() {
		parts = append(parts, v.words.say("reviewed-by", v.words.grade(r.ReviewedBy.Value), yearOf(r.Reviewed)))
	}
	if n := len(v.c.Exceptions); n > 0 {
		parts = append(parts, v.words.say("privacy-exceptions", n)+".")
	}
	return strings.Join(parts, " ")
}

func yearOf(g content.Given[int]) string {
	if g.Known() {
		return fmt.Sprint(g.Value)
	}
	return "–"
}
