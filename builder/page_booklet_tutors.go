package builder

import (
	"bytes"
	"html/template"
	"slices"
	"strings"

	"caseleaf/builder/figure"
	"caseleaf/builder/prose"
	"caseleaf/content"
)

// TutorCase is a case in the tutors' copy: all of its page but the drawings of
// the eye, with the delays computed and the items of guidelines it answers.
type TutorCase struct {
	ID           string
	Number       string
	Title        string
	Kicker       string
	Summary      string
	Facts        []Fact
	Kit          []KitLine
	Strip        template.HTML
	StripCaption string
	Rows         []TutorRow
	Delays       []DelayRow
	Decisions    []TutorDecision
	Outcome      []Fact
	Lessons      []string
	Alternatives []string
	Limits       string
	Narrative    template.HTML
	Sources      []SourceLine
	Complete     []CompleteLine
}

// TutorRow is one entry of the timeline as it is printed.
type TutorRow struct {
	ID       string
	Anchors  []string // ids of times that the narrative names
	At, Kind string
	Name     string
	Moments  string // began, noticed, acted on
	Sign     string
	Lines    []Fact
}

// TutorDecision is a decision point with its answer.
type TutorDecision struct {
	ID       string
	Head     string
	Question string
	Options  []TutorOption
	Chosen   *OptionLine // nil where it is not given
	Because  string
	CameOf   string
	Result   string
}

// TutorOption is one option; Chosen says that it was taken.
type TutorOption struct {
	OptionLine
	Chosen bool
}

// CompleteLine is how a case stands to one guideline.
type CompleteLine struct {
	Count string
	Lacks string // items not answered, with what they ask for; "" when none
}

func (s *Site) tutorEntry(c *content.Case) BookletEntry {
	return BookletEntry{Number: c.ID.Value, Text: caseTitle(c), Points: s.words().points(c), Href: "#" + bookletID(c)}
}

func (s *Site) tutorCase(c *content.Case, p bookletPlan) TutorCase {
	v := s.view(c)
	t := TutorCase{
		ID: bookletID(c), Number: c.ID.Value, Title: caseTitle(c), Kicker: s.exerciseKicker(c), Summary: c.Summary.Value,
		Facts: withoutLinks(v.facts()), Kit: v.kit(), Outcome: withoutLinks(v.outcome()),
		Lessons: known(c.Lessons), Alternatives: known(c.Alternatives), Limits: c.Limits.Value,
		Sources: sourceLines(c.Sources), Complete: s.words().complete(c),
	}
	for i := range t.Kit {
		t.Kit[i].Item.Path = ""
	}
	t.Rows = v.tutorRows(t.ID)
	for _, d := range v.delays() {
		d.Event.Path = ""
		t.Delays = append(t.Delays, d)
	}
	for _, card := range v.decisions() {
		t.Decisions = append(t.Decisions, v.words.tutorDecision(card, t.ID))
	}
	t.Strip, t.StripCaption = v.tutorStrip(t.ID)
	t.Narrative = s.bookletProse(c, p)
	return t
}

// tutorRows prints the rows of the case's page: everything open, no links.
func (v *caseView) tutorRows(prefix string) []TutorRow {
	var rows []TutorRow
	for _, r := range v.rows() {
		row := TutorRow{ID: prefix + "-" + r.ID, At: r.At, Kind: r.KindWord, Name: strings.TrimSpace(r.Name.Text + " " + quietly(r.Name.Note)), Sign: r.Sign}
		for _, a := range r.Anchors {
			row.Anchors = append(row.Anchors, prefix+"-"+a)
		}
		var moments []string
		for _, m := range r.Moments {
			if m.ID != "" {
				row.Anchors = append(row.Anchors, prefix+"-"+m.ID)
			}
			moments = append(moments, strings.TrimSpace(m.Label+" "+m.At+" "+m.Note))
		}
		row.Moments = strings.Join(moments, " · ")
		for _, l := range slices.Concat(r.Lines, r.Hidden) {
			row.Lines = append(row.Lines, withoutLinks([]Fact{{Label: l.Label, Values: l.Values}})...)
		}
		rows = append(rows, row)
	}
	return rows
}

// quietly puts a note behind a name.
func quietly(note string) string {
	if note == "" {
		return ""
	}
	return "(" + note + ")"
}

// tutorDecision prints a decision with its answer.
func (w *words) tutorDecision(card DecisionCard, prefix string) TutorDecision {
	d := TutorDecision{
		ID: prefix + "-" + card.ID, Head: w.say("decision-n", card.Number) + " · " + card.At, Question: card.Question,
		Because: card.Because, CameOf: card.CameOf, Result: card.Result, Chosen: card.Chosen,
	}
	if card.During != nil {
		d.Head += " · " + card.During.Text
	}
	for _, o := range card.Options {
		d.Options = append(d.Options, TutorOption{o, card.Chosen != nil && card.Chosen.Letter == o.Letter})
	}
	return d
}

// tutorStrip draws the whole operation for paper.
func (v *caseView) tutorStrip(prefix string) (template.HTML, string) {
	f, ok := v.stripFigure()
	if !ok {
		return "", ""
	}
	f.IDPrefix = prefix + "-strip"
	for i := range f.Steps {
		f.Steps[i].Href = ""
	}
	for i := range f.Events {
		f.Events[i].Href = ""
	}
	for i := range f.Findings {
		f.Findings[i].Href = ""
	}
	for i := range f.Decisions {
		f.Decisions[i].Href = ""
	}
	return template.HTML(figure.Single(f)), f.Caption() // figure escapes every text it draws
}

// bookletProse renders a narrative below the heads of a booklet. Links lead
// inside the booklet where what they name is in it.
func (s *Site) bookletProse(c *content.Case, p bookletPlan) template.HTML {
	var out bytes.Buffer
	var notes addresses
	prefix := bookletID(c) + "-"
	prose.Render(&out, &c.Body, prose.Options{
		Say:    s.words().say,
		Prefix: prefix + "n-", HeadingShift: 2, Note: notes.number,
		Picture: func(t content.Target) prose.Picture { // paper shows the largest
			size := s.sizes[t.ID]
			return prose.Picture{Width: size.width, Height: size.height}
		},
		Href: func(t content.Target) string {
			switch t.Kind {
			case content.ToTime:
				return "#" + prefix + momentID(t.Time)
			case content.ToHeading:
				return "#" + prefix + "n-" + t.Fragment
			case content.ToCase:
				if other, ok := s.Bank.Case(t.ID); ok && slices.Contains(p.cases, other) {
					return "#" + bookletID(other)
				}
			}
			return s.href(t, p.tutors())
		},
	})
	return template.HTML(out.String() + notes.section(s.words())) // prose writes only elements and addresses it allows
}

// complete says how a case stands to each guideline, and what it lacks.
func (w *words) complete(c *content.Case) []CompleteLine {
	answers := content.CaseAnswers{Case: c, Answers: content.Completeness(c)}
	var lines []CompleteLine
	for _, g := range content.Guidelines() {
		answered, applies := answers.Tally(g.ID)
		line := CompleteLine{Count: w.say("booklet-answers", g.Name, answered, applies)}
		var lacks []string
		for _, a := range answers.Answers {
			if a.Guideline == g.ID && a.Status == content.NotAnswered {
				lacks = append(lacks, a.Item+" "+a.Topic)
			}
		}
		if len(lacks) > 0 {
			line.Lacks = strings.Join(lacks, "; ") // in English, as the guidelines are
		}
		lines = append(lines, line)
	}
	return lines
}
