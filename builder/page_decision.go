package builder

import (
	"html/template"

	"caseleaf/content"
	"caseleaf/content/term"
)

// DecisionPage is what pages/decision.tmpl lays out.
type DecisionPage struct {
	Heading
	Question   string
	Trigger    string
	Steps      []Link
	Events     []Link // complications it answers
	Options    []OptionBlock
	Moments    int // times the cases met it
	Ready      []Link
	Agreed     []string
	Thresholds []string
	Caution    string
	Body       template.HTML
	Sources    []SourceLine
}

// OptionBlock is one option with the cases that chose it.
type OptionBlock struct {
	OptionLine
	Chosen []ChosenLine
}

// ChosenLine is one case that chose an option and what came of it.
type ChosenLine struct {
	Case   Link
	Moment Link
	Result string
}

// DecisionsPage is what pages/decisions.tmpl lays out: the shared decisions by
// step, then those that only one case knows.
type DecisionsPage struct {
	Heading
	All    []DecisionLine
	Groups []DecisionGroup
	Alone  []DecisionLine
}

// DecisionGroup is the decisions met in one step.
type DecisionGroup struct {
	Step  Link
	Lines []DecisionLine
}

// planDecisions makes the page of every shared decision and the list of all.
func planDecisions(s *Site) []Page {
	m := newMet(s.Bank)
	var pages []Page
	var headings []*Heading
	for _, d := range s.Bank.Decisions {
		p := s.decisionPage(m, d)
		pages = append(pages, Page{Path: decisionPath(d.ID.Value), Template: "decision", Data: p})
		headings = append(headings, &p.Heading)
	}
	turn(pages, headings)
	return append(pages, s.decisionsIndex(m))
}

func (s *Site) decisionPage(m *met, d *content.Decision) *DecisionPage {
	w := s.words()
	h := s.headingBelow(decisionsPage, d.Title.Or(d.ID.Value))
	h.Kicker, h.Summary, h.Protocol = w.say("decision-kicker"), d.Question.Value, true
	p := &DecisionPage{
		Heading: h, Question: d.Question.Value, Trigger: d.Trigger.Value,
		Steps: m.links(d.Steps), Events: m.links(d.Complications), Ready: m.links(d.Ready),
		Agreed: known(d.Agreed), Thresholds: known(d.Thresholds), Caution: d.Caution.Value,
		Moments: len(m.decisions[d.ID.Value]), Sources: sourceLines(d.Sources),
	}
	for i, o := range d.Options {
		block := OptionBlock{OptionLine: OptionLine{
			Letter: letter(i), Text: o.Text.Value, For: o.For.Value, Against: o.Against.Value,
		}}
		for _, at := range m.decisions[d.ID.Value] {
			if at.Entry.Decision.Chosen.Or("") == o.ID.Value {
				block.Chosen = append(block.Chosen, s.chosenLine(d, at))
			}
		}
		p.Options = append(p.Options, block)
	}
	p.Body = s.Prose(&d.Body, decisionPath(d.ID.Value))
	return p
}

func (s *Site) chosenLine(d *content.Decision, at meeting) ChosenLine {
	point := at.Entry.Decision
	line := ChosenLine{Case: caseLink(at.Case), Moment: s.momentLink(at), Result: point.Result.Value}
	if line.Result == "" && point.CameOf.Known() {
		line.Result = branchText(d.Options, point.CameOf.Value)
	}
	if line.Result == "" {
		line.Result = s.words().say("result-missing")
	}
	return line
}

func (s *Site) decisionsIndex(m *met) Page {
	w := s.words()
	p := &DecisionsPage{Heading: s.heading(decisionsPage, w.say("decisions"))}
	p.Summary = w.say("decisions-summary")
	all := func(id string) []meeting { return m.decisions[id] }
	p.All = s.decisionLines(func(*content.Decision) bool { return true }, all)
	for _, t := range s.Bank.Vocabulary.Of(term.Step) {
		g := DecisionGroup{Step: m.link(t.ID)}
		g.Lines = s.decisionLines(
			func(d *content.Decision) bool { return names(d.Steps, t.ID) },
			func(string) []meeting { return nil })
		if len(g.Lines) > 0 {
			p.Groups = append(p.Groups, g)
		}
	}
	p.Alone = s.aloneLines(m.alone)
	return Page{Path: decisionsPage, Template: "decisions", Data: p}
}
