package builder

import (
	"slices"

	"caseleaf/content"
	"caseleaf/content/term"
)

// pagedTerms are the terms that have a page of their own beside their entry in
// the glossary: a step or complication that the watch table, a case, a shared
// decision or the logbook speaks of, and a technique that was used.
func (m *met) pagedTerms() map[string]bool {
	used := m.usedTerms()
	paged := map[string]bool{}
	for _, t := range m.bank.Vocabulary.All() {
		switch t.Kind {
		case term.Step:
			paged[t.ID] = used.steps[t.ID] || len(m.bank.WatchFor(t.ID)) > 0
		case term.Complication:
			paged[t.ID] = used.complications[t.ID] || len(m.bank.WatchOf(t.ID)) > 0
		case term.Technique, term.Procedure:
			paged[t.ID] = used.techniques[t.ID]
		}
	}
	return paged
}

// usedTerms is what a bank's parts speak of.
type usedTerms struct{ steps, complications, techniques map[string]bool }

func (m *met) usedTerms() usedTerms {
	u := usedTerms{map[string]bool{}, map[string]bool{}, map[string]bool{}}
	mark(u.steps, m.steps)
	mark(u.complications, m.events)
	mark(u.complications, m.later)
	mark(u.techniques, m.techniques)
	for _, list := range m.events {
		for _, at := range list {
			u.steps[at.Entry.Event.During.Or("")] = true
		}
	}
	for _, d := range m.bank.Decisions {
		for _, id := range d.Steps {
			u.steps[id.Or("")] = true
		}
		for _, id := range d.Complications {
			u.complications[id.Or("")] = true
		}
	}
	for o := range m.bank.Logbook.All() {
		u.techniques[o.Technique] = true
		for _, id := range o.Complications {
			u.complications[id] = true
		}
	}
	return u
}

// mark notes the keys of an index.
func mark[T any](in map[string]bool, index map[string]T) {
	for id := range index {
		in[id] = true
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
