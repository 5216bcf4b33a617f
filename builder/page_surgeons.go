package builder

import "caseleaf/content"

// surgeonsPage lists the cases by the grade of the surgeon.
const surgeonsPage = "surgeons.html"

// surgeonID is the id of a grade's section.
func surgeonID(g content.Grade) string { return "grade-" + string(g) }

// SurgeonsPage is what pages/surgeons.tmpl lays out.
type SurgeonsPage struct {
	Heading
	Grades []GradeEntry
}

// GradeEntry is one grade with the cases it operated on.
type GradeEntry struct {
	ID, Name string
	Cases    []CaseLine
}

// planSurgeons makes the page of cases by grade.
func planSurgeons(s *Site) []Page {
	w := s.words()
	p := &SurgeonsPage{Heading: s.headingBelow(casesPage, w.say("surgeons"))}
	p.Summary = w.say("surgeons-summary")
	for _, set := range s.setsBySurgeon() {
		g := content.Grade(set.Value)
		p.Grades = append(p.Grades, GradeEntry{surgeonID(g), w.grade(g), s.caseLines(s.met, set.all)})
	}
	return []Page{{Path: surgeonsPage, Template: "surgeons", Data: p}}
}
