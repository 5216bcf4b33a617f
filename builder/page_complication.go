package builder

import (
	"cmp"
	"slices"

	"caseleaf/content"
	"caseleaf/content/term"
)

// ComplicationPage is what pages/complication.tmpl lays out.
type ComplicationPage struct {
	Heading
	Names     string
	Broader   *Link
	Narrower  []Link
	Counts    string
	Watch     []WatchLine // by step
	Onsets    []OnsetRow
	Delays    []DurationRow // began to noticed, noticed to acted
	DelaysOf  int           // events in all
	Choices   []ChoiceTable
	Decisions []DecisionLine
	Events    []EventLine
	Later     []Link    // cases that met it after the operation
	HowOften  *HowOften // nil where the logbook has none
	Followed  *Link     // to what followed where it came first
}

// OnsetRow counts the events that began in one step.
type OnsetRow struct {
	Step  Link
	Count int
}

// ChoiceTable says what was chosen at one question.
type ChoiceTable struct {
	Question string
	Decision *Link
	Rows     []ChoiceRow
	N        int
}

// ChoiceRow counts the cases that chose one option.
type ChoiceRow struct {
	Option  string
	Count   int
	Moments []Link
}

// EventLine is one event of one case.
type EventLine struct {
	Case   Link
	Moment Link
	During *Link
	Sign   string
	Action string
}

// ComplicationsPage is what pages/complications.tmpl lays out.
type ComplicationsPage struct {
	Heading
	Groups []ComplicationGroup
}

// ComplicationGroup is the complications whose names begin with one letter.
type ComplicationGroup struct {
	Letter string
	Lines  []ComplicationLine
}

// ComplicationLine is one complication with its counts.
type ComplicationLine struct {
	Complication Link
	Names        string
	Events       int
	Cases        int
	Later        int // cases that met it after the operation
}

// planComplications makes a page for every complication the bank says
// something about, and the list of them.
func planComplications(s *Site) []Page {
	m := s.met
	terms := m.pages(term.Complication)
	slices.SortStableFunc(terms, func(a, b term.Term) int { return cmp.Compare(sortKey(a.Label), sortKey(b.Label)) })
	var pages []Page
	var headings []*Heading
	for _, t := range terms {
		p := s.complicationPage(m, t)
		pages = append(pages, Page{Path: complicationPath(t.ID), Template: "complication", Data: p})
		headings = append(headings, &p.Heading)
	}
	turn(pages, headings)
	return append(pages, s.complicationsIndex(m, terms))
}

func (s *Site) complicationPage(m *met, t term.Term) *ComplicationPage {
	w := s.words()
	h := s.headingBelow(complicationsPage, t.Label)
	h.Kicker, h.Summary, h.Protocol = w.say("complication-kicker"), t.Definition, true
	p := &ComplicationPage{Heading: h, Names: otherNames(t)}
	p.Broader, p.Narrower = m.family(t)
	events := m.events[t.ID]
	cases := casesOf(events)
	p.Counts = w.say("complication-counts", len(events), len(cases), len(s.Bank.Cases))
	for _, row := range s.Bank.WatchOf(t.ID) {
		p.Watch = append(p.Watch, s.watchLine(m, row))
	}
	p.Onsets = s.onsets(m, events)
	p.DelaysOf = len(events)
	p.Delays = s.delayRows(events)
	p.Choices = s.choices(m.afterEvent[t.ID])
	p.Decisions = s.decisionLines(
		func(d *content.Decision) bool { return names(d.Complications, t.ID) },
		func(id string) []meeting { return nil })
	for _, at := range events {
		p.Events = append(p.Events, s.eventLine(m, at))
	}
	p.Later = caseLinks(m.later[t.ID])
	p.Followed = s.chainLink(t.ID)
	p.HowOften = s.rates().ofComplication(t.ID)
	return p
}

// family is the broader term of a term and the narrower ones.
func (m *met) family(t term.Term) (broader *Link, narrower []Link) {
	if parent, ok := m.bank.Vocabulary.Get(t.Parent); ok {
		link := m.link(parent.ID)
		broader = &link
	}
	for _, other := range m.bank.Vocabulary.Of(t.Kind) {
		if other.Parent == t.ID {
			narrower = append(narrower, m.link(other.ID))
		}
	}
	return broader, narrower
}

