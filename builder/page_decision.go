package builder

import (
	"html/template"

	"caseleaf/builder/decide"
	"caseleaf/content"
)

// DecisionPage is what pages/decision.tmpl lays out.
type DecisionPage struct {
	Heading
	Evidence   []string // why the numbers are thin; said before anything else
	Trigger    string
	Steps      []Link
	Events     []Link // complications it answers
	Options    []OptionBlock
	Moments    int // times the cases met it
	Computed   bool
	Finding    string
	Tree       *FigureBlock
	Weights    []WeightLine
	DrawCount  string // draws that intervals and shares rest on
	Unsure     string // what not knowing costs, in words
	Tornado    *FigureBlock
	Map        *FigureBlock
	Numbers    []NumberLine
	Cases      []MetLine
	Ready      []Link
	Agreed     []string
	Thresholds []string
	Caution    string
	Body       template.HTML
	Sources    []SourceLine
}

// WeightLine is one option in the comparison of expected values.
type WeightLine struct {
	Letter, Text string
	Expected     string
	Interval     string
	BestIn       string // share of draws, in per cent
	Preferred    bool
}

// OptionBlock is one option with what speaks for it, the cases that chose it
// and what the numbers say of it.
type OptionBlock struct {
	OptionLine
	Ready    []Link
	Count    string // how many of the moments chose it
	Chosen   []ChosenLine
	CameOf   []CountLine // branches that followed, as counts
	Expected string      // expected value with its interval; empty without a tree
	Leaves   bool        // the switches say when it would no longer be preferred
	Switches []SwitchLine
}

// CountLine is a count of moments.
type CountLine struct {
	Text  string
	Count int
}

// ChosenLine is one case that chose an option and what came of it.
type ChosenLine struct {
	Case   Link
	Moment Link
	Result string
}

// MetLine is one moment at which a case met the decision.
type MetLine struct {
	Case   Link
	Moment Link
	During *Link
	Choice string
	Result string
}

// planDecisions makes the page of every shared decision, the pages of the
// questions that only one case asks, and the list of all.
func planDecisions(s *Site) []Page {
	m := s.met
	var pages []Page
	var headings []*Heading
	for _, d := range s.Bank.Decisions {
		p := s.decisionPage(m, d)
		pages = append(pages, Page{Path: decisionPath(d.ID.Value), Template: "decision", Data: p})
		headings = append(headings, &p.Heading)
	}
	turn(pages, headings)
	questions := s.questionPages(m)
	return append(append(pages, questions...), s.decisionsIndex(m, questions))
}

func (s *Site) decisionPage(m *met, d *content.Decision) *DecisionPage {
	w, v, list := s.words(), s.weigh(d), m.decisions[d.ID.Value]
	h := s.headingBelow(decisionsPage, d.Title.Or(d.ID.Value))
	h.Kicker, h.Summary, h.Protocol = w.say("decision-kicker"), d.Question.Value, true
	p := &DecisionPage{
		Heading: h, Trigger: d.Trigger.Value, Computed: v.model != nil,
		Steps: m.links(d.Steps), Events: m.links(d.Complications), Ready: m.links(d.Ready),
		Agreed: known(d.Agreed), Thresholds: known(d.Thresholds), Caution: d.Caution.Value,
		Moments: len(list), Sources: sourceLines(d.Sources), Numbers: v.numbers(),
	}
	p.Evidence = v.evidence(p.Numbers)
	p.Tree, p.Tornado, p.Map = s.treeFigure(v), s.tornadoFigure(v), s.mapFigure(v)
	for i := range d.Options {
		p.Options = append(p.Options, s.optionBlock(m, v, i, list))
	}
	for _, at := range list {
		p.Cases = append(p.Cases, s.metLine(m, d, at))
	}
	if p.Computed {
		p.Finding, p.Weights = v.finding(), v.weights()
		p.DrawCount = w.number(drawCount)
		p.Unsure = w.say("perfect-information", points(v.draws.PerfectInformation))
	}
	p.Body = s.Prose(&d.Body, decisionPath(d.ID.Value))
	return p
}

