package builder

import (
	"fmt"

	"caseleaf/content"
)

// DecisionCard is one decision point of a case: the question as it stood, and
// behind it what was chosen.
type DecisionCard struct {
	ID       string
	Number   int
	At       string
	Moment   string   // id that stands for its moment
	Anchors  []string // further moments that are found here
	During   *Link    // the step under way
	Question string
	Options  []OptionLine
	Sure     []string // how sure a reader can be, from least to most
	Chosen   *OptionLine
	Because  string
	Result   string
	CameOf   string
	Point    *Link // the shared decision's page
}

// OptionLine is one option, lettered from A.
type OptionLine struct {
	ID                         string // as the author named it
	Letter, Text, For, Against string
}

func decisionID(number int) string { return fmt.Sprintf("decision-%d", number) }

func (v *caseView) decisions() []DecisionCard {
	var cards []DecisionCard
	for i := range v.c.Timeline.Entries {
		e := &v.c.Timeline.Entries[i]
		if e.Decision == nil {
			continue
		}
		card := v.decisionCard(e.Decision)
		card.Number = len(cards) + 1
		card.ID = decisionID(card.Number)
		card.At = v.words.time(e.At)
		if step := stepOf(v.c, e.At); step != "" {
			link := v.met.link(step)
			card.During = &link
		}
		cards = append(cards, card)
	}
	return cards
}

func (v *caseView) decisionCard(d *content.DecisionPoint) DecisionCard {
	w := v.words
	card := DecisionCard{
		Question: d.Question.Value, Options: optionLines(d.Options),
		Because: w.given(d.Because), Result: d.Result.Value, Sure: w.sureness(),
	}
	for i, o := range d.Options {
		if d.Chosen.Known() && o.ID.Value == d.Chosen.Value {
			card.Chosen = &card.Options[i]
		}
	}
	if shared, ok := v.site.Bank.Decision(d.Point.Value); ok && d.Point.Known() {
		card.Point = &Link{Text: shared.Title.Or(shared.ID.Value), Path: decisionPath(shared.ID.Value)}
		if d.CameOf.Known() {
			card.CameOf = branchText(shared.Options, d.CameOf.Value)
		}
	}
	return card
}

func optionLines(options []content.Option) []OptionLine {
	var lines []OptionLine
	for i, o := range options {
		lines = append(lines, OptionLine{ID: o.ID.Value, Letter: letter(i), Text: o.Text.Value, For: o.For.Value, Against: o.Against.Value})
	}
	return lines
}

// letter is the letter of an option: A for the first.
func letter(i int) string { return string(rune('A' + i%26)) }

// branchText finds the words of a branch anywhere below a tree's options.
func branchText(options []content.TreeOption, id string) string {
	for i := range options {
		if text := branchBelow(&options[i].Then, id); text != "" {
			return text
		}
	}
	return ""
}

func branchBelow(n *content.Node, id string) string {
	for i := range n.Chance {
		b := &n.Chance[i]
		if b.ID.Known() && b.ID.Value == id {
			return b.Text.Or(id)
		}
		if text := branchBelow(&b.Then, id); text != "" {
			return text
		}
	}
	if n.Decide != nil {
		return branchText(n.Decide.Options, id)
	}
	return ""
}
