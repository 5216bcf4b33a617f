package builder

import (
	"cmp"
	"errors"
	"maps"
	"slices"

	"caseleaf/builder/pack"
)

// sincePage says what changed since an earlier edition.
const sincePage = "since.html"

// Errors of an earlier edition that this one can't be compared with.
var (
	// ErrNoRecord: its manifest does not say what it said.
	ErrNoRecord = errors.New("the earlier edition has no record of what it said; build it again with this caseleaf to compare with it")
	// ErrOtherPart: one is of a course and the other is not, or of another.
	ErrOtherPart = errors.New("the earlier edition does not cover the same part of the bank; compare a course with the same course, and the whole with the whole")
)

// checkSince refuses an earlier edition that can't be compared with.
func checkSince(options Options) error {
	switch old := options.Since; {
	case old == nil:
		return nil
	case old.Record == nil:
		return ErrNoRecord
	case old.Course != options.Course:
		return ErrOtherPart
	}
	return nil
}

// SincePage is what pages/since.tmpl lays out: this edition held against an
// earlier one.
type SincePage struct {
	Heading
	Cases     Changes
	Decisions Changes
	Figures   []FigureMove
	Nothing   string // said when nothing changed
}

// Changes is what became of the cases, or of the decisions.
type Changes struct {
	Added     []Link
	Changed   []ChangedLine
	Withdrawn []string // ids alone: a title may be what had to go
}

// Any reports whether anything changed.
func (c Changes) Any() bool { return len(c.Added)+len(c.Changed)+len(c.Withdrawn) > 0 }

// ChangedLine is one that is in both editions and differs.
type ChangedLine struct {
	Link  Link
	Parts string // the parts that differ
}

// FigureMove is a line of the table of rates that is not what it was; "" where an
// edition has none.
type FigureMove struct {
	Complication, Technique Link
	Before, Now             string // events/operations
}

// planSince makes the page when there is an earlier edition to compare with. It
// comes after all pages whose narratives are compared.
func planSince(s *Site) []Page {
	if s.Options.Since == nil {
		return nil
	}
	w, old, now := s.words(), s.Options.Since, s.record()
	p := &SincePage{Heading: s.heading(sincePage, w.say("since"))}
	p.Summary = w.say("since-summary", cmp.Or(old.Edition, w.say("since-unnamed")), old.Title)
	p.Cases = s.changes(old.Record.Cases, now.Cases, caseParts, func(id string) Link {
		c, _ := s.Bank.Case(id)
		return caseLink(c)
	})
	p.Decisions = s.changes(old.Record.Decisions, now.Decisions, decisionParts, func(id string) Link {
		d, _ := s.Bank.Decision(id)
		return Link{Text: d.Title.Or(id), Path: decisionPath(id)}
	})
	p.Figures = s.figureMoves(old.Record.Rates, now.Rates)
	if !p.Cases.Any() && !p.Decisions.Any() && len(p.Figures) == 0 {
		p.Nothing = w.say("since-nothing")
	}
	return []Page{{Path: sincePage, Template: "since", Data: p}}
}

// changes compares two lists of pieces; link leads to one of this edition.
func (s *Site) changes(old, now []pack.Piece, parts []string, link func(id string) Link) Changes {
	var c Changes
	before := byID(old)
	for _, piece := range now {
		was, there := before[piece.ID]
		if !there {
			c.Added = append(c.Added, link(piece.ID))
			continue
		}
		if differ := s.differing(was, piece.Parts, parts); differ != "" {
			c.Changed = append(c.Changed, ChangedLine{link(piece.ID), differ})
		}
	}
	after := byID(now)
	for _, piece := range old {
		if _, there := after[piece.ID]; !there {
			c.Withdrawn = append(c.Withdrawn, piece.ID)
		}
	}
	return c
}

func byID(list []pack.Piece) map[string]map[string]string {
	m := map[string]map[string]string{}
	for _, p := range list {
		m[p.ID] = p.Parts
	}
	return m
}

// differing names the parts that two editions of a piece don't have alike; parts
// that only another caseleaf knows are passed over.
func (s *Site) differing(was, now map[string]string, parts []string) string {
	var names []string
	for _, part := range parts {
		if was[part] != now[part] {
			names = append(names, s.words().say("part-"+part))
		}
	}
	return s.words().list(names)
}

// rateKey is what a line of the table of rates is of; both empty for all
// operations.
type rateKey struct{ complication, technique string }

// figureMoves lists the lines of the table of rates that are not what they were,
// in this edition's order and then those that are gone.
func (s *Site) figureMoves(old, now []pack.Rate) []FigureMove {
	var moves []FigureMove
	before, after := s.printedRates(old), s.printedRates(now)
	var gone []rateKey
	for key := range maps.Keys(before) {
		if _, there := after[key]; !there {
			gone = append(gone, key)
		}
	}
	slices.SortFunc(gone, func(a, b rateKey) int {
		return cmp.Or(cmp.Compare(a.complication, b.complication), cmp.Compare(a.technique, b.technique))
	})
	var keys []rateKey
	for _, r := range now {
		keys = append(keys, rateKey{r.Complication, r.Technique})
	}
	for _, key := range append(keys, gone...) {
		if before[key] == after[key] {
			continue
		}
		m := FigureMove{Before: before[key], Now: after[key]}
		if key != (rateKey{}) {
			m.Complication, m.Technique = s.met.link(key.complication), s.met.link(key.technique)
		} else {
			m.Complication = Link{Text: s.words().say("since-operations")}
		}
		moves = append(moves, m)
	}
	return moves
}

// printedRates are lines of the table of rates as the page prints them.
func (s *Site) printedRates(list []pack.Rate) map[rateKey]string {
	m := map[rateKey]string{}
	for _, r := range list {
		text := s.printedCount(r.Operations)
		if r.Complication != "" {
			text = s.printedCount(r.Events) + "/" + text
		}
		m[rateKey{r.Complication, r.Technique}] = text
	}
	return m
}

// printedCount is a recorded count in the words of the interface.
func (s *Site) printedCount(count string) string {
	if count == "withheld" {
		return s.words().say("count-withheld")
	}
	return count
}