// optionBlock is the option at a place of the root.
func (s *Site) optionBlock(m *met, v *weighing, i int, list []meeting) OptionBlock {
	o, w, id := &v.d.Options[i], s.words(), v.d.Options[i].ID.Value
	b := OptionBlock{
		OptionLine: OptionLine{Letter: letter(i), Text: o.Text.Value, For: o.For.Value, Against: o.Against.Value},
		Ready:      m.links(o.Ready), Count: w.chosenOf(v.seen.Chosen[id], len(list)), CameOf: v.cameOf(i),
	}
	for _, at := range list {
		if at.Entry.Decision.Chosen.Or("") == id {
			b.Chosen = append(b.Chosen, s.chosenLine(v.d, at))
		}
	}
	if v.model == nil {
		return b
	}
	b.Leaves, b.Switches = v.best(id), v.switches(id)
	for k, value := range v.result.Options {
		if value.ID == id {
			b.Expected = w.say("expected-interval", points(value.Value), v.interval(v.draws.Options[k]))
		}
	}
	return b
}

// chosenOf says how many of the moments that met a question chose an option; ""
// where none met it.
func (w *words) chosenOf(chosen, met int) string {
	switch {
	case met == 0:
		return ""
	case met > 1:
		return w.say("chosen-times-of", chosen, met)
	case chosen == 1:
		return w.say("chosen-one-time")
	}
	return w.say("not-chosen-one-time")
}

// cameOf counts the branches that followed an option, in the order of the tree.
func (v *weighing) cameOf(i int) []CountLine {
	o := &v.d.Options[i]
	var lines []CountLine
	for _, id := range branchIDsBelow(&o.Then) {
		if n := v.seen.Followed[o.ID.Value][id]; n > 0 {
			lines = append(lines, CountLine{branchText(v.d.Options[i:i+1], id), n})
		}
	}
	return lines
}

func (v *weighing) interval(o decide.DrawnOption) string {
	return points(o.Low) + "\u00a0–\u00a0" + points(o.High)
}

func (v *weighing) weights() []WeightLine {
	var lines []WeightLine
	for i, o := range v.result.Options {
		drawn := v.draws.Options[i]
		lines = append(lines, WeightLine{
			Letter: letter(v.place(o.ID)), Text: o.Text, Expected: points(o.Value), Interval: v.interval(drawn),
			BestIn: shareOf(drawn.BestIn), Preferred: o.Preferred,
		})
	}
	return lines
}

func (s *Site) chosenLine(d *content.Decision, at meeting) ChosenLine {
	return ChosenLine{Case: caseLink(at.Case), Moment: s.momentLink(at), Result: s.resultOf(d, at.Entry.Decision)}
}

// resultOf says what came of a choice: in the case's own words, else the branch
// of the shared decision's tree.
func (s *Site) resultOf(d *content.Decision, point *content.DecisionPoint) string {
	switch {
	case point.Result.Known():
		return point.Result.Value
	case point.CameOf.Known() && d != nil:
		if text := branchText(d.Options, point.CameOf.Value); text != "" {
			return text
		}
	}
	return s.words().say("result-missing")
}

func (s *Site) metLine(m *met, d *content.Decision, at meeting) MetLine {
	point := at.Entry.Decision
	line := MetLine{
		Case: caseLink(at.Case), Moment: s.momentLink(at), Result: s.resultOf(d, point),
		Choice: s.words().say("choice-missing"),
	}
	if at.During != "" {
		link := m.link(at.During)
		line.During = &link
	}
	if o := point.ChosenOption(); o != nil {
		line.Choice = o.Text.Or(o.ID.Value)
	}
	for i := range d.Options {
		if d.Options[i].ID.Value == point.Chosen.Or("") {
			line.Choice = letter(i) + ": " + d.Options[i].Text.Or(line.Choice)
		}
	}
	return line
}
