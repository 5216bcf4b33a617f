package builder

import (
	"slices"

	"caseleaf/content"
	"caseleaf/content/term"
)

// termHasPage reports whether a term has a page of its own beside its entry in
// the glossary: a step or complication that the watch table, a case, a shared
// decision or the logbook speaks of, and a technique that was used.
func termHasPage(b *content.Bank, id string) bool {
	t, ok := b.Vocabulary.Get(id)
	if !ok {
		return false
	}
	switch t.Kind {
	case term.Step:
		return len(b.WatchFor(id)) > 0 || stepUsed(b, id)
	case term.Complication:
		return len(b.WatchOf(id)) > 0 || complicationUsed(b, id)
	case term.Technique, term.Procedure:
		return techniqueUsed(b, id)
	}
	return false
}

func stepUsed(b *content.Bank, id string) bool {
	return slices.ContainsFunc(b.Decisions, func(d *content.Decision) bool { return names(d.Steps, id) }) ||
		inTimelines(b, func(e *content.Entry) bool {
			return e.Step != nil && e.Step.Term.Value == id || e.Event != nil && e.Event.During.Or("") == id
		})
}

func complicationUsed(b *content.Bank, id string) bool {
	return slices.ContainsFunc(b.Decisions, func(d *content.Decision) bool { return names(d.Complications, id) }) ||
		slices.ContainsFunc(b.Cases, func(c *content.Case) bool { return names(c.Outcome.Later, id) }) ||
		inTimelines(b, func(e *content.Entry) bool { return e.Event != nil && e.Event.Term.Value == id }) ||
		inLogbook(b, func(o content.Operation) bool { return slices.Contains(o.Complications, id) })
}

func techniqueUsed(b *content.Bank, id string) bool {
	return slices.ContainsFunc(b.Cases, func(c *content.Case) bool { return c.Technique.Or("") == id }) ||
		inTimelines(b, func(e *content.Entry) bool { return e.Step != nil && e.Step.Technique.Or("") == id }) ||
		inLogbook(b, func(o content.Operation) bool { return o.Technique == id })
}

func inTimelines(b *content.Bank, is func(*content.Entry) bool) bool {
	for _, c := range b.Cases {
		for i := range c.Timeline.Entries {
			if is(&c.Timeline.Entries[i]) {
				return true
			}
		}
	}
	return false
}

func inLogbook(b *content.Bank, is func(content.Operation) bool) bool {
	for o := range b.Logbook.All() {
		if is(o) {
			return true
		}
	}
	return false
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
