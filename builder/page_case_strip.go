package builder

import (
	"html/template"

	"caseleaf/builder/figure"
	"caseleaf/content"
	"caseleaf/content/measure"
)

// figures are the drawings of a case that are files too: of its timeline and of
// the eye. Its page and the list of figures are both planned from them.
func (v *caseView) figures() []drawnFigure {
	var list []drawnFigure
	add := func(kind figureKind, title string, f figure.Figure) {
		list = append(list, drawnFigure{figurePath("cases", v.c.ID.Value, kind), kind, title, casePath(v.c.ID.Value), f, v.c, f.Caption()})
	}
	if f, ok := v.stripFigure(); ok {
		add(stripKind, f.Title, f)
	}
	if !isOfEye(v.site.Bank) {
		return list
	}
	if f, ok := v.clockFace(); ok {
		add(eyeKind, f.Title, f)
	}
	if f, ok := v.section(); ok {
		add(sectionKind, f.Title, f)
	}
	return list
}

// listed are the figures without what is drawn, which would be much for all cases;
// see [Site.figureOf].
func (v *caseView) listed() []drawnFigure {
	list := v.figures()
	for i := range list {
		list[i].figure = nil
	}
	return list
}

// draw puts the figures of a case on its page.
func (v *caseView) draw(p *CasePage) {
	for _, d := range v.figures() {
		if d.kind == stripKind {
			p.Strip, p.StripCaption = template.HTML(figure.SVG(d.figure)), d.figure.Caption() // figure escapes every text it draws
			continue
		}
		p.Eye = append(p.Eye, v.site.blockOf("figure-"+string(d.kind), d))
	}
}

// stripFigure lays the timeline out. Entries without a time, and findings of
// which it is not known whether they were there, have no place on it; they stand
// in the table. It is not ok where nothing has a place.
func (v *caseView) stripFigure() (strip figure.Strip, ok bool) {
	f := figure.Strip{Words: v.words, IDPrefix: "strip", Title: v.words.say("strip-title", caseTitle(v.c)), Ends: v.c.Recording.Ends.Or(0)}
	for _, p := range v.steps {
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
