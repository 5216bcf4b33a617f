package builder

import (
	"slices"
	"strings"

	"caseleaf/content"
	"caseleaf/content/term"
)

// StepPage is what pages/step.tmpl lays out: the watch page of a step.
type StepPage struct {
	Heading
	Names     string // other names, joined
	Counts    string // in how many cases, with the words that it is no rate
	Watch     []WatchLine
	Ready     []string // what to have ready, as the watch table says it
	Kit       []Link   // the vocabulary's tools of this step
	Decisions []DecisionLine
	Durations DurationTable
	Visits    []Visit
	Evening   Link // the step on one sheet
}

// Visit is one time a case does the step.
type Visit struct {
	Case   Link
	Moment Link
	Lasted string
}

// StepsPage is what pages/steps.tmpl lays out.
type StepsPage struct {
	Heading
	Groups []StepGroup
}

// StepGroup is the steps of one procedure in their usual order.
type StepGroup struct {
	Name  Link
	Steps []StepLine
}

// StepLine is one step with its counts.
type StepLine struct {
	Step  Link
	Watch int // rows of the watch table
	Began int // events in the cases that began here
	Cases int
}

// planSteps makes a watch page for every step the bank says something about,
// and the list of them.
func planSteps(s *Site) []Page {
	m := s.met
	var pages []Page
	var headings []*Heading
	for _, t := range m.pages(term.Step) {
		p := s.stepPage(m, t)
		pages = append(pages, Page{Path: stepPath(t.ID), Template: "step", Data: p})
		headings = append(headings, &p.Heading)
	}
	turn(pages, headings)
	return append(pages, s.stepsIndex(m))
}

func (s *Site) stepPage(m *met, t term.Term) *StepPage {
	w := s.words()
	h := s.headingBelow(stepsPage, t.Label)
	h.Kicker, h.Summary, h.Protocol = w.say("step-kicker"), t.Definition, true
	p := &StepPage{Heading: h, Names: otherNames(t)}
	visits := m.steps[t.ID]
	p.Counts = w.say("step-counts", len(casesOf(visits)), len(s.Bank.Cases), len(m.onsets[t.ID]))
	p.Evening = Link{Text: w.say("evening-link"), Path: eveningPath(t.ID)}
	p.Watch = s.watchLines(m, t.ID)
	p.Ready = readyFor(p.Watch)
	p.Kit = s.kitOf(m, t.ID)
	p.Decisions = s.decisionsIn(m, t.ID)
	p.Durations = s.durationsByTechnique(m, visits)
	for _, at := range visits {
		v := Visit{Case: caseLink(at.Case), Moment: s.momentLink(at), Lasted: w.lasted(at.Span)}
		v.Moment.Text = v.Moment.Note
		p.Visits = append(p.Visits, v)
	}
	return p
}

// otherNames joins the abbreviation and synonyms of a term.
func otherNames(t term.Term) string {
	names := slices.Clone(t.Synonyms)
	if t.Abbreviation != "" && !slices.Contains(names, t.Abbreviation) {
		names = append([]string{t.Abbreviation}, names...)
	}
	return strings.Join(names, ", ")
}

// watchLines is the watch table of a step, followed by complications that the
// table does not have and the cases met here all the same. What the cases met
// stands first.
func (s *Site) watchLines(m *met, step string) []WatchLine {
	var lines []WatchLine
	var listed []string
	for _, row := range s.Bank.WatchFor(step) {
		lines = append(lines, s.watchLine(m, row))
		listed = append(listed, row.Complication)
	}
	for _, at := range slices.Concat(m.onsets[step], m.noticed[step]) {
		id := at.Entry.Event.Term.Value
		if !slices.Contains(listed, id) {
			lines = append(lines, s.watchLine(m, term.WatchRow{Step: step, Complication: id}))
			listed = append(listed, id)
		}
	}
	slices.SortStableFunc(lines, func(a, b WatchLine) int { return len(b.Quotes) - len(a.Quotes) })
	return lines
}

// readyFor gathers what the rows ask to have ready, each once.
func readyFor(lines []WatchLine) []string {
	var list []string
	for _, l := range lines {
		if l.Ready != "" && !slices.Contains(list, l.Ready) {
			list = append(list, l.Ready)
		}
	}
	return list
}

// kitOf lists what the vocabulary says is used in a step, and what the shared
// decisions met there want ready.
func (s *Site) kitOf(m *met, step string) []Link {
	var ids []string
	for _, t := range s.Bank.Vocabulary.Of(term.Instrument, term.Device, term.Material, term.Drug) {
		if slices.Contains(t.Steps, step) && !t.Bench {
			ids = append(ids, t.ID)
		}
	}
	for _, d := range s.Bank.Decisions {
		if !names(d.Steps, step) {
			continue
		}
		for _, r := range d.Ready {
			if r.Known() && !slices.Contains(ids, r.Value) {
				ids = append(ids, r.Value)
			}
		}
	}
	var list []Link
	for _, id := range ids {
		list = append(list, m.link(id))
	}
	return list
}

func (s *Site) decisionsIn(m *met, step string) []DecisionLine {
	lines := s.decisionLines(
		func(d *content.Decision) bool { return names(d.Steps, step) },
		func(id string) []meeting {
			var here []meeting
			for _, at := range m.inStep[step] {
				if at.Entry.Decision.Point.Or("") == id {
					here = append(here, at)
				}
			}
			return here
		})
	return append(lines, s.aloneLines(m.inStep[step])...)
}

// stepsIndex lists the steps of each procedure in their usual order; a step of
// no procedure's order stands in a group of its own at the end.
func (s *Site) stepsIndex(m *met) Page {
	w := s.words()
	p := &StepsPage{Heading: s.heading(stepsPage, w.say("steps"))}
	p.Summary = w.say("steps-summary")
	placed := map[string]bool{}
	for _, t := range s.Bank.Vocabulary.Of(term.Procedure) {
		if of, ok := s.Bank.Vocabulary.ProcedureOf(t.ID); !ok || of != t.ID {
			continue
		}
		ids := append(s.Bank.Vocabulary.Sequence(t.ID), s.Bank.Vocabulary.Rescue(t.ID)...)
		if g := s.stepGroup(m, m.link(t.ID), ids, placed); len(g.Steps) > 0 {
			p.Groups = append(p.Groups, g)
		}
	}
	var rest []string
	for _, t := range s.Bank.Vocabulary.Of(term.Step) {
		if !placed[t.ID] {
			rest = append(rest, t.ID)
		}
	}
	if g := s.stepGroup(m, Link{Text: w.say("other-steps")}, rest, placed); len(g.Steps) > 0 {
		p.Groups = append(p.Groups, g)
	}
	return Page{Path: stepsPage, Template: "steps", Data: p}
}

func (s *Site) stepGroup(m *met, name Link, ids []string, placed map[string]bool) StepGroup {
	g := StepGroup{Name: name}
	for _, id := range ids {
		if !m.hasPage(id) {
			continue
		}
		placed[id] = true
		g.Steps = append(g.Steps, StepLine{
			Step: m.link(id), Watch: len(s.Bank.WatchFor(id)),
			Began: len(m.onsets[id]), Cases: len(casesOf(m.steps[id])),
		})
	}
	return g
}
