package builder

import (
	"caseleaf/builder/search"
	"caseleaf/content"
)

// caseDocument is a case as it can be found. What its page keeps behind a line
// to be opened can be found too and is never shown among the hits, or a search
// would give away what readers are to think about first.
func (s *Site) caseDocument(c *content.Case) search.Document {
	d := searchDocument{search.Document{
		Path: casePath(c.ID.Value), Title: caseTitle(c), ID: c.ID.Value, Kind: s.words().say("case-kicker", c.ID.Value),
	}, s}
	d.tag(c.Procedure, c.Technique, c.Anaesthesia, c.Cataract.Type)
	d.tag(c.Patient.Risks...)
	d.add(search.Lesson, "", c.Summary.Value)
	d.add(search.Lesson, "page-lessons", known(c.Lessons)...)
	d.add(search.Text, "page-before", c.History.Value, c.Examination.Value, c.Plan.Value, c.BackupPlan.Value)
	for _, k := range c.Kit {
		d.tag(k.Item)
		d.add(search.Text, "page-kit", k.Note.Value)
	}
	d.timeline(c)
	d.tag(c.Outcome.Later...)
	d.add(search.Text, "page-outcome", c.Outcome.Note.Value)
	d.story(&c.Body, "page-narrative")
	d.add(search.Text, "page-alternatives", known(c.Alternatives)...)
	d.add(search.Text, "page-limits", c.Limits.Value)
	return d.Document
}

// timeline takes the entries of a case's timeline.
func (d *searchDocument) timeline(c *content.Case) {
	rows, decisions := anchorsOf(c).rows, 0
	for i := range c.Timeline.Entries {
		switch e := &c.Timeline.Entries[i]; {
		case e.Step != nil:
			d.tag(e.Step.Term, e.Step.Technique)
			d.tag(e.Step.Using...)
			d.add(search.Text, rows[i], e.Step.Note.Value)
		case e.Event != nil:
			d.event(e.Event, rows[i])
		case e.Finding != nil:
			d.tag(e.Finding.Term)
			d.add(search.Text, rows[i], e.Finding.Note.Value)
		case e.Decision != nil:
			decisions++
			d.decision(e.Decision, decisionID(decisions))
		}
	}
}

func (d *searchDocument) event(e *content.Event, row string) {
	d.tag(e.Term)
	d.tag(e.Actions...)
	sign := d.add
	if d.site.Bank.Settings.AskSigns.Or(false) {
		sign = d.hide
	}
	sign(search.Sign, row, e.Sign.Value)
	d.hide(search.Text, row, e.Cause.Value, e.Action.Value, e.Note.Value)
}

func (d *searchDocument) decision(p *content.DecisionPoint, anchor string) {
	d.add(search.Lesson, anchor, p.Question.Value)
	for _, o := range p.Options {
		d.add(search.Text, anchor, o.Text.Value, o.For.Value, o.Against.Value)
	}
	d.hide(search.Text, anchor, p.Because.Value, p.Result.Value)
}
