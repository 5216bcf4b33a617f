package figure

import (
	"fmt"
	"io"

	"caseleaf/content/measure"
)

// Strip is one operation in time: its steps, and what happened in them, to scale. Each
// entry has a row of its own, in order of time, with its words beside its mark; so labels
// cannot collide however many there are.
type Strip struct {
	IDPrefix  string // unique in the page
	Title     string
	Words     Words
	Ends      measure.Time // end of the recording; 0 for the last entry's end
	Steps     []StripStep
	Events    []StripEvent
	Findings  []StripFinding
	Decisions []StripDecision
}

// StripStep is a step, drawn as a bar. To no later than From is an end not known.
type StripStep struct {
	Label    string
	From, To measure.Time
	Href     string // "#…" of the table row; empty for none
}

// StripEvent is an event. At is when it stands in the timeline; the three moments are nil
// where nobody knows them, and never filled in from one another.
type StripEvent struct {
	Label                 string
	At                    measure.Time
	Began, Noticed, Acted *measure.Time
	Href                  string
	ID, Follows           string // to link chains: Follows names the ID this came from
}

// StripFinding is something looked for, there or not.
type StripFinding struct {
	Label       string
	At          measure.Time
	Present     bool
	Href        string
	ID, Follows string
}

// StripDecision is a decision point.
type StripDecision struct {
	Label       string
	At          measure.Time
	Href        string
	ID, Follows string
}

// Draw lays the strip out.
func (s Strip) Draw(width Px) *Drawing {
	width = max(width, Narrow)
	d := &Drawing{Width: width, IDPrefix: s.IDPrefix, Title: s.Title}
	entries := s.entries()
	l := stripLayout{d: d, w: s.Words, margin: 14, x: scale{0, float64(s.end()), 14, width - 14}}
	y := l.block(entries, 4)
	for _, in := range insets(entries, l.x) {
		y = l.inset(in, y+10)
	}
	d.Height = legend(d, stripLegend(s.Words, entries), l.margin, y+8) + 4
	return d
}

// SVG writes the strip for a page, wide and narrow.
func (s Strip) SVG() []byte { return SVG(s) }

// Alone writes the strip as a stand-alone file.
func (s Strip) Alone() []byte { return Alone(s) }

// WriteTo writes SVG to w.
func (s Strip) WriteTo(w io.Writer) (int64, error) {
	n, err := w.Write(s.SVG())
	return int64(n), err
}

// Caption counts what the strip shows and names the longest delay.
func (s Strip) Caption() string {
	out := say(s.Words, "draw-strip-caption", say(s.Words, "draw-n-steps", len(s.Steps)), measure.Duration(s.end()).String(),
		say(s.Words, "draw-n-events", len(s.Events)), say(s.Words, "draw-n-findings", len(s.Findings)),
		say(s.Words, "draw-n-decisions", len(s.Decisions)))
	var longest measure.Duration
	label := ""
	for _, e := range s.Events {
		if e.Began != nil && e.Noticed != nil && e.Noticed.Sub(*e.Began) > longest {
			longest, label = e.Noticed.Sub(*e.Began), e.Label
		}
	}
	if label != "" {
		out += " " + say(s.Words, "draw-strip-longest", longest.String(), label)
	}
	return out
}

// Table lists the entries in order of time.
func (s Strip) Table() Table {
	w := s.Words
	t := Table{Headers: heads(w, "draw-time", "draw-kind", "draw-what", "draw-began", "draw-noticed", "draw-acted", "draw-lasted")}
	for _, e := range s.entries() {
		row := []string{e.at.String(), say(w, "draw-kind-"+e.kind.String()), e.label, "", "", "", ""}
		switch e.kind {
		case stepEntry:
			row[6] = say(w, "draw-unknown")
			if e.to > e.from {
				row[6] = e.to.Sub(e.from).String()
			}
		case eventEntry:
			row[3], row[4], row[5] = moment(w, e.began), moment(w, e.noticed), moment(w, e.acted)
		case presentEntry, absentEntry:
			row[2] = e.full
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// moment writes a time that may be unknown.
func moment(w Words, t *measure.Time) string {
	if t == nil {
		return say(w, "draw-unknown")
	}
	return t.String()
}

// ChainInOrder returns the strip with each decision linked to the event or finding before
// it, and each event or finding to the decision before it: for cases whose author let the
// order of time tell what led to what. Links already given are kept.
func (s Strip) ChainInOrder() Strip {
	s.Events = append([]StripEvent(nil), s.Events...)
	s.Findings = append([]StripFinding(nil), s.Findings...)
	s.Decisions = append([]StripDecision(nil), s.Decisions...)
	lastID, lastDecision := "", false
	for _, e := range s.entries() {
		if e.kind == stepEntry {
			continue
		}
		id, follows := s.link(e)
		if *id == "" {
			*id = fmt.Sprintf("%s-%d", e.kind, e.index)
		}
		isDecision := e.kind == decisionEntry
		if *follows == "" && lastID != "" && isDecision != lastDecision {
			*follows = lastID
		}
		lastID, lastDecision = *id, isDecision
	}
	return s
}

// link gives the fields of an entry that hold its links.
func (s Strip) link(e entry) (id, follows *string) {
	switch e.kind {
	case eventEntry:
		return &s.Events[e.index].ID, &s.Events[e.index].Follows
	case decisionEntry:
		return &s.Decisions[e.index].ID, &s.Decisions[e.index].Follows
	}
	return &s.Findings[e.index].ID, &s.Findings[e.index].Follows
}
