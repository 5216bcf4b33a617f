package builder

import (
	"caseleaf/content"
	"caseleaf/content/term"
)

// CaseGroup is one way of sorting the cases, and of narrowing their list.
type CaseGroup struct {
	ID, Title string
	Name      string // of the filter in the address, such as step
	Label     string // of the filter
	Sets      []CaseSet
}

// CaseSet is the cases that share one thing.
type CaseSet struct {
	Name  Link
	Value string // of the thing in the address: its id
	Key   string // of the set among those of the page; see CaseLine.In
	Cases []Link // the first of them
	More  *Link  // to the page that lists all, where there are more
	all   []*content.Case
}

// mostInSet is how many cases a set names before it leaves the rest to the page
// of the thing itself. A page of a thousand cases would else list each of them
// twenty times.
const mostInSet = 12

// caseGroups sorts the cases in every way that there is.
func (s *Site) caseGroups(m *met) []CaseGroup {
	w := s.words()
	groups := []CaseGroup{
		{"by-step", w.say("by-step"), "step", w.say("filter-step"), m.sets(m.stepCases(), term.Step)},
		{"by-complication", w.say("by-complication"), "complication", w.say("filter-event"), m.sets(m.complicationCases(), term.Complication)},
		{"by-technique", w.say("by-technique"), "technique", w.say("filter-way"), m.sets(m.techniques, term.Procedure, term.Technique)},
		{"by-decision", w.say("by-decision"), "decision", w.say("filter-choice"), s.setsByDecision(m)},
		{"by-risk", w.say("by-risk"), "risk", w.say("filter-risk"), m.sets(m.risks, term.RiskFactor)},
		{"by-surgeon", w.say("by-surgeon"), "surgeon", w.say("filter-surgeon"), s.setsBySurgeon()},
	}
	key := 0
	for _, g := range groups {
		for i := range g.Sets {
			set := &g.Sets[i]
			set.Key = setKey(key)
			key++
			set.Cases = caseLinks(set.all[:min(len(set.all), mostInSet)])
			if more := len(set.all) - mostInSet; more > 0 {
				set.More = &Link{Text: w.say("set-more", more), Path: set.Name.Path}
			}
		}
	}
	return groups
}

// setKey writes a number in small consonants: a row of figures could be taken
// for somebody's number, and so stop a build.
func setKey(n int) string {
	const letters = "bcdfghjklmnpqtvwxz"
	key := letters[n%len(letters) : n%len(letters)+1]
	if n /= len(letters); n > 0 {
		return setKey(n-1) + key
	}
	return key
}

// stepCases is the cases that do each step.
func (m *met) stepCases() map[string][]*content.Case {
	all := map[string][]*content.Case{}
	for id, list := range m.steps {
		all[id] = inOrder(list)
	}
	return all
}

// complicationCases is the cases of every complication, met during the
// operation or after it.
func (m *met) complicationCases() map[string][]*content.Case {
	all := map[string][]*content.Case{}
	for _, c := range m.bank.Cases {
		for _, t := range topicsOf(c) {
			if m.bank.Term(t.id).Kind == term.Complication && !t.decision {
				all[t.id] = append(all[t.id], c)
			}
		}
	}
	return all
}

// inOrder lists the cases of meetings, which are in the order of cases, each
// once.
func inOrder(list []meeting) []*content.Case {
	var cases []*content.Case
	for _, at := range list {
		if n := len(cases); n == 0 || cases[n-1] != at.Case {
			cases = append(cases, at.Case)
		}
	}
	return cases
}

// sets lists cases by term, in vocabulary order.
func (m *met) sets(cases map[string][]*content.Case, kinds ...term.Kind) []CaseSet {
	var sets []CaseSet
	for _, t := range m.bank.Vocabulary.Of(kinds...) {
		if list := cases[t.ID]; len(list) > 0 {
			set := CaseSet{Name: m.link(t.ID), Value: t.ID, all: list}
			if t.Kind == term.RiskFactor {
				set.Name.Path = riskPath(m.bank, t.ID)
			}
			sets = append(sets, set)
		}
	}
	return sets
}

func (s *Site) setsByDecision(m *met) []CaseSet {
	var sets []CaseSet
	for _, d := range s.Bank.Decisions {
		if list := inOrder(m.decisions[d.ID.Value]); len(list) > 0 {
			sets = append(sets, CaseSet{Name: decisionLink(d), Value: d.ID.Value, all: list})
		}
	}
	return sets
}

func (s *Site) setsBySurgeon() []CaseSet {
	var sets []CaseSet
	for _, g := range content.Grades() {
		var list []*content.Case
		for _, c := range s.Bank.Cases {
			if c.Surgeon.Known() && c.Surgeon.Value == g {
				list = append(list, c)
			}
		}
		if len(list) > 0 {
			sets = append(sets, CaseSet{Name: Link{Text: s.words().grade(g), Path: surgeonPath(s.Bank, g)}, Value: string(g), all: list})
		}
	}
	return sets
}
