package builder

import (
	"caseleaf/content"
	"caseleaf/content/term"
)

// RisksPage is what pages/risks.tmpl lays out: risk factors and their cases.
type RisksPage struct {
	Heading
	Risks []RiskEntry
}

// RiskEntry is one risk factor with the cases that had it.
type RiskEntry struct {
	ID         string
	Name       Link
	Definition string
	Cases      []CaseLine
}

// riskID is the id of a risk factor's section.
func riskID(id string) string { return "risk-" + id }

// planRisks makes the page of risk factors.
func planRisks(s *Site) []Page {
	m, w := s.met, s.words()
	p := &RisksPage{Heading: s.heading(risksPage, w.say("risks"))}
	p.Summary = w.say("risks-summary")
	for _, t := range s.Bank.Vocabulary.Of(term.RiskFactor) {
		if cases := m.risks[t.ID]; len(cases) > 0 {
			p.Risks = append(p.Risks, RiskEntry{ID: riskID(t.ID), Name: m.link(t.ID), Definition: t.Definition, Cases: s.caseLines(m, cases)})
		}
	}
	return []Page{{Path: risksPage, Template: "risks", Data: p}}
}

func (s *Site) caseLines(m *met, cases []*content.Case) []CaseLine {
	var lines []CaseLine
	for _, c := range cases {
		lines = append(lines, s.caseLine(m, c))
	}
	return lines
}