// onsets counts events by the step in which they began, in vocabulary order,
// and those of which that is not known last.
func (s *Site) onsets(m *met, events []meeting) []OnsetRow {
	counts := map[string]int{}
	for _, at := range events {
		counts[at.During]++
	}
	var rows []OnsetRow
	for _, t := range s.Bank.Vocabulary.Of(term.Step) {
		if counts[t.ID] > 0 {
			rows = append(rows, OnsetRow{m.link(t.ID), counts[t.ID]})
		}
	}
	if counts[""] > 0 {
		rows = append(rows, OnsetRow{Link{Text: s.words().say("step-not-known")}, counts[""]})
	}
	return rows
}

// delayRows summarises the two delays over events.
func (s *Site) delayRows(events []meeting) []DurationRow {
	w := s.words()
	var rows []DurationRow
	add := func(name string, of func(meeting) delay) {
		if seconds := delaySeconds(events, of); len(seconds) > 0 {
			rows = append(rows, durationRow(Link{Text: w.say(name)}, seconds))
		}
	}
	add("began-noticed", func(at meeting) delay { return noticeDelay(at.Case, at.Entry.Event) })
	add("noticed-acted", func(at meeting) delay { return actDelay(at.Case, at.Entry.Event) })
	return rows
}

// choices counts what was chosen at decisions, those of one shared decision
// together.
func (s *Site) choices(list []meeting) []ChoiceTable {
	var tables []ChoiceTable
	place := map[string]int{}
	for _, at := range list {
		d := at.Entry.Decision
		i, seen := place[d.Point.Or("")]
		if !seen || !d.Point.Known() {
			table := ChoiceTable{Question: d.Question.Value}
			if shared, ok := s.Bank.Decision(d.Point.Or("")); ok {
				link := decisionLink(shared)
				table.Question, table.Decision = shared.Question.Value, &link
			}
			i = len(tables)
			tables = append(tables, table)
			if d.Point.Known() {
				place[d.Point.Value] = i
			}
		}
		tables[i].add(s, d, at)
	}
	return tables
}

// add counts one choice. An option is told by its id within a shared decision,
// whose words are printed where it has them.
func (t *ChoiceTable) add(s *Site, d *content.DecisionPoint, at meeting) {
	text := s.words().say("choice-missing")
	if o := d.ChosenOption(); o != nil {
		text = o.Text.Or(o.ID.Value)
		if shared, ok := s.Bank.Decision(d.Point.Or("")); ok {
			for _, own := range shared.Options {
				if own.ID.Value == o.ID.Value {
					text = own.Text.Or(text)
				}
			}
		}
	}
	t.N++
	for i := range t.Rows {
		if t.Rows[i].Option == text {
			t.Rows[i].Count++
			t.Rows[i].Moments = append(t.Rows[i].Moments, s.momentLink(at))
			return
		}
	}
	t.Rows = append(t.Rows, ChoiceRow{Option: text, Count: 1, Moments: []Link{s.momentLink(at)}})
}

func (s *Site) eventLine(m *met, at meeting) EventLine {
	e, w := at.Entry.Event, s.words()
	line := EventLine{Case: caseLink(at.Case), Moment: s.momentLink(at), Sign: w.given(e.Sign), Action: w.given(e.Action)}
	if at.During != "" {
		link := m.link(at.During)
		line.During = &link
	}
	return line
}

func (s *Site) complicationsIndex(m *met, terms []term.Term) Page {
	w := s.words()
	p := &ComplicationsPage{Heading: s.heading(complicationsPage, w.say("complications"))}
	p.Summary = w.say("complications-summary", len(s.Bank.Cases))
	for _, t := range terms {
		line := ComplicationLine{
			Complication: m.link(t.ID), Names: otherNames(t), Events: len(m.events[t.ID]),
			Cases: len(casesOf(m.events[t.ID])), Later: len(m.later[t.ID]),
		}
		first := initial(t.Label)
		if n := len(p.Groups); n == 0 || p.Groups[n-1].Letter != first {
			p.Groups = append(p.Groups, ComplicationGroup{Letter: first})
		}
		g := &p.Groups[len(p.Groups)-1]
		g.Lines = append(g.Lines, line)
	}
	return Page{Path: complicationsPage, Template: "complications", Data: p}
}
