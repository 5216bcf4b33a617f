package builder

import (
	"html/template"

	"caseleaf/builder/figure"
	"caseleaf/content"
	"caseleaf/content/measure"
)

// strip draws the timeline for the case's page and keeps it as a file.
func (v *caseView) strip() (drawing template.HTML, caption string) {
	f, ok := v.stripFigure()
	if !ok {
		return "", ""
	}
	v.site.keep(drawnFigure{figurePath("cases", v.c.ID.Value, stripKind), stripKind, f.Title, casePath(v.c.ID.Value), f})
	return template.HTML(f.SVG()), f.Caption() // figure escapes every text it draws
}

// stripFigure lays the timeline out. Entries without a time, and findings of
// which it is not known whether they were there, have no place on it; they stand
// in the table. It is not ok where nothing has a place.
func (v *caseView) stripFigure() (strip figure.Strip, ok bool) {
	f := figure.Strip{Words: v.words, IDPrefix: "strip", Title: v.words.say("strip-title", caseTitle(v.c)), Ends: v.c.Recording.Ends.Or(0)}
	for _, p := range v.c.Steps() {
		step := figure.StripStep{Label: v.site.Bank.Term(p.Term).Label, From: p.From, To: p.From}
		if p.Ended {
			step.To = p.To
		}
		f.Steps = append(f.Steps, step)
	}
	steps, number := 0, 0
	for i := range v.c.Timeline.Entries {
		e := &v.c.Timeline.Entries[i]
		href := "#" + v.anchors.rows[i]
		if e.Decision != nil {
			number++
		}
		if !e.At.Known() {
			continue
		}
		switch at := e.At.Value; {
		case e.Step != nil && e.Step.Term.Known():
			f.Steps[steps].Href = href
			steps++
		case e.Event != nil:
			f.Events = append(f.Events, figure.StripEvent{
				Label: v.site.Bank.Term(e.Event.Term.Value).Label, At: at, Href: href,
				Began: timePointer(e.Event.Began), Noticed: timePointer(e.Event.Noticed), Acted: timePointer(e.Event.Acted),
			})
		case e.Finding != nil && e.Finding.Present.Known():
			f.Findings = append(f.Findings, figure.StripFinding{
				Label: v.site.Bank.Term(e.Finding.Term.Value).Label, At: at, Present: e.Finding.Present.Value, Href: href,
			})
		case e.Decision != nil:
			f.Decisions = append(f.Decisions, figure.StripDecision{
				Label: v.words.say("decision-n", number), At: at, Href: "#" + decisionID(number),
			})
		}
	}
	if len(f.Steps)+len(f.Events)+len(f.Findings)+len(f.Decisions) == 0 {
		return f, false
	}
	return f.ChainInOrder(), true
}

func timePointer(g content.Given[measure.Time]) *measure.Time {
	if !g.Known() {
		return nil
	}
	t := g.Value
	return &t
}
