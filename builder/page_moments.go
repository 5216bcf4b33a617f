package builder

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// momentID is the id that stands for a moment of a recording on its case's
// page: t-185 for 3:05.
func momentID(t measure.Time) string { return "t-" + strconv.Itoa(t.Seconds()) }

// anchors names every moment of a case that a link can lead to.
type anchors struct {
	rows  []string   // the id of each entry's row
	extra [][]string // ids for times the narrative names, by the entry they fall behind
}

// anchorsOf gives the entries their ids first, then the moments inside them
// (began, noticed, acted, spread, until) that no entry stands for. A time that
// only the narrative names is placed at the last entry before it.
func anchorsOf(c *content.Case) anchors {
	entries := c.Timeline.Entries
	a := anchors{extra: make([][]string, len(entries))}
	again := map[measure.Time]int{}
	for i := range entries {
		at := entries[i].At
		if !at.Known() {
			a.rows = append(a.rows, fmt.Sprintf("t-entry-%d", i+1))
			continue
		}
		id := momentID(at.Value)
		again[at.Value]++
		if n := again[at.Value]; n > 1 {
			id = fmt.Sprintf("%s-%d", id, n)
		}
		a.rows = append(a.rows, id)
	}
	taken := again
	for i := range entries {
		for _, g := range momentsIn(&entries[i]) {
			if g.Known() {
				taken[g.Value]++
			}
		}
	}
	for _, t := range timesNamed(&c.Body) {
		if taken[t] == 0 && len(entries) > 0 {
			i := entryBefore(entries, t)
			a.extra[i] = append(a.extra[i], momentID(t))
		}
	}
	return a
}

// timesNamed lists the times that a narrative links to, each once.
func timesNamed(b *content.Body) []measure.Time {
	var times []measure.Time
	for _, target := range b.Targets {
		if target.Kind == content.ToTime && !slices.Contains(times, target.Time) {
			times = append(times, target.Time)
		}
	}
	slices.SortFunc(times, func(a, b measure.Time) int { return cmp.Compare(a, b) })
	return times
}

// entryBefore is the place of the last entry at or before t, else 0.
func entryBefore(entries []content.Entry, t measure.Time) int {
	place := 0
	for i := range entries {
		if at := entries[i].At; at.Known() && at.Value <= t {
			place = i
		}
	}
	return place
}

// momentsIn lists the times inside an entry besides its own.
func momentsIn(e *content.Entry) []content.Given[measure.Time] {
	switch {
	case e.Step != nil:
		return []content.Given[measure.Time]{e.Step.Until}
	case e.Event != nil:
		list := []content.Given[measure.Time]{e.Event.Began, e.Event.Noticed, e.Event.Acted}
		for _, s := range e.Event.Spread {
			list = append(list, s.At)
		}
		return list
	}
	return nil
}

// delay is the time from one moment of an event to a later one, or the reason
// why it cannot be told.
type delay struct {
	Value measure.Duration
	Why   string // key of the words for the reason; empty when Value stands
}

// noticeDelay is the time from the beginning of an event to its notice.
func noticeDelay(c *content.Case, e *content.Event) delay {
	d, ok := c.NoticeDelay(e)
	return delayOr(d, ok, e.Began, e.Noticed)
}

// actDelay is the time from the notice of an event to the first action.
func actDelay(c *content.Case, e *content.Event) delay {
	d, ok := c.ActDelay(e)
	return delayOr(d, ok, e.Noticed, e.Acted)
}

// delayOr says why a delay that was not computed cannot be: nothing was done, a
// moment is not known, or the recording was cut between the two.
func delayOr(d measure.Duration, ok bool, from, to content.Given[measure.Time]) delay {
	switch {
	case ok:
		return delay{Value: d}
	case to.State == content.None:
		return delay{Why: "not-acted"}
	case !from.Known() || !to.Known():
		return delay{Why: "not-known"}
	}
	return delay{Why: "recording-cut"}
}

// stepOf is the step under way at a time that may not be known, or "".
func stepOf(c *content.Case, t content.Given[measure.Time]) string {
	if !t.Known() {
		return ""
	}
	step, _ := c.StepAt(t.Value)
	return step
}
