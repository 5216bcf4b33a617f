package builder

import (
	"caseleaf/content"
	"caseleaf/content/term"
)

// RisksPage is what pages/risks.tmpl lays out: risk factors and their cases.
type RisksPage struct {
	Heading
	Parts []Link // pages of single risk factors; empty where all are on one page
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

// riskPath leads to the cases of a risk factor.
func riskPath(bank *content.Bank, id string) string {
	if len(bank.Cases) > onOnePage {
		return "risks/" + fileStem(id) + ".html"
	}
	return risksPage + "#" + riskID(id)
}

// planRisks makes the page of risk factors, and a page for each where the cases
// are many.
func planRisks(s *Site) []Page {
	m, w := s.met, s.words()
	p := &RisksPage{Heading: s.heading(risksPage, w.say("risks"))}
	p.Summary = w.say("risks-summary")
	each := parting{whole: p.Heading, path: risksPage, template: "risks"}
	for _, t := range s.Bank.Vocabulary.Of(term.RiskFactor) {
		cases := m.risks[t.ID]
		if len(cases) == 0 {
			continue
		}
		entry := func() RiskEntry {
			return RiskEntry{ID: riskID(t.ID), Name: m.link(t.ID), Definition: t.Definition, Cases: s.caseLines(m, cases)}
		}
		if len(s.Bank.Cases) <= onOnePage {
			p.Risks = append(p.Risks, entry())
			continue
		}
		each.add(riskPath(s.Bank, t.ID), t.Label, w.say("draw-n-cases", len(cases)), func(h Heading) any {
			return &RisksPage{Heading: h, Risks: []RiskEntry{entry()}}
		})
	}
	p.Parts = each.links
	return each.after(p)
}

func (s *Site) caseLines(m *met, cases []*content.Case) []CaseLine {
	var lines []CaseLine
	for _, c := range cases {
		lines = append(lines, s.caseLine(m, c))
	}
	return lines
}
