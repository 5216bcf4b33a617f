package builder

import (
	"fmt"
	"slices"

	"caseleaf/content"
)

// fewMoments is below how many moments in the cases a page says first that they
// are few. It is a convention of ours, common practice, no source: under ten a
// single moment is more than a tenth of what was seen.
const fewMoments = 10

// NumberLine says where the probability of one branch comes from.
type NumberLine struct {
	Way         string // option and branches that lead to it
	Probability string
	Basis       string // fixed, the rest, or pseudo-counts
	Seen        string // how often the cases took it
	Source      string // number in the list of sources, or that there is none
	Published   bool   // the source can be looked up
}

// evidence says on what the stated numbers rest, the gravest first; empty where
// every probability has a published source and the moments are not few.
func (v *weighing) evidence(numbers []NumberLine) []string {
	w := v.words
	var notes []string
	if v.model == nil {
		notes = append(notes, w.say("thin-no-numbers"))
	}
	bare := 0
	for _, n := range numbers {
		if !n.Published {
			bare++
		}
	}
	switch {
	case len(numbers) == 0:
	case bare == len(numbers):
		notes = append(notes, w.say("thin-all-bare", bare))
	case bare > 0:
		notes = append(notes, w.say("thin-bare", bare, len(numbers)))
	}
	switch {
	case v.seen.Met == 0:
		notes = append(notes, w.say("thin-not-met"))
	case v.seen.Met < fewMoments:
		notes = append(notes, w.say("thin-met", v.seen.Met))
	}
	if v.seen.Unplaced > 0 {
		notes = append(notes, w.say("thin-unplaced", v.seen.Unplaced))
	}
	if len(notes) > 0 && v.model != nil {
		notes = append(notes, w.say("thin-values"))
	}
	return notes
}

// numbers lists the probabilities that the tree states, in its order. What the
// other branches leave (rest) is no statement and is not counted.
func (v *weighing) numbers() []NumberLine {
	var lines []NumberLine
	for i := range v.d.Options {
		o := &v.d.Options[i]
		lines = append(lines, v.numbersBelow(&o.Then, letter(i))...)
	}
	return lines
}

func (v *weighing) numbersBelow(n *content.Node, way string) []NumberLine {
	var lines []NumberLine
	for i := range n.Chance {
		b := &n.Chance[i]
		to := way + " › " + b.Text.Or(b.ID.Value)
		if p, fixed := b.P.Get(); !fixed || !p.Rest {
			lines = append(lines, v.numberLine(b, n.Chance, to))
		}
		lines = append(lines, v.numbersBelow(&b.Then, to)...)
	}
	if n.Decide != nil {
		for i := range n.Decide.Options {
			o := &n.Decide.Options[i]
			lines = append(lines, v.numbersBelow(&o.Then, way+" › "+o.Text.Or(o.ID.Value))...)
		}
	}
	return lines
}

// numberLine says what one branch rests on. The seen counts are those of the
// moments that name the branch or one below it.
func (v *weighing) numberLine(b *content.Branch, siblings []content.Branch, way string) NumberLine {
	w := v.words
	line := NumberLine{Way: way, Basis: w.say("basis-cases"), Source: w.say("no-source")}
	seen, all, prior := v.seenBelow(b), 0, 0.0
	for i := range siblings {
		all += v.seenBelow(&siblings[i])
		prior += siblings[i].Prior.Or(1)
	}
	own := b.Prior.Or(1)
	line.Probability = fmt.Sprintf("%.2f", (own+float64(seen))/(prior+float64(all)))
	if b.Prior.Known() {
		line.Basis = w.say("basis-prior", tidy(own), tidy(prior))
	}
	if p, fixed := b.P.Get(); fixed {
		line.Basis, line.Probability = w.say("basis-fixed"), tidy(p.Value)
	}
	line.Seen = w.say("seen-of", seen, all)
	if all == 0 {
		line.Seen = w.say("seen-never")
	}
	if n, ok := b.Source.Get(); ok && n >= 1 && n <= len(v.d.Sources) {
		r := v.d.Sources[n-1]
		line.Published = r.DOI.Known() || r.URL.Known()
		line.Source = w.say("source-n", n)
		if !line.Published {
			line.Source = w.say("source-n-bare", n)
		}
	}
	return line
}

// seenBelow counts the moments whose branch is b or lies below it.
func (v *weighing) seenBelow(b *content.Branch) int {
	ids := branchIDs(b)
	total := 0
	for _, followed := range v.seen.Followed {
		for id, n := range followed {
			if slices.Contains(ids, id) {
				total += n
			}
		}
	}
	return total
}

// branchIDs lists the ids of a branch and of all branches below it.
func branchIDs(b *content.Branch) []string {
	return append([]string{b.ID.Value}, branchIDsBelow(&b.Then)...)
}

func branchIDsBelow(n *content.Node) []string {
	var ids []string
	for i := range n.Chance {
		ids = append(ids, branchIDs(&n.Chance[i])...)
	}
	if n.Decide != nil {
		for i := range n.Decide.Options {
			ids = append(ids, branchIDsBelow(&n.Decide.Options[i].Then)...)
		}
	}
	return ids
}
