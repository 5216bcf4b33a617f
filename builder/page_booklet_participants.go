package builder

import (
	"html/template"

	"caseleaf/builder/figure"
	"caseleaf/content"
	"caseleaf/content/measure"
)

// ExerciseCase is a case in the participants' copy: what was known before, what
// was seen, and the questions. It is made from a case by naming what goes in:
//
//   - what was known before the operation;
//   - the steps up to the first decision, by name and time;
//   - of events the first sign alone, of findings whether they were there;
//   - of decisions the question and the options.
//
// Notes, causes, actions, choices, reasons, results, outcome, lessons and the
// narrative are left out, and so are title and summary, which often tell the
// end. What happened after the last decision is left out too, and from the first
// decision on the steps, since what is done next is the answer.
type ExerciseCase struct {
	ID           string
	Number       string
	Kicker       string
	Facts        []Fact
	Strip        template.HTML // up to the first decision
	StripCaption string
	Before       SeenTable // all that was seen, where no decision was to be made
	Questions    []ExerciseQuestion
}

// ExerciseQuestion is one decision point with room to write.
type ExerciseQuestion struct {
	ID       string
	Head     string    // number and time
	Seen     SeenTable // since the question before
	Question string
	Options  []OptionLine
}

// SeenTable is what was seen on the way to a question.
type SeenTable struct {
	Caption string
	Lines   []SeenLine
}

// SeenLine is one thing on the way to a question. With Ask, the participant is
// asked what it is.
type SeenLine struct {
	At, Kind, Text string
	Ask            bool
}

func (s *Site) exerciseEntry(c *content.Case) BookletEntry {
	return BookletEntry{Number: c.ID.Value, Text: s.exerciseKicker(c), Points: s.words().points(c), Href: "#" + bookletID(c)}
}

// exerciseKicker says what a case is without its title.
func (s *Site) exerciseKicker(c *content.Case) string {
	kicker := s.words().grade(c.Surgeon.Value)
	if c.Technique.Known() {
		kicker = s.Bank.Term(c.Technique.Value).Label + " · " + kicker
	}
	return kicker
}

func (s *Site) exercise(c *content.Case) ExerciseCase {
	w := s.words()
	v := s.view(c)
	e := ExerciseCase{ID: bookletID(c), Number: c.ID.Value, Kicker: s.exerciseKicker(c), Facts: withoutLinks(v.facts())}
	seen := SeenTable{Caption: w.say("booklet-upto")}
	for i := range c.Timeline.Entries {
		entry := &c.Timeline.Entries[i]
		if entry.Decision == nil {
			if line, ok := s.seen(entry, len(e.Questions) == 0); ok {
				seen.Lines = append(seen.Lines, line)
			}
			continue
		}
		n := len(e.Questions) + 1
		e.Questions = append(e.Questions, ExerciseQuestion{
			ID: e.ID + "-" + decisionID(n), Head: e.Number + " · " + w.say("decision-n", n) + " · " + w.time(entry.At),
			Seen: seen, Question: entry.Decision.Question.Value, Options: optionLines(entry.Decision.Options),
		})
		seen = SeenTable{Caption: w.say("booklet-since")}
	}
	if len(e.Questions) == 0 {
		e.Before = seen
	}
	e.Strip, e.StripCaption = s.exerciseStrip(c)
	return e
}

// seen is what a participant is told of an entry that is no decision: of steps
// their names, and those only before the first decision.
func (s *Site) seen(e *content.Entry, steps bool) (SeenLine, bool) {
	w := s.words()
	line := SeenLine{At: w.time(e.At)}
	switch {
	case e.Step != nil && steps:
		line.Kind, line.Text = w.say("kind-step"), s.Bank.Term(e.Step.Term.Value).Label
	case e.Event != nil:
		line.Kind, line.Text, line.Ask = w.say("booklet-seen"), w.given(e.Event.Sign), true
		if e.Event.Noticed.Known() {
			line.At = w.time(e.Event.Noticed)
		}
	case e.Finding != nil:
		there := w.missing(e.Finding.Present.State)
		if e.Finding.Present.Known() {
			there = w.say("present")
			if !e.Finding.Present.Value {
				there = w.say("not-present")
			}
		}
		line.Kind, line.Text = w.say("kind-finding"), s.Bank.Term(e.Finding.Term.Value).Label+": "+there
	default:
		return line, false
	}
	return line, true
}

// exerciseStrip draws the operation up to the first decision: steps, findings
// and, where something happened, a mark without its name.
func (s *Site) exerciseStrip(c *content.Case) (template.HTML, string) {
	decisions := c.Decisions()
	if len(decisions) == 0 || !decisions[0].At.Known() {
		return "", ""
	}
	w, end := s.words(), decisions[0].At.Value
	f := figure.Strip{Words: w, IDPrefix: bookletID(c) + "-strip", Title: w.say("booklet-strip"), Ends: end}
	for _, p := range c.Steps() {
		if p.From < end {
			f.Steps = append(f.Steps, figure.StripStep{Label: s.Bank.Term(p.Term).Label, From: p.From, To: min(p.To, end)})
		}
	}
	for i := range c.Timeline.Entries {
		e := &c.Timeline.Entries[i]
		if e == decisions[0] {
			break
		}
		switch {
		case !e.At.Known():
		case e.Event != nil:
			f.Events = append(f.Events, figure.StripEvent{Label: w.say("booklet-event"), At: e.At.Value, Noticed: notAfter(e.Event.Noticed, end)})
		case e.Finding != nil && e.Finding.Present.Known():
			f.Findings = append(f.Findings, figure.StripFinding{
				Label: s.Bank.Term(e.Finding.Term.Value).Label, At: e.At.Value, Present: e.Finding.Present.Value,
			})
		}
	}
	f.Decisions = []figure.StripDecision{{Label: w.say("decision-n", 1), At: end}}
	return template.HTML(figure.Single(f)), f.Caption() // figure escapes every text it draws
}

// notAfter is a time that is known and not after another, else nil.
func notAfter(g content.Given[measure.Time], end measure.Time) *measure.Time {
	if t := timePointer(g); t != nil && *t <= end {
		return t
	}
	return nil
}

// withoutLinks takes the links off facts: on paper they lead nowhere.
func withoutLinks(facts []Fact) []Fact {
	out := make([]Fact, len(facts))
	for i, f := range facts {
		out[i] = Fact{Label: f.Label, Missing: f.Missing}
		for _, v := range f.Values {
			out[i].Values = append(out[i].Values, Link{Text: v.Text, Note: v.Note})
		}
	}
	return out
}
