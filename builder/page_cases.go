package builder

import (
	"strings"

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
	In        string // keys of the sets that it is in, parted by blanks; for filters
}

func (s *Site) casesIndex(m *met) Page {
	w := s.words()
	p := &CasesPage{Heading: s.heading(casesPage, w.say("cases")), Groups: s.caseGroups(m)}
	p.Summary = w.say("cases-summary", len(s.Bank.Cases))
	if len(s.Bank.Cases) > 0 {
		p.Print = Link{Text: w.say("booklets-link"), Path: bookletsPage}
	}
	in := map[string][]string{}
	for _, g := range p.Groups {
		for _, set := range g.Sets {
			for _, c := range set.all {
				in[c.ID.Value] = append(in[c.ID.Value], set.Key)
			}
		}
	}
	for _, c := range s.Bank.Cases {
		line := s.caseLine(m, c)
		line.In = strings.Join(in[c.ID.Value], " ")
		p.Cases = append(p.Cases, line)
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
