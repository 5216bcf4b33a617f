package builder

import "caseleaf/content"

// surgeonsPage lists the cases by the grade of the surgeon.
const surgeonsPage = "surgeons.html"

// surgeonID is the id of a grade's section.
func surgeonID(g content.Grade) string { return "grade-" + string(g) }

// SurgeonsPage is what pages/surgeons.tmpl lays out.
type SurgeonsPage struct {
	Heading
	Parts  []Link // pages of single grades; empty where all are on one page
	Grades []GradeEntry
}

// GradeEntry is one grade with the cases it operated on.
type GradeEntry struct {
	ID, Name string
	Cases    []CaseLine
}

// surgeonPath leads to the cases of a grade.
func surgeonPath(bank *content.Bank, g content.Grade) string {
	if len(bank.Cases) > onOnePage {
		return "surgeons/" + fileStem(string(g)) + ".html"
	}
	return surgeonsPage + "#" + surgeonID(g)
}

// planSurgeons makes the page of cases by grade, and a page for each grade where
// the cases are many.
func planSurgeons(s *Site) []Page {
	w := s.words()
	p := &SurgeonsPage{Heading: s.headingBelow(casesPage, w.say("surgeons"))}
	p.Summary = w.say("surgeons-summary")
	var pages []Page
	var headings []*Heading
	for _, set := range s.setsBySurgeon() {
		g := content.Grade(set.Value)
		entry := func() GradeEntry { return GradeEntry{surgeonID(g), w.grade(g), s.caseLines(s.met, set.all)} }
		if len(s.Bank.Cases) <= onOnePage {
			p.Grades = append(p.Grades, entry())
			continue
		}
		h := partOf(p.Heading, surgeonsPage, w.grade(g))
		p.Parts = append(p.Parts, Link{Text: w.grade(g), Path: set.Name.Path, Note: w.say("draw-n-cases", len(set.all))})
		pages = append(pages, Page{Path: set.Name.Path, Template: "surgeons", plan: func() any { return &SurgeonsPage{Heading: h, Grades: []GradeEntry{entry()}} }})
		headings = append(headings, &h)
	}
	turn(pages, headings)
	return append([]Page{{Path: surgeonsPage, Template: "surgeons", Data: p}}, pages...)
}
