package builder

import (
	"github.com/yuin/goldmark/ast"

	"caseleaf/builder/search"
	"caseleaf/content"
	"caseleaf/content/term"
)

// searchDocument is one document while its passages are gathered. Every passage
// is one run of text as its page shows it, and nothing that the page does not
// show.
type searchDocument struct {
	search.Document
	site *Site
}

// add takes texts as passages of one field, each at one place of the page.
func (d *searchDocument) add(f search.Field, anchor string, texts ...string) {
	for _, t := range texts {
		if t != "" {
			d.Passages = append(d.Passages, search.Passage{Field: f, Text: t, Anchor: anchor})
		}
	}
}

// hide takes texts that wait on their page to be opened.
func (d *searchDocument) hide(f search.Field, anchor string, texts ...string) {
	first := len(d.Passages)
	d.add(f, anchor, texts...)
	for i := first; i < len(d.Passages); i++ {
		d.Passages[i].Hidden = true
	}
}

// tag files the document under terms that its page names nowhere in the open.
func (d *searchDocument) tag(ids ...content.Given[string]) {
	d.Tags = append(d.Tags, known(ids)...)
}

// under files the document under terms that stand at one place of its page, beside
// a text or by themselves. A text that is not hidden is shown with their names.
func (d *searchDocument) under(f search.Field, anchor, text string, ids ...content.Given[string]) {
	var labels []string
	for _, id := range known(ids) {
		labels = append(labels, d.site.Bank.Term(id).Label)
	}
	d.tag(ids...)
	if text != "" || labels != nil {
		terms := d.site.words().list(labels)
		d.Passages = append(d.Passages, search.Passage{Field: f, Text: text, Terms: terms, Anchor: anchor})
	}
}

// story takes the blocks of a narrative, each at the heading above it; before
// the first heading, at the anchor given.
func (d *searchDocument) story(b *content.Body, anchor string) {
	if b == nil || len(b.Markdown) == 0 {
		return
	}
	story := b.Story()
	_ = ast.Walk(story.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering || n.Type() == ast.TypeInline {
			return ast.WalkContinue, nil
		}
		if h, ok := n.(*ast.Heading); ok {
			anchor = "n-" + story.HeadingID(h)
		}
		if c := n.FirstChild(); c != nil && c.Type() == ast.TypeInline {
			d.add(search.Text, anchor, content.PlainText(n, b.Markdown))
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
}

// eachDocument hands on every page that can be found. Pages about one thing
// come before cases, and cases before mere entries: where two rank alike, the
// first is shown first.
func (s *Site) eachDocument(yield func(search.Document)) {
	for _, t := range s.met.pages(term.Complication, term.Step, term.Procedure, term.Technique) {
		yield(s.termDocument(t))
	}
	for _, d := range s.Bank.Decisions {
		yield(s.decisionDocument(d))
	}
	for _, c := range s.Bank.Cases {
		yield(s.caseDocument(c))
	}
	for _, c := range s.Bank.Courses {
		yield(s.courseDocument(c))
	}
	for _, t := range s.Bank.Vocabulary.All() {
		if !s.met.hasPage(t.ID) {
			yield(s.termDocument(t))
		}
	}
}

// termDocument is a term's own page, or its entry in the glossary or in the
// list of risk factors.
func (s *Site) termDocument(t term.Term) search.Document {
	w := s.words()
	d := searchDocument{search.Document{Path: s.met.pageOf(t.ID), Title: t.Label, Term: t.ID, Kind: w.say("term-" + string(t.Kind))}, s}
	d.add(search.Named, "", otherNames(t))
	d.add(search.Lesson, "", t.Definition)
	if !s.met.hasPage(t.ID) {
		if t.Kind == term.RiskFactor && len(s.met.risks[t.ID]) > 0 {
			d.Path = riskPath(s.Bank, t.ID)
		}
		return d.Document
	}
	const anchor = "page-watch"
	rows := s.Bank.WatchFor(t.ID)
	if t.Kind == term.Complication {
		rows = s.Bank.WatchOf(t.ID)
	}
	for _, r := range rows {
		beside := r.Step
		if beside == t.ID {
			beside = r.Complication
		}
		d.under(search.Sign, anchor, r.FirstSign, content.Given[string]{State: content.Known, Value: beside})
		d.add(search.Text, anchor, r.FirstMove, r.MisStep, r.Prevention, r.Ready)
	}
	return d.Document
}

func (s *Site) decisionDocument(decision *content.Decision) search.Document {
	d := searchDocument{search.Document{
		Path: decisionPath(decision.ID.Value), Title: decision.Title.Or(decision.ID.Value), Kind: s.words().say("decision-kicker"),
	}, s}
	d.add(search.Lesson, "", decision.Question.Value)
	d.add(search.Sign, "page-trigger", decision.Trigger.Value)
	for _, ids := range [][]content.Given[string]{decision.Steps, decision.Complications, decision.Ready} {
		d.under(search.Text, "page-trigger", "", ids...)
	}
	for _, o := range decision.Options {
		d.add(search.Text, "page-options", o.Text.Value, o.For.Value, o.Against.Value)
	}
	d.add(search.Lesson, "page-agreed", known(decision.Agreed)...)
	d.add(search.Text, "page-thresholds", known(decision.Thresholds)...)
	d.add(search.Text, "page-caution", decision.Caution.Value)
	d.story(&decision.Body, "page-thinking")
	return d.Document
}

func (s *Site) courseDocument(c *content.Course) search.Document {
	d := searchDocument{search.Document{
		Path: coursePath(c.ID.Value), Title: c.Title.Or(c.ID.Value), Kind: s.words().say("course-kicker"),
	}, s}
	for _, st := range c.Stations {
		d.under(search.Lesson, "", st.Title.Value, st.Steps...)
		d.add(search.Text, "", known(st.Tasks)...)
		d.add(search.Text, "", known(st.Checks)...)
		d.add(search.Text, "", known(st.Cautions)...)
		var kit []content.Given[string]
		for _, k := range st.Kit {
			kit = append(kit, k.Item)
		}
		d.under(search.Text, "", "", kit...)
	}
	d.add(search.Text, "", known(c.Cautions)...)
	return d.Document
}
