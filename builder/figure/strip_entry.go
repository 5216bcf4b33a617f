package figure

import (
	"slices"

	"caseleaf/content/measure"
)

// entryKind is what an entry of a strip is; the order is that of ties in time.
type entryKind int

const (
	stepEntry entryKind = iota
	eventEntry
	presentEntry
	absentEntry
	decisionEntry
)

// String names the kind.
func (k entryKind) String() string {
	return [...]string{"step", "event", "finding", "finding", "decision"}[k]
}

// entry is one row of a strip.
type entry struct {
	kind                  entryKind
	index                 int // in its own list
	label                 string
	at                    measure.Time
	from, to              measure.Time // of everything drawn in the row
	began, noticed, acted *measure.Time
	href, id, follows     string
	full                  string // the label with what the mark's shape says
	note                  string // the duration of a step or the delays of an event in words
}

// entries gathers the rows in order of time.
func (s Strip) entries() []entry {
	var out []entry
	for i, x := range s.Steps {
		out = append(out, entry{kind: stepEntry, index: i, label: x.Label, at: x.From, from: x.From,
			to: max(x.From, x.To), href: x.Href})
	}
	for i, x := range s.Events {
		e := entry{kind: eventEntry, index: i, label: x.Label, at: x.At, from: x.At, to: x.At,
			began: x.Began, noticed: x.Noticed, acted: x.Acted, href: x.Href, id: x.ID, follows: x.Follows}
		for _, t := range []*measure.Time{x.Began, x.Noticed, x.Acted} {
			if t != nil {
				e.from, e.to = min(e.from, *t), max(e.to, *t)
			}
		}
		out = append(out, e)
	}
	for i, x := range s.Findings {
		kind := absentEntry
		if x.Present {
			kind = presentEntry
		}
		out = append(out, entry{kind: kind, index: i, label: x.Label, at: x.At, from: x.At, to: x.At,
			href: x.Href, id: x.ID, follows: x.Follows})
	}
	for i, x := range s.Decisions {
		out = append(out, entry{kind: decisionEntry, index: i, label: x.Label, at: x.At, from: x.At, to: x.At,
			href: x.Href, id: x.ID, follows: x.Follows})
	}
	slices.SortStableFunc(out, func(a, b entry) int {
		if a.at != b.at {
			return int(a.at - b.at)
		}
		return int(a.kind - b.kind)
	})
	for i := range out {
		out[i].say(s.Words)
	}
	return out
}

// end gives the end of the time axis, at least a second.
func (s Strip) end() measure.Time {
	end := max(s.Ends, 1)
	for _, x := range s.Steps {
		end = max(end, x.From, x.To)
	}
	for _, x := range s.Events {
		end = max(end, x.At)
		for _, t := range [...]*measure.Time{x.Began, x.Noticed, x.Acted} {
			if t != nil {
				end = max(end, *t)
			}
		}
	}
	for _, x := range s.Findings {
		end = max(end, x.At)
	}
	for _, x := range s.Decisions {
		end = max(end, x.At)
	}
	return end
}

// say words the entry.
func (e *entry) say(w Words) {
	e.full = e.label
	switch e.kind {
	case presentEntry:
		e.full = say(w, "draw-present", e.label)
	case absentEntry:
		e.full = say(w, "draw-absent", e.label)
	case stepEntry:
		if e.to > e.from {
			e.note = e.to.Sub(e.from).String()
		}
	case eventEntry:
		e.note = e.delays(w)
	}
}

// delays tells how late an event was noticed and acted on.
func (e *entry) delays(w Words) string {
	if e.noticed == nil {
		return ""
	}
	out := say(w, "draw-beginning-unknown")
	if e.began != nil {
		out = say(w, "draw-noticed-after", e.noticed.Sub(*e.began).String())
	}
	if e.acted != nil {
		out = say(w, "draw-joined", out, say(w, "draw-acted-after", e.acted.Sub(*e.noticed).String()))
	}
	return out
}
