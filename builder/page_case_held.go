package builder

import (
	"slices"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// placed is an event or a step and where its row stands.
type placed struct {
	entry        *content.Entry
	stretch, row int
}

// moment is a time of the recording as far as its author gave it.
type moment = content.Given[measure.Time]

// holdBack moves what the rows of events and steps tell of the time after a
// decision point behind it. It goes from the last to the first: what is held back
// goes to the head of a later stretch, so that places in earlier ones stand.
func (v *caseView) holdBack(list []Stretch, open []placed) {
	stops := v.c.Decisions()
	for _, p := range slices.Backward(open) {
		if list[p.stretch].Stop == nil {
			continue
		}
		rest := v.eventRest
		if p.entry.Step != nil {
			rest = v.stepRest
		}
		more, last := rest(&list[p.stretch].Rows[p.row], p.entry, stops[p.stretch].At)
		if more == nil {
			continue
		}
		more.At = v.words.time(last)
		to := p.stretch + 1
		for to < len(stops) && last.Known() && !before(last, stops[to].At) {
			to++
		}
		list[to].Rows = slices.Insert(list[to].Rows, 0, *more)
	}
}

// eventRest takes from an event's row what was done about it, and how it spread,
// unless it is known to have come before the decision at a time: what was done
// is often the very answer. It returns a row of what it took and the latest time
// in it; nil where it took nothing.
func (v *caseView) eventRest(row *TimelineRow, entry *content.Entry, at moment) (*TimelineRow, moment) {
	e := entry.Event
	var last moment
	more := v.rest(row)
	kept := row.Moments[:2:2] // began and noticed
	if before(e.Acted, at) {
		kept = append(kept, row.Moments[2])
	} else {
		more.Lines, row.Hidden = row.Hidden, nil
		more.Moments, last = append(more.Moments, row.Moments[2]), e.Acted
	}
	for i, s := range e.Spread {
		if before(s.At, at) {
			kept = append(kept, row.Moments[3+i])
			continue
		}
		more.Moments, last = append(more.Moments, row.Moments[3+i]), s.At
	}
	if more.Moments == nil {
		return nil, last
	}
	row.Moments = kept
	return more, last
}

// stepRest takes from a step's row how long it went on, unless it ended before
// the decision at a time: a step cut short tells that it was given up. The
// overview has the length of every step; an end that the author wrote down gets
// a row of its own, as in eventRest.
func (v *caseView) stepRest(row *TimelineRow, e *content.Entry, at moment) (*TimelineRow, moment) {
	for _, span := range v.steps {
		if span.Entry == e && (!span.Ended || at.Known() && span.To < at.Value) {
			return nil, e.Step.Until
		}
	}
	row.Name.Note = ""
	if row.Moments == nil {
		return nil, e.Step.Until
	}
	more := v.rest(row)
	more.Moments, row.Moments = row.Moments, nil
	return more, e.Step.Until
}

// rest is an empty row for what a row does not tell yet.
func (v *caseView) rest(row *TimelineRow) *TimelineRow {
	more := &TimelineRow{ID: row.ID + "-on", Held: true, Kind: row.Kind, KindWord: row.KindWord, Name: row.Name}
	more.Name.Note = v.words.say("went-on")
	return more
}

// before reports that a moment is known to lie before a decision.
func before(t, at moment) bool {
	return t.Known() && at.Known() && t.Value < at.Value
}
