package builder

import (
	"fmt"
	"unicode/utf8"

	"caseleaf/content"
)

const cardsPage = "cards.html"

// CardsPage is what pages/cards.tmpl lays out: a question on one side, and on
// the other what can be done and what cases did. On a screen the second side
// waits to be opened; on paper a sheet of fronts is followed by the sheet of
// their backs.
type CardsPage struct {
	Heading
	Decks  []Link // of other cards, one for each step; empty where all are on one page
	Sheets []CardSheet
}

// perSheet is how many cards a sheet holds: two by two.
const perSheet = 4

// CardSheet is one sheet of paper, printed on both sides.
type CardSheet struct {
	Cards []Card
	// Backs are the same cards as they lie when the sheet is turned over along
	// its long edge: each row from its end, empty places included.
	Backs []Card
}

// Card is one question. A card without an ID is an empty place.
type Card struct {
	ID       string
	Number   int
	Where    string // the decision's title, or the step of a question of one case
	Question string
	Options  []OptionLine
	Did      []string // what cases chose
	Agreed   []string
	Page     Link
	// Brief leaves what speaks for and against an option to the page, where
	// both would not fit a card.
	Brief bool
}

// cardLines is how many lines the back of a card holds at its size of print, as
// measured on paper; what is longer loses what is agreed, then the sides.
const cardLines = 30

// planCards makes the cards, in the order of decisions, then of the questions
// that only one case asks; past onOnePage cards those are parted by their steps,
// and a lab prints those of its stations.
func planCards(s *Site) []Page { return s.cardPages(onOnePage) }

func (s *Site) cardPages(most int) []Page {
	m, w := s.met, s.words()
	all := len(s.Bank.Decisions) + len(m.alone)
	if all == 0 {
		return nil
	}
	var cards []Card
	for _, d := range s.Bank.Decisions {
		cards = append(cards, s.sharedCard(m, d))
	}
	if all <= most {
		return []Page{cardsOn(cardsPage, s.deck(s.headingBelow(decisionsPage, w.say("cards")), append(cards, s.aloneCards(m.alone)...)))}
	}
	first := s.deck(s.headingBelow(decisionsPage, w.say("cards")), cards)
	first.Summary = w.say("cards-summary", all)
	decks := parting{whole: first.Heading, path: cardsPage, template: "cards"}
	s.eachStepAsked(m, func(step string, list []meeting) {
		where := s.stepLink(m, step).Text
		first.Decks = append(first.Decks, Link{Text: where, Path: deckPath(step), Note: w.say("cards-count", len(list))})
		decks.add(deckPath(step), w.say("cards-title", where), "", func(h Heading) any { return s.deck(h, s.aloneCards(list)) })
	})
	return decks.after(first)
}

// deckPath is the path of the cards of a step; of those of no known step where
// there is none, by a name that no step has.
func deckPath(step string) string {
	if step == "" {
		return "cards/not-known_.html"
	}
	return "cards/" + fileStem(step) + ".html"
}

func cardsOn(path string, p *CardsPage) Page { return Page{Path: path, Template: "cards", Data: p} }

// deck numbers cards and lays them out under a heading.
func (s *Site) deck(h Heading, cards []Card) *CardsPage {
	for i := range cards {
		cards[i].Number, cards[i].ID = i+1, fmt.Sprintf("card-%d", i+1)
	}
	p := &CardsPage{Heading: h, Sheets: sheets(cards)}
	p.Summary, p.Protocol = s.words().say("cards-summary", len(cards)), true
	return p
}

func (s *Site) aloneCards(list []meeting) (cards []Card) {
	for _, at := range list {
		cards = append(cards, s.aloneCard(s.met, at))
	}
	return cards
}

// sheets lays cards out by fours.
func sheets(cards []Card) []CardSheet {
	var out []CardSheet
	for first := 0; first < len(cards); first += perSheet {
		sheet := CardSheet{Cards: cards[first:min(first+perSheet, len(cards))]}
		for row := 0; row < len(sheet.Cards); row += 2 {
			turned := []Card{{}, sheet.Cards[row]}
			if row+1 < len(sheet.Cards) {
				turned[0] = sheet.Cards[row+1]
			}
			sheet.Backs = append(sheet.Backs, turned...)
		}
		out = append(out, sheet)
	}
	return out
}

func (s *Site) sharedCard(m *met, d *content.Decision) Card {
	w := s.words()
	c := Card{Question: d.Question.Value, Page: decisionLink(d), Agreed: known(d.Agreed)}
	c.Where = d.Title.Or("")
	list, choices := m.decisions[d.ID.Value], []string(nil)
	for i := range d.Options {
		o := &d.Options[i]
		c.Options = append(c.Options, OptionLine{o.ID.Value, letter(i), o.Text.Value, o.For.Value, o.Against.Value})
		chose := 0
		for _, at := range list {
			if at.Entry.Decision.Chosen.Or("") == o.ID.Value {
				chose++
			}
		}
		if chose > 0 {
			choices = append(choices, w.say("card-chose", chose, letter(i)))
		}
	}
	if len(choices) > 0 {
		c.Did = []string{w.say("card-met", len(list), w.list(choices))}
	}
	c.shorten()
	return c
}

func (s *Site) aloneCard(m *met, at meeting) Card {
	d, w := at.Entry.Decision, s.words()
	c := Card{Question: d.Question.Value, Options: optionLines(d.Options)}
	if at.During != "" {
		c.Where = m.link(at.During).Text
	}
	c.Page = Link{Text: at.Case.ID.Value, Path: at.Path(), Note: at.at(w)}
	for i, o := range d.Options {
		if d.Chosen.Known() && o.ID.Value == d.Chosen.Value {
			c.Did = append(c.Did, w.say("card-case-chose", at.Case.ID.Value, letter(i)))
		}
	}
	if d.Because.Known() {
		c.Did = append(c.Did, w.say("because")+": "+d.Because.Value)
	}
	if d.Result.Known() {
		c.Did = append(c.Did, w.say("result")+": "+d.Result.Value)
	}
	c.shorten()
	return c
}

// shorten leaves out what a card cannot hold.
func (c *Card) shorten() {
	// How many characters stand in a line, by the size and indent of the text.
	const bold, side, item, plain, small = 46, 52, 56, 62, 3
	lines := func(text string, width int) int {
		if text == "" {
			return 0
		}
		return 1 + (utf8.RuneCountInString(text)-1)/width
	}
	all := func(list []string, width int) int {
		n := 0
		for _, t := range list {
			n += lines(t, width)
		}
		if n > 0 {
			n += 2 // head and gap
		}
		return n
	}
	fixed := small + all(c.Did, plain)
	options := 0
	for _, o := range c.Options {
		options += lines(o.Text, bold) + lines(o.For, side) + lines(o.Against, side)
	}
	if fixed+options+all(c.Agreed, item) > cardLines {
		c.Agreed = nil
	}
	c.Brief = fixed+options > cardLines
}
