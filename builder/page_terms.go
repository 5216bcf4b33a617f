package builder

import (
	"slices"

	"caseleaf/content"
	"caseleaf/content/term"
)

// pagedTerms are the terms that have a page of their own beside their entry in
// the glossary: a step or complication that the watch table, a case, a shared
// decision or the logbook speaks of, and a technique that was used.
func pagedTerms(bank *content.Bank) map[string]bool {
	used := newUsedTerms(bank)
	paged := map[string]bool{}
	for _, t := range bank.Vocabulary.All() {
		switch t.Kind {
		case term.Step:
			paged[t.ID] = used.steps[t.ID] || len(bank.WatchFor(t.ID)) > 0
		case term.Complication:
			paged[t.ID] = used.complications[t.ID] || len(bank.WatchOf(t.ID)) > 0
		case term.Technique, term.Procedure:
			paged[t.ID] = used.techniques[t.ID]
		}
	}
	return paged
}

// usedTerms is what a bank's parts speak of.
type usedTerms struct{ steps, complications, techniques map[string]bool }

func newUsedTerms(bank *content.Bank) usedTerms {
	u := usedTerms{map[string]bool{}, map[string]bool{}, map[string]bool{}}
	for _, c := range bank.Cases {
		u.addCase(c)
	}
	for _, d := range bank.Decisions {
		mark(u.steps, d.Steps...)
		mark(u.complications, d.Complications...)
	}
	for o := range bank.Logbook.All() {
		u.techniques[o.Technique] = true
		for _, id := range o.Complications {
			u.complications[id] = true
		}
	}
	return u
}

func (u usedTerms) addCase(c *content.Case) {
	mark(u.techniques, c.Technique)
	mark(u.complications, c.Outcome.Later...)
	for i := range c.Timeline.Entries {
		switch e := &c.Timeline.Entries[i]; {
		case e.Step != nil:
			u.steps[e.Step.Term.Value] = true
			mark(u.techniques, e.Step.Technique)
		case e.Event != nil:
			u.complications[e.Event.Term.Value] = true
			mark(u.steps, e.Event.During)
		}
	}
}

// mark notes the ids that are known.
func mark(in map[string]bool, ids ...content.Given[string]) {
	for _, id := range ids {
		if id.Known() {
			in[id.Value] = true
		}
	}
}

// names reports whether a list names an id.
func names(list []content.Given[string], id string) bool {
	return slices.ContainsFunc(list, func(g content.Given[string]) bool { return g.Known() && g.Value == id })
}

// termPath is the path of a term: its own page, else its entry in the
// glossary.
func (s *Site) termPath(id string) string {
	t, ok := s.Bank.Vocabulary.Get(id)
	if !ok {
		return glossaryPage
	}
	return pathOfTerm(t, s.met.hasPage(id))
}

func pathOfTerm(t term.Term, page bool) string {
	if page {
		switch t.Kind {
		case term.Step:
			return stepPath(t.ID)
		case term.Complication:
			return complicationPath(t.ID)
		case term.Technique, term.Procedure:
			return techniquePath(t.ID)
		}
	}
	return glossaryPath(t.ID)
}
