package builder

import (
	"caseleaf/content"
	"caseleaf/content/measure"
)

// TimelineRow is one entry of a case's timeline.
type TimelineRow struct {
	ID       string
	Anchors  []string // ids of moments that the narrative names and no entry stands for
	At       string
	Kind     string // step, event, finding or decision: for styles
	KindWord string
	Name     Link
	Lines    []RowLine // what is shown
	Moments  []Moment  // began, noticed, acted, spread
	Ask      bool      // the first sign is asked for before it is shown
	Sign     string
	Hidden   []RowLine // what was done: opened on demand
	Held     bool      // tells the rest of an event that a decision point came between
}

// RowLine is one labelled line of a row; the label may be empty.
type RowLine struct {
	Label  string
	Values []Link
}

// Moment is one time inside an entry, with the id that links lead to.
type Moment struct {
	Label string
	At    string
	ID    string // empty where another element stands for the moment
	Note  string
}

// DelayRow gives the times of one event and the delays between them.
type DelayRow struct {
	Event                 Link
	Began, Noticed, Acted string
	ToNoticed, ToActed    string
}

// rows lays the timeline out in the order of the recording.
func (v *caseView) rows() []TimelineRow {
	var rows []TimelineRow
	claimed := map[string]bool{}
	for _, id := range v.anchors.rows {
		claimed[id] = true
	}
	number := 0
	for i := range v.c.Timeline.Entries {
		e := &v.c.Timeline.Entries[i]
		row := TimelineRow{ID: v.anchors.rows[i], Anchors: v.anchors.extra[i], At: v.words.time(e.At)}
		switch {
		case e.Step != nil:
			v.stepRow(&row, e)
		case e.Event != nil:
			v.eventRow(&row, e.Event)
		case e.Finding != nil:
			v.findingRow(&row, e.Finding)
		case e.Decision != nil:
			number++
			row.Kind = "decision"
			row.Name = Link{Text: e.Decision.Question.Value, Path: casePath(v.c.ID.Value) + "#" + decisionID(number)}
		}
		row.KindWord = v.words.say("kind-" + row.Kind)
		claimMoments(row.Moments, claimed)
		rows = append(rows, row)
	}
	return rows
}

// claimMoments leaves each id to the first element that stands for it.
func claimMoments(moments []Moment, claimed map[string]bool) {
	for i, m := range moments {
		if m.ID == "" {
			continue
		}
		if claimed[m.ID] {
			moments[i].ID = ""
		}
		claimed[m.ID] = true
	}
}

func (v *caseView) moment(label string, t content.Given[measure.Time]) Moment {
	m := Moment{Label: v.words.say(label), At: v.words.time(t)}
	if t.Known() {
		m.ID = momentID(t.Value)
	}
	return m
}

func (r *TimelineRow) line(label string, values ...Link) {
	r.Lines = append(r.Lines, RowLine{Label: label, Values: values})
}

func (r *TimelineRow) note(g content.Given[string]) {
	if g.Known() {
		r.line("", Link{Text: g.Value})
	}
}

func (v *caseView) stepRow(r *TimelineRow, e *content.Entry) {
	w, s, detail := v.words, e.Step, e.Step.Detail()
	r.Kind, r.Name = "step", v.met.link(s.Term.Value)
	r.Name.Note = v.lasted(e)
	if s.Until.Known() {
		r.Moments = append(r.Moments, v.moment("until", s.Until))
	}
	if detail.By.Known() {
		r.line(w.say("by"), Link{Text: w.grade(detail.By.Value)})
	}
	if detail.Technique.Known() {
		r.line(w.say("technique"), v.met.link(detail.Technique.Value))
	}
	if values := sizes(w, s); len(values) > 0 {
		r.line("", Link{Text: w.list(values)})
	}
	if values := v.met.links(detail.Using); len(values) > 0 {
		r.line(w.say("using"), values...)
	}
	if values := v.measured(detail.Measures); len(values) > 0 {
		r.line("", values...)
	}
	r.note(s.Note)
}

