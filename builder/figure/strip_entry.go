package figure

import (
	"slices"
	"strings"

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

// String names the kind for tables.
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
	return out
}

// end gives the end of the time axis, at least a second.
func (s Strip) end(entries []entry) measure.Time {
	end := max(s.Ends, 1)
	for _, e := range entries {
		end = max(end, e.to)
	}
	return end
}

// full gives the label with what the mark's shape says.
func (e entry) full() string {
	switch e.kind {
	case presentEntry:
		return e.label + ": present"
	case absentEntry:
		return e.label + ": absent"
	}
	return e.label
}

// note tells the duration of a step or the delays of an event in words.
func (e entry) note() string {
	if e.kind == stepEntry {
		if e.to > e.from {
			return e.to.Sub(e.from).String()
		}
		return ""
	}
	if e.kind != eventEntry {
		return ""
	}
	var parts []string
	if e.noticed != nil {
		if e.began != nil {
			parts = append(parts, "noticed after "+e.noticed.Sub(*e.began).String())
		} else {
			parts = append(parts, "beginning unknown")
		}
	}
	if e.acted != nil && e.noticed != nil {
		parts = append(parts, "acted on after "+e.acted.Sub(*e.noticed).String())
	}
	return strings.Join(parts, ", ")
}
