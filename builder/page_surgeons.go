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
	each := parting{whole: p.Heading, path: surgeonsPage, template: "surgeons"}
	for _, set := range s.setsBySurgeon() {
		g := content.Grade(set.Value)
		entry := func() GradeEntry { return GradeEntry{surgeonID(g), w.grade(g), s.caseLines(s.met, set.all)} }
		if len(s.Bank.Cases) <= onOnePage {
			p.Grades = append(p.Grades, entry())
			continue
		}
		each.add(set.Name.Path, w.grade(g), w.say("draw-n-cases", len(set.all)), func(h Heading) any {
			return &SurgeonsPage{Heading: h, Grades: []GradeEntry{entry()}}
		})
	}
	p.Parts = each.links
	return each.after(p)
}
