package builder

import (
	"maps"
	"slices"

	"caseleaf/content"
	"caseleaf/content/term"
)

// pagedTerms are the terms that have a page of their own beside their entry in
// the glossary: a step or complication that the watch table, a case, a shared
// decision or the logbook speaks of, and a technique that was used.
func pagedTerms(bank *content.Bank, used usedTerms) map[string]bool {
	paged := map[string]bool{}
	for _, t := range bank.Vocabulary.All() {
		switch t.Kind {
		case term.Step:
			paged[t.ID] = used.steps[t.ID] > 0 || len(bank.WatchFor(t.ID)) > 0
		case term.Complication:
			paged[t.ID] = used.complications[t.ID] > 0 || len(bank.WatchOf(t.ID)) > 0
		case term.Technique, term.Procedure:
			paged[t.ID] = used.techniques[t.ID] > 0
		}
	}
	return paged
}

// usedTerms says how often a bank's parts speak of each term.
type usedTerms struct{ steps, complications, techniques map[string]int }

// usedInCases counts what the cases speak of. The last site of the same bank, or
// nil, has counted those that are still the same.
func usedInCases(bank *content.Bank, now *topics, last *Site) usedTerms {
	u := usedTerms{map[string]int{}, map[string]int{}, map[string]int{}}
	before := map[*content.Case]int{}
	if last != nil {
		before = last.topics.place
		u = usedTerms{maps.Clone(last.used.steps), maps.Clone(last.used.complications), maps.Clone(last.used.techniques)}
	}
	for c := range before {
		if _, still := now.place[c]; !still {
			u.addCase(c, -1)
		}
	}
	for _, c := range bank.Cases {
		if _, counted := before[c]; !counted {
			u.addCase(c, 1)
		}
	}
	return u
}

// withOthers adds what a bank's other parts speak of.
func (u usedTerms) withOthers(bank *content.Bank) usedTerms {
	u = usedTerms{maps.Clone(u.steps), maps.Clone(u.complications), maps.Clone(u.techniques)}
	for _, d := range bank.Decisions {
		mark(u.steps, 1, d.Steps...)
		mark(u.complications, 1, d.Complications...)
	}
	for o := range bank.Logbook.All() {
		u.techniques[o.Technique]++
		for _, id := range o.Complications {
			u.complications[id]++
		}
	}
	return u
}

// addCase counts what a case speaks of n times.
func (u usedTerms) addCase(c *content.Case, n int) {
	mark(u.techniques, n, c.Technique)
	mark(u.complications, n, c.Outcome.Later...)
	for i := range c.Timeline.Entries {
		switch e := &c.Timeline.Entries[i]; {
		case e.Step != nil:
			u.steps[e.Step.Term.Value] += n
			mark(u.techniques, n, e.Step.Detail().Technique)
		case e.Event != nil:
			u.complications[e.Event.Term.Value] += n
			mark(u.steps, n, e.Event.During)
		}
	}
}

// mark counts the ids that are known n times.
func mark(in map[string]int, n int, ids ...content.Given[string]) {
	for _, id := range ids {
		if id.Known() {
			in[id.Value] += n
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
