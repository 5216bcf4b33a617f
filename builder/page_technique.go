package builder

import (
	"caseleaf/content/term"
)

// TechniquePage is what pages/technique.tmpl lays out.
type TechniquePage struct {
	Heading
	Names     string
	Broader   *Link
	Narrower  []Link
	Counts    string
	Durations DurationTable
	Events    []TechniqueEvent
	Cases     []CaseLine
	HowOften  *HowOften // nil where the logbook has none
	Used      []Link    // cases whose operation has another technique and that used this one in a step
}

// TechniqueEvent counts the events of one complication in the cases.
type TechniqueEvent struct {
	Complication Link
	Count        int
	Moments      []Link
}

// TechniquesPage is what pages/techniques.tmpl lays out.
type TechniquesPage struct {
	Heading
	Lines []TechniqueLine
}

// TechniqueLine is one technique with its counts.
type TechniqueLine struct {
	Technique Link
	Summary   string
	Cases     int
	Events    int
}

// planTechniques makes a page for every technique that was used, and the list
// of them.
func planTechniques(s *Site) []Page {
	m := s.met
	var pages []Page
	var headings []*Heading
	index := &TechniquesPage{Heading: s.heading(techniquesPage, s.words().say("techniques"))}
	index.Summary = s.words().say("techniques-summary", len(s.Bank.Cases))
	for _, t := range m.pages(term.Procedure, term.Technique) {
		p := s.techniquePage(m, t)
		pages = append(pages, Page{Path: techniquePath(t.ID), Template: "technique", Data: p})
		headings = append(headings, &p.Heading)
		index.Lines = append(index.Lines, TechniqueLine{
			Technique: m.link(t.ID), Summary: t.Definition,
			Cases: len(m.techniques[t.ID]), Events: p.eventCount(),
		})
	}
	turn(pages, headings)
	return append(pages, Page{Path: techniquesPage, Template: "techniques", Data: index})
}

func (p *TechniquePage) eventCount() int {
	n := 0
	for _, e := range p.Events {
		n += e.Count
	}
	return n
}

// techniquePage counts over operations that have the technique as theirs.
// Where it was used in some steps only, the durations are of those steps.
func (s *Site) techniquePage(m *met, t term.Term) *TechniquePage {
	w := s.words()
	h := s.headingBelow(techniquesPage, t.Label)
	h.Kicker, h.Summary, h.Protocol = w.say("technique-kicker"), t.Definition, true
	p := &TechniquePage{Heading: h, Names: otherNames(t)}
	p.Broader, p.Narrower = m.family(t)
	for _, c := range m.techniques[t.ID] {
		if c.Technique.Or("") == t.ID {
			p.Cases = append(p.Cases, s.caseLine(m, c))
		} else {
			p.Used = append(p.Used, caseLink(c))
		}
	}
	p.Counts = w.say("technique-counts", len(p.Cases), len(s.Bank.Cases))
	p.Durations = s.durationsByStep(m, func(at meeting) bool {
		if own := at.Entry.Step.Detail().Technique; own.Known() {
			return own.Value == t.ID || at.Case.Technique.Or("") == t.ID
		}
		return at.Case.Technique.Or("") == t.ID
	})
	p.Events = s.techniqueEvents(m, t.ID)
	p.HowOften = s.rates().ofTechnique(t.ID)
	return p
}

func (s *Site) techniqueEvents(m *met, technique string) []TechniqueEvent {
	var list []TechniqueEvent
	for _, t := range s.Bank.Vocabulary.Of(term.Complication) {
		e := TechniqueEvent{Complication: m.link(t.ID)}
		for _, at := range m.events[t.ID] {
			if at.Case.Technique.Or("") == technique {
				e.Count++
				e.Moments = append(e.Moments, s.momentLink(at))
			}
		}
		if e.Count > 0 {
			list = append(list, e)
		}
	}
	return list
}
