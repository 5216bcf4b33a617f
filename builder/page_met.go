package builder

import (
	"cmp"
	"slices"

	"caseleaf/content"
	"caseleaf/content/measure"
	"caseleaf/content/term"
)

// meeting is one entry of one case's timeline, met from outside the case.
type meeting struct {
	Case   *content.Case
	Entry  *content.Entry
	ID     string           // of the entry's row in the case page
	During string           // step under way when it began; "" when that is not known
	Span   content.StepSpan // of a step entry
	// After is the event that a decision answers: the last one before it in its
	// case; nil when none came before.
	After *content.Event
}

// Path leads to the entry on its case's page.
func (m meeting) Path() string { return casePath(m.Case.ID.Value) + "#" + m.ID }

// at is the entry's time, or words saying that it is not known.
func (m meeting) at(w *words) string { return w.time(m.Entry.At) }

// met says where the cases of a bank meet each term: the one index that all
// pages but the case pages are planned from. Every list is in the order of
// cases, then of their timelines.
type met struct {
	bank       *content.Bank
	steps      map[string][]meeting // step entries, by step
	events     map[string][]meeting // events, by complication
	onsets     map[string][]meeting // events, by the step in which they began
	noticed    map[string][]meeting // events that began in no known step, by the step in which they were noticed
	decisions  map[string][]meeting // by shared decision
	alone      []meeting            // decisions that belong to no shared one
	inStep     map[string][]meeting // decisions, by step
	afterEvent map[string][]meeting // decisions, by the complication they answer
	later      map[string][]*content.Case
	techniques map[string][]*content.Case
	risks      map[string][]*content.Case
	paged      map[string]bool // see pagedTerms
	scope      scope           // terms that may have a page; nil for all
}

// newTerms knows which terms have a page, which is all that links ask.
func newTerms(bank *content.Bank, used usedTerms) *met {
	return &met{bank: bank, paged: pagedTerms(bank, used)}
}

// newMet is newTerms with its index.
func newMet(bank *content.Bank) *met {
	m := newTerms(bank, usedInCases(bank, newTopics(bank, nil), nil).withOthers(bank))
	m.index()
	return m
}

// index reads every case once.
func (m *met) index() {
	m.steps, m.events = map[string][]meeting{}, map[string][]meeting{}
	m.onsets, m.noticed = map[string][]meeting{}, map[string][]meeting{}
	m.decisions, m.inStep, m.afterEvent = map[string][]meeting{}, map[string][]meeting{}, map[string][]meeting{}
	m.later, m.techniques, m.risks = map[string][]*content.Case{}, map[string][]*content.Case{}, map[string][]*content.Case{}
	for _, c := range m.bank.Cases {
		m.addCase(c)
	}
}

func (m *met) addCase(c *content.Case) {
	addCase(m.techniques, c, c.Technique)
	for _, r := range c.Patient.Risks {
		addCase(m.risks, c, r)
	}
	for _, id := range c.Outcome.Later {
		addCase(m.later, c, id)
	}
	ids, last := anchorsOf(c).rows, (*content.Event)(nil)
	spans := map[*content.Entry]content.StepSpan{}
	for _, p := range c.Steps() {
		spans[p.Entry] = p
	}
	for i := range c.Timeline.Entries {
		e := &c.Timeline.Entries[i]
		at := meeting{Case: c, Entry: e, ID: ids[i], After: last}
		switch {
		case e.Step != nil:
			at.Span = spans[at.Entry]
			m.addStep(at)
		case e.Event != nil:
			m.addEvent(at)
			last = e.Event
		case e.Decision != nil:
			m.addDecision(at)
		}
	}
}

func addCase(to map[string][]*content.Case, c *content.Case, id content.Given[string]) {
	list := to[id.Value] // cases come one after the other, so one that is in is the last
	if id.Known() && (len(list) == 0 || list[len(list)-1] != c) {
		to[id.Value] = append(list, c)
	}
}

func (m *met) addStep(at meeting) {
	id := at.Entry.Step.Term.Value
	m.steps[id] = append(m.steps[id], at)
	addCase(m.techniques, at.Case, at.Entry.Step.Detail().Technique)
}

// addEvent files an event under the step in which it began. Where that is not
// known, or it began between steps, it is filed under the step in which it was
// noticed, apart from the others.
func (m *met) addEvent(at meeting) {
	e := at.Entry.Event
	at.During, _ = at.Case.Onset(e)
	m.events[e.Term.Value] = append(m.events[e.Term.Value], at)
	if at.During != "" {
		m.onsets[at.During] = append(m.onsets[at.During], at)
		return
	}
	if seen := stepOf(at.Case, firstKnown(e.Noticed, at.Entry.At)); seen != "" {
		m.noticed[seen] = append(m.noticed[seen], at)
	}
}

func (m *met) addDecision(at meeting) {
	at.During = stepOf(at.Case, at.Entry.At)
	if at.During != "" {
		m.inStep[at.During] = append(m.inStep[at.During], at)
	}
	if at.After != nil {
		id := at.After.Term.Value
		m.afterEvent[id] = append(m.afterEvent[id], at)
	}
	if p := at.Entry.Decision.Point; p.Known() {
		m.decisions[p.Value] = append(m.decisions[p.Value], at)
		return
	}
	m.alone = append(m.alone, at)
}

func firstKnown(list ...content.Given[measure.Time]) content.Given[measure.Time] {
	for _, t := range list {
		if t.Known() {
			return t
		}
	}
	return content.Given[measure.Time]{}
}

// hasPage reports whether a term has a page of its own; see pagedTerms.
func (m *met) hasPage(id string) bool { return m.paged[id] && m.scope.holds(id) }

// pageOf is the path of a term: its own page, else its entry in the glossary,
// else "" for an id the vocabulary does not have.
func (m *met) pageOf(id string) string {
	t, ok := m.bank.Vocabulary.Get(id)
	if !ok {
		return ""
	}
	return pathOfTerm(t, m.hasPage(id))
}

// link leads to a term's page.
func (m *met) link(id string) Link {
	return Link{Text: m.bank.Term(id).Label, Path: m.pageOf(id)}
}

// links leads to the pages of the known terms of a list.
func (m *met) links(ids []content.Given[string]) []Link {
	var list []Link
	for _, id := range ids {
		if id.Known() {
			list = append(list, m.link(id.Value))
		}
	}
	return list
}

// pages lists the terms of some kinds that have a page, in vocabulary order.
func (m *met) pages(kinds ...term.Kind) []term.Term {
	var list []term.Term
	for _, t := range m.bank.Vocabulary.Of(kinds...) {
		if m.hasPage(t.ID) {
			list = append(list, t)
		}
	}
	return list
}

// casesOf lists the cases of meetings, each once, in order.
func casesOf(meetings ...[]meeting) []*content.Case {
	var cases []*content.Case
	listed := map[*content.Case]bool{}
	for _, list := range meetings {
		for _, at := range list {
			if !listed[at.Case] {
				listed[at.Case] = true
				cases = append(cases, at.Case)
			}
		}
	}
	slices.SortStableFunc(cases, func(a, b *content.Case) int { return cmp.Compare(a.ID.Value, b.ID.Value) })
	return cases
}
