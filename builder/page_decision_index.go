package builder

import (
	"fmt"

	"caseleaf/content"
	"caseleaf/content/term"
)

// DecisionsPage is what pages/decisions.tmpl lays out: the decisions by step.
type DecisionsPage struct {
	Heading
	All    []DecisionLine
	Groups []DecisionGroup
	Beside []Link // cards, chains and figures
}

// DecisionGroup is the decisions met in one step.
type DecisionGroup struct {
	Step  Link
	Lines []DecisionLine
	More  *Link // the page of the step's questions that only one case asks
}

// decisionsIndex lists the shared decisions, then by step those and the pages of
// the others.
func (s *Site) decisionsIndex(m *met, questions []Page) Page {
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
		g.More = questionsLink(w, questions, questionsPath(t.ID))
		if len(g.Lines) > 0 || g.More != nil {
			p.Groups = append(p.Groups, g)
		}
	}
	if more := questionsLink(w, questions, questionsPath("")); more != nil {
		p.Groups = append(p.Groups, DecisionGroup{Step: Link{Text: w.say("step-not-known")}, More: more})
	}
	if len(p.All)+len(questions) > 0 {
		p.Beside = []Link{
			{Text: w.say("cards"), Path: cardsPage, Note: w.say("cards-note")},
			{Text: w.say("chains"), Path: chainsPage, Note: w.say("chains-note")},
			{Text: w.say("figures"), Path: figuresPage, Note: w.say("figures-note")},
		}
	}
	return Page{Path: decisionsPage, Template: "decisions", Data: p}
}

// questionsLink leads to a page of questions, if it is among those made.
func questionsLink(w *words, pages []Page, path string) *Link {
	for _, p := range pages {
		if q, ok := p.Data.(*QuestionsPage); ok && p.Path == path {
			return &Link{Text: w.say("questions-more", len(q.Questions)), Path: path}
		}
	}
	return nil
}

// shareOf writes a share of draws in per cent. One that is neither none nor all
// is never written as 0 or 100.
func shareOf(x float64) string {
	switch {
	case x > 0 && x < 0.01:
		return "< 1 %"
	case x > 0.99 && x < 1:
		return "> 99 %"
	}
	return fmt.Sprintf("%.0f %%", 100*x)
}
