package builder

import (
	"strconv"

	"caseleaf/content"
	"caseleaf/content/privacy"
)

// TutorsPage is what pages/tutors.tmpl lays out: for those who write cases and
// teach from them, how completely the cases are reported and what the privacy
// check was told to let stand. Cases that are held back are in none of it.
type TutorsPage struct {
	Heading
	Guidelines []GuidelineItems
	Cases      []CaseAnswers
	Exceptions []ExceptionLine
	Sources    []string // the guidelines themselves, a line each
}

// GuidelineItems is one guideline with how the cases stand to each item.
type GuidelineItems struct {
	ID, Name string
	Note     string // what the star at an item means, where there is one
	Items    []ItemLine
}

// ItemLine is one item of a guideline and the cases that do not answer it.
type ItemLine struct {
	Item, Asks string
	Count      string // such as: 28 of 31
	All        string // in words, where it is all or none of the cases
	Missing    []Link // by id, the first of them
	More       int    // how many further ones
}

// CaseAnswers is how one case stands to each guideline, in their order.
type CaseAnswers struct {
	Case   Link
	Counts []string
}

// ExceptionLine is one reviewed exception. What it covers is not repeated.
type ExceptionLine struct {
	In       Link // the case or decision, or the file's name without a page
	Class    string
	Kind     string
	Count    int
	Reason   string
	Reviewed string
}

const tutorsPage = "tutors.html"

// mostMissing is how many cases a row of the items names.
const mostMissing = 8

// planTutors makes the page for tutors.
func planTutors(s *Site) []Page {
	w := s.words()
	p := &TutorsPage{Heading: s.heading(tutorsPage, w.say("tutors-title")), Exceptions: s.exceptions()}
	p.Summary = w.say("tutors-summary")
	items := s.Bank.Completeness(func(c content.CaseAnswers) {
		line := CaseAnswers{Case: caseLink(c.Case)}
		for _, g := range content.Guidelines() {
			answered, applies := c.Tally(g.ID)
			line.Counts = append(line.Counts, w.say("n-of-m", answered, applies))
		}
		p.Cases = append(p.Cases, line)
	})
	for _, g := range content.Guidelines() {
		p.Sources = append(p.Sources, g.Source())
		if len(p.Cases) > 0 {
			p.Guidelines = append(p.Guidelines, w.items(g, items))
		}
	}
	return []Page{{Path: tutorsPage, Template: "tutors", Data: p}}
}

// items lists the items of one guideline.
func (w *words) items(g content.Guideline, all []content.ItemCount) GuidelineItems {
	list := GuidelineItems{ID: "items-" + fileStem(g.ID), Name: g.Name}
	for _, it := range all {
		if it.Guideline != g.ID {
			continue
		}
		line := ItemLine{Item: it.Item, Asks: it.Asks, Count: w.say("n-of-m", it.Answered, it.Applies)}
		if it.FromMemory {
			line.Item += "*"
			list.Note = w.say("items-from-memory")
		}
		switch {
		case it.Applies == 0:
			line.Count, line.All = "", w.say("applies-to-none")
		case it.Answered == 0 && it.Applies > mostMissing:
			line.All = w.say("missing-in-all")
		case it.Answered == it.Applies:
			line.All = w.say("none")
		}
		for _, c := range it.Missing {
			if line.All != "" {
				break
			}
			if len(line.Missing) == mostMissing {
				line.More = len(it.Missing) - mostMissing
				break
			}
			line.Missing = append(line.Missing, Link{Text: c.ID.Value, Path: casePath(c.ID.Value)})
		}
		list.Items = append(list.Items, line)
	}
	return list
}

// exceptions lists the reviewed exceptions of the bank shown.
func (s *Site) exceptions() []ExceptionLine {
	w := s.words()
	var all []ExceptionLine
	for _, file := range s.Bank.AllExceptions() {
		in := Link{Text: file.File}
		switch {
		case file.Case != nil:
			in = Link{Text: file.Case.ID.Value, Path: casePath(file.Case.ID.Value)}
		case file.Decision != nil:
			in = Link{Text: file.Decision.ID.Value, Path: decisionPath(file.Decision.ID.Value)}
		}
		for _, e := range file.List {
			all = append(all, ExceptionLine{
				In: in, Class: w.say("class-" + e.Class.Value), Kind: w.exceptionKind(e.Kind.Value), Count: e.Count.Value,
				Reason: e.Reason.Value, Reviewed: w.list([]string{w.grade(e.ReviewedBy.Value), strconv.Itoa(e.Reviewed.Value)}),
			})
		}
	}
	return all
}

func (w *words) exceptionKind(kind string) string {
	switch privacy.ExceptionKind(kind) {
	case privacy.Consented:
		return w.say("exception-consented")
	case privacy.Reviewed:
		return w.say("exception-reviewed")
	}
	return w.say("exception-false")
}
