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
	d.add(search.Lesson, "", c.Summary.Value)
	d.add(search.Lesson, "page-lessons", known(c.Lessons)...)
	d.under(search.Text, "page-before", "", append([]content.Given[string]{c.Procedure, c.Technique, c.Anaesthesia, c.Cataract.Type}, c.Patient.Risks...)...)
	d.add(search.Text, "page-before", c.History.Value, c.Examination.Value, c.Plan.Value, c.BackupPlan.Value)
	for _, k := range c.Kit {
		if len(c.Decisions()) > 0 { // with the strip and the delays behind a line
			d.tag(k.Item)
			d.hide(search.Text, "page-kit", k.Note.Value)
			continue
		}
		d.under(search.Text, "page-kit", k.Note.Value, k.Item)
	}
	d.timeline(c)
	d.under(search.Text, "page-outcome", c.Outcome.Note.Value, c.Outcome.Later...)
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
			d.under(search.Text, rows[i], e.Step.Note.Value, append([]content.Given[string]{e.Step.Term, e.Step.Detail().Technique}, e.Step.Detail().Using...)...)
		case e.Event != nil:
			d.event(e.Event, rows[i])
		case e.Finding != nil:
			d.under(search.Text, rows[i], e.Finding.Note.Value, e.Finding.Term)
		case e.Decision != nil:
			decisions++
			d.decision(e.Decision, decisionID(decisions))
		}
	}
}

func (d *searchDocument) event(e *content.Event, row string) {
	d.tag(e.Actions...)
	if d.site.Bank.Settings.AskSigns.Or(false) {
		d.under(search.Sign, row, "", e.Term)
		d.hide(search.Sign, row, e.Sign.Value)
	} else {
		d.under(search.Sign, row, e.Sign.Value, e.Term)
	}
	d.hide(search.Text, row, e.Cause.Value, e.Action.Value, e.Note.Value)
}

func (d *searchDocument) decision(p *content.DecisionPoint, anchor string) {
	d.add(search.Lesson, anchor, p.Question.Value)
	for _, o := range p.Options {
		d.add(search.Text, anchor, o.Text.Value, o.For.Value, o.Against.Value)
	}
	d.hide(search.Text, anchor, p.Because.Value, p.Result.Value)
}