// lasted says how long the step of an entry took, "" for a step without a time.
func (v *caseView) lasted(entry *content.Entry) string {
	for _, p := range v.steps {
		if p.Entry == entry {
			return v.words.lasted(p)
		}
	}
	return ""
}

// sizes writes the measurements of a step that are lengths, places and extents.
func sizes(w *words, s *content.Step) []string {
	var out []string
	detail := s.Detail()
	lengths := []struct {
		key string
		g   content.Given[measure.Length]
	}{{"width", detail.Width}, {"length", detail.Length}, {"diameter", detail.Diameter}, {"pupil", detail.Pupil}}
	for _, l := range lengths {
		if l.g.Known() {
			out = append(out, w.say(l.key, l.g.Value.String()))
		}
	}
	if s.Place.Known() {
		out = append(out, w.say("place", s.Place.Value.String()))
	}
	if detail.Extent.Known() {
		out = append(out, w.arc(detail.Extent.Value))
	}
	return out
}

func (v *caseView) eventRow(r *TimelineRow, e *content.Event) {
	w := v.words
	r.Kind, r.Name = "event", v.met.link(e.Term.Value)
	r.Sign, r.Ask = e.Sign.Value, v.asksSign(e)
	r.Moments = append(r.Moments,
		v.moment("began", e.Began), v.moment("noticed", e.Noticed), v.moment("acted", e.Acted))
	if e.Extent.Known() {
		r.line(w.say("extent"), Link{Text: w.arc(e.Extent.Value)})
	}
	for _, s := range e.Spread {
		m := v.moment("spread", s.At)
		if s.Extent.Known() {
			m.Note = w.arc(s.Extent.Value)
		}
		r.Moments = append(r.Moments, m)
	}
	hide := func(label string, values ...Link) { r.Hidden = append(r.Hidden, RowLine{w.say(label), values}) }
	if e.Cause.Known() {
		hide("cause", Link{Text: e.Cause.Value})
	}
	if e.Action.Known() {
		hide("action", Link{Text: e.Action.Value})
	} else {
		hide("action", Link{Text: w.missing(e.Action.State)})
	}
	if values := v.met.links(e.Actions); len(values) > 0 {
		hide("actions", values...)
	}
	if e.Note.Known() {
		hide("note", Link{Text: e.Note.Value})
	}
}

func (v *caseView) findingRow(r *TimelineRow, f *content.Finding) {
	w := v.words
	r.Kind, r.Name = "finding", v.met.link(f.Term.Value)
	switch {
	case !f.Present.Known():
		r.Name.Note = w.missing(f.Present.State)
	case f.Present.Value:
		r.Name.Note = w.say("present")
	default:
		r.Name.Note = w.say("not-present")
	}
	switch {
	case f.Place.Known():
		r.line("", Link{Text: w.say("place", f.Place.Value.String())})
	case f.Extent.Known():
		r.line("", Link{Text: w.arc(f.Extent.Value)})
	}
	r.note(f.Note)
}

// delays lists the times of every event with the delays computed from them.
func (v *caseView) delays() []DelayRow {
	var rows []DelayRow
	for i := range v.c.Timeline.Entries {
		e := v.c.Timeline.Entries[i].Event
		if e == nil {
			continue
		}
		name := Link{Text: v.site.Bank.Term(e.Term.Value).Label, Path: casePath(v.c.ID.Value) + "#" + v.anchors.rows[i]}
		rows = append(rows, DelayRow{
			Event: name,
			Began: v.words.time(e.Began), Noticed: v.words.time(e.Noticed), Acted: v.words.time(e.Acted),
			ToNoticed: v.words.delay(noticeDelay(v.c, e)),
			ToActed:   v.words.delay(actDelay(v.c, e)),
		})
	}
	return rows
}
