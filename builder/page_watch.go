package builder

import (
	"caseleaf/content"
	"caseleaf/content/term"
)

// WatchLine is one row of the watch table with what the cases add to it: in
// this step, this complication can start.
type WatchLine struct {
	ID                 string // of the complication
	Step, Complication Link
	FirstSign          string
	MisStep            string
	FirstMove          string
	Prevention         string
	Ready              string
	Began              int // events in the cases that began so: a count, never a rate
	Quotes             []Quote
}

// Quote is a first sign as the author of a case wrote it.
type Quote struct {
	Sign   string
	Moment Link // to the event in its case; the text is the case's id, the note its time
	Note   string
}

// watchLine joins a row of the watch table with the events that belong to it.
func (s *Site) watchLine(m *met, row term.WatchRow) WatchLine {
	line := WatchLine{
		ID: row.Complication, Step: m.link(row.Step), Complication: m.link(row.Complication),
		FirstSign: row.FirstSign, MisStep: row.MisStep, FirstMove: row.FirstMove,
		Prevention: row.Prevention, Ready: row.Ready,
	}
	began, seen := m.eventsIn(row.Step, row.Complication)
	line.Began = len(began)
	line.Quotes = s.quotes(began, seen)
	return line
}

// eventsIn returns the events of a complication that began in a step, and
// those that were noticed in it when nobody knows in which step they began.
func (m *met) eventsIn(step, complication string) (began, seen []meeting) {
	for _, at := range m.onsets[step] {
		if at.Entry.Event.Term.Value == complication {
			began = append(began, at)
		}
	}
	for _, at := range m.noticed[step] {
		if at.Entry.Event.Term.Value == complication {
			seen = append(seen, at)
		}
	}
	return began, seen
}

// quotes quotes the first signs of events; those of seen carry a note that when
// they began is not known, or that it was between two steps.
func (s *Site) quotes(began, seen []meeting) []Quote {
	var list []Quote
	for i, at := range append(began[:len(began):len(began)], seen...) {
		q := Quote{Sign: at.Entry.Event.Sign.Value, Moment: s.momentLink(at)}
		if q.Sign == "" {
			q.Sign = s.words().say("sign-missing")
		}
		if i >= len(began) {
			q.Note = s.words().say("onset-unknown")
			if at.Entry.Event.Began.Known() {
				q.Note = s.words().say("onset-between")
			}
		}
		list = append(list, q)
	}
	return list
}

// momentLink leads to an entry of a case: the id of the case and the time.
func (s *Site) momentLink(at meeting) Link {
	return Link{Text: at.Case.ID.Value, Path: at.Path(), Note: at.at(s.words())}
}

// DecisionLine is one decision point in a list.
type DecisionLine struct {
	Decision Link
	Question string
	Moments  []Link // where the cases meet it
}

// decisionLines lists the shared decisions that keep says belong here, with the
// moments of met given by moments, and then those of alone.
func (s *Site) decisionLines(keep func(*content.Decision) bool, moments func(id string) []meeting) []DecisionLine {
	var lines []DecisionLine
	for _, d := range s.Bank.Decisions {
		met := moments(d.ID.Value)
		if !keep(d) && len(met) == 0 {
			continue
		}
		line := DecisionLine{Decision: decisionLink(d), Question: d.Question.Value}
		for _, at := range met {
			line.Moments = append(line.Moments, s.momentLink(at))
		}
		lines = append(lines, line)
	}
	return lines
}

func decisionLink(d *content.Decision) Link {
	return Link{Text: d.Title.Or(d.ID.Value), Path: decisionPath(d.ID.Value)}
}

// aloneLines lists decisions that only their case knows.
func (s *Site) aloneLines(list []meeting) []DecisionLine {
	var lines []DecisionLine
	for _, at := range list {
		if d := at.Entry.Decision; !d.Point.Known() {
			lines = append(lines, DecisionLine{Question: d.Question.Value, Moments: []Link{s.momentLink(at)}})
		}
	}
	return lines
}
