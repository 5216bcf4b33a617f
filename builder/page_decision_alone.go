package builder

import (
	"fmt"
	"strings"

	"caseleaf/content"
	"caseleaf/content/term"
)

// QuestionsPage is what pages/questions.tmpl lays out: the decision points of
// one step that belong to no shared decision. They have options, choices and
// outcomes, and no values.
type QuestionsPage struct {
	Heading
	Step      Link
	Questions []QuestionBlock
}

// QuestionBlock is one question with what the cases that ask it did.
type QuestionBlock struct {
	ID       string
	Question string
	Options  []OptionBlock
	Cases    []MetLine
}

// questionsPath is the path of a step's questions; of those in no known step
// where there is none. No step's file ends in that underscore but a device's.
func questionsPath(step string) string {
	if step == "" {
		return "questions/not-known_.html"
	}
	return "questions/" + fileStem(step) + ".html"
}

// questionPages makes a page for every step in which a case asks a question of
// its own.
func (s *Site) questionPages(m *met) []Page {
	var pages []Page
	var headings []*Heading
	s.eachStepAsked(m, func(step string, list []meeting) {
		p := s.questionsPage(m, step, list)
		pages = append(pages, Page{Path: questionsPath(step), Template: "questions", Data: p})
		headings = append(headings, &p.Heading)
	})
	turn(pages, headings)
	return pages
}

// eachStepAsked hands on the questions of single cases by the step in which they
// came up, in the order of the vocabulary; last those of no known step.
func (s *Site) eachStepAsked(m *met, yield func(step string, list []meeting)) {
	byStep := map[string][]meeting{}
	for _, at := range m.alone {
		byStep[at.During] = append(byStep[at.During], at)
	}
	steps := []string{}
	for _, t := range s.Bank.Vocabulary.Of(term.Step) {
		steps = append(steps, t.ID)
	}
	for _, step := range append(steps, "") {
		if list := byStep[step]; len(list) > 0 {
			yield(step, list)
		}
	}
}

// stepLink leads to a step, or says that it is not known.
func (s *Site) stepLink(m *met, step string) Link {
	if step == "" {
		return Link{Text: s.words().say("step-not-known")}
	}
	return m.link(step)
}

func (s *Site) questionsPage(m *met, step string, list []meeting) *QuestionsPage {
	w := s.words()
	where := s.stepLink(m, step)
	p := &QuestionsPage{Heading: s.headingBelow(decisionsPage, w.say("questions-title", where.Text)), Step: where}
	p.Kicker, p.Protocol = w.say("decision-kicker"), true
	place := map[string]int{}
	for _, at := range list {
		key := strings.ToLower(strings.Join(strings.Fields(at.Entry.Decision.Question.Value), " "))
		i, asked := place[key]
		if !asked || key == "" {
			i = len(p.Questions)
			place[key] = i
			p.Questions = append(p.Questions, QuestionBlock{
				ID: fmt.Sprintf("question-%d", i+1), Question: at.Entry.Decision.Question.Value,
			})
		}
		p.Questions[i].add(s, m, at)
	}
	for i := range p.Questions {
		p.Questions[i].count(w)
	}
	p.Summary = w.say("questions-summary", len(p.Questions))
	return p
}

// add takes in one moment: options are told apart by their words.
func (q *QuestionBlock) add(s *Site, m *met, at meeting) {
	d := at.Entry.Decision
	for i := range d.Options {
		o := q.option(&d.Options[i])
		if d.Options[i].ID.Value == d.Chosen.Or("") {
			o.Chosen = append(o.Chosen, s.chosenLine(nil, at))
		}
	}
	line := MetLine{
		Case: caseLink(at.Case), Moment: s.momentLink(at), Choice: s.words().say("choice-missing"), Result: s.resultOf(nil, d),
	}
	if o := d.ChosenOption(); o != nil {
		line.Choice = o.Text.Or(o.ID.Value)
	}
	q.Cases = append(q.Cases, line)
}

// option finds an option by its words, or adds it.
func (q *QuestionBlock) option(o *content.Option) *OptionBlock {
	for i := range q.Options {
		if q.Options[i].Text == o.Text.Or(o.ID.Value) {
			return &q.Options[i]
		}
	}
	q.Options = append(q.Options, OptionBlock{OptionLine: OptionLine{
		Letter: letter(len(q.Options)), Text: o.Text.Or(o.ID.Value), For: o.For.Value, Against: o.Against.Value,
	}})
	return &q.Options[len(q.Options)-1]
}

// count says how many of the moments chose each option.
func (q *QuestionBlock) count(w *words) {
	for i := range q.Options {
		o := &q.Options[i]
		o.Count = w.chosenOf(len(o.Chosen), len(q.Cases))
	}
}
