package builder

import (
	"caseleaf/content"
	"caseleaf/content/term"
)

// CasesPage is what pages/cases.tmpl lays out: every case, then the same cases
// by what they are about.
type CasesPage struct {
	Heading
	Cases  []CaseLine
	Groups []CaseGroup
	Print  Link // the booklets
}

// CaseLine is one case in a list.
type CaseLine struct {
	Case      Link
	Summary   string
	Technique Link
	Surgeon   string
	Events    []Link
}

// CaseGroup is one way of sorting the cases.
type CaseGroup struct {
	ID, Title string
	Sets      []CaseSet
}

// CaseSet is the cases that share one thing.
type CaseSet struct {
	Name  Link
	Cases []Link
}

func (s *Site) casesIndex(m *met) Page {
	w := s.words()
	p := &CasesPage{Heading: s.heading(casesPage, w.say("cases"))}
	p.Summary = w.say("cases-summary", len(s.Bank.Cases))
	if len(s.Bank.Cases) > 0 {
		p.Print = Link{Text: w.say("booklets-link"), Path: bookletsPage}
	}
	for _, c := range s.Bank.Cases {
		p.Cases = append(p.Cases, s.caseLine(m, c))
	}
	p.Groups = []CaseGroup{
		{"by-technique", w.say("by-technique"), m.sets(m.techniques, term.Procedure, term.Technique)},
		{"by-complication", w.say("by-complication"), m.sets(m.complicationCases(), term.Complication)},
		{"by-decision", w.say("by-decision"), s.setsByDecision(m)},
		{"by-surgeon", w.say("by-surgeon"), s.setsBySurgeon()},
		{"by-risk", w.say("by-risk"), m.sets(m.risks, term.RiskFactor)},
	}
	return Page{Path: casesPage, Template: "cases", Data: p}
}

func (s *Site) caseLine(m *met, c *content.Case) CaseLine {
	line := CaseLine{Case: caseLink(c), Summary: c.Summary.Value, Surgeon: s.words().grade(c.Surgeon.Value)}
	if c.Technique.Known() {
		line.Technique = m.link(c.Technique.Value)
	}
	for _, t := range topicsOf(c) {
		if k := s.Bank.Term(t.id).Kind; k == term.Complication && !t.decision {
			line.Events = append(line.Events, m.link(t.id))
		}
	}
	return line
}

// complicationCases is the cases of every complication, met during the
// operation or after it.
func (m *met) complicationCases() map[string][]*content.Case {
	all := map[string][]*content.Case{}
	for _, c := range m.bank.Cases {
		for _, t := range topicsOf(c) {
			if m.bank.Term(t.id).Kind == term.Complication && !t.decision {
				all[t.id] = append(all[t.id], c)
			}
		}
	}
	return all
}

// sets lists cases by term, in vocabulary order.
func (m *met) sets(cases map[string][]*content.Case, kinds ...term.Kind) []CaseSet {
	var sets []CaseSet
	for _, t := range m.bank.Vocabulary.Of(kinds...) {
		if list := cases[t.ID]; len(list) > 0 {
			sets = append(sets, CaseSet{m.link(t.ID), caseLinks(list)})
		}
	}
	return sets
}

func (s *Site) setsByDecision(m *met) []CaseSet {
	var sets []CaseSet
	for _, d := range s.Bank.Decisions {
		if list := casesOf(m.decisions[d.ID.Value]); len(list) > 0 {
			sets = append(sets, CaseSet{decisionLink(d), caseLinks(list)})
		}
	}
	return sets
}

func (s *Site) setsBySurgeon() []CaseSet {
	var sets []CaseSet
	for _, g := range content.Grades() {
		var list []*content.Case
		for _, c := range s.Bank.Cases {
			if c.Surgeon.Known() && c.Surgeon.Value == g {
				list = append(list, c)
			}
		}
		if len(list) > 0 {
			sets = append(sets, CaseSet{Link{Text: s.words().grade(g)}, caseLinks(list)})
		}
	}
	return sets
}
