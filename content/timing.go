package content

import (
	"cmp"
	"slices"

	"caseleaf/content/measure"
)

// sort puts the entries into the order of time, ties in file order. Entries
// without a readable time keep their place behind the one before them.
func (c *Case) sort() {
	if c.inOrder() {
		return
	}
	var last measure.Time
	keyed := make([]timed, len(c.Timeline.Entries))
	for i, e := range c.Timeline.Entries {
		if t, ok := e.At.Get(); ok {
			last = t
		}
		keyed[i] = timed{last, e}
	}
	slices.SortStableFunc(keyed, func(a, b timed) int { return cmp.Compare(a.at, b.at) })
	for i := range keyed {
		c.Timeline.Entries[i] = keyed[i].entry
	}
}

// inOrder reports that no entry is earlier than one before it.
func (c *Case) inOrder() bool {
	var last measure.Time
	for i := range c.Timeline.Entries {
		if t, ok := c.Timeline.Entries[i].At.Get(); ok {
			if t < last {
				return false
			}
			last = t
		}
	}
	return true
}

type timed struct {
	at    measure.Time
	entry Entry
}

// StepSpan is one stretch of a step on the recording.
type StepSpan struct {
	Entry *Entry
	Term  string
	From  measure.Time
	To    measure.Time // meaningful when Ended
	// Ended reports whether the end is known: the next step's start, the
	// step's own until, or the end of the recording.
	Ended bool
	// Cut reports that the recording was cut within, so To-From is not how
	// long the step took.
	Cut bool
}

// Duration returns how long the step took, where its end is known and the
// recording was not cut within it.
func (s StepSpan) Duration() (measure.Duration, bool) {
	return s.To.Sub(s.From), s.Ended && !s.Cut
}

// Steps returns the stretches of the steps in order. A step ends at its until,
// else where the next step begins, else where the recording ends; the last
// step of a case that states no end has none.
func (c *Case) Steps() []StepSpan {
	spans := make([]StepSpan, 0, len(c.Timeline.Entries))
	for i := range c.Timeline.Entries {
		e := &c.Timeline.Entries[i]
		if e.Step == nil || !e.At.Known() || !e.Step.Term.Known() {
			continue
		}
		if n := len(spans); n > 0 && !spans[n-1].Ended {
			spans[n-1].To, spans[n-1].Ended = e.At.Value, true
		}
		s := StepSpan{Entry: e, Term: e.Step.Term.Value, From: e.At.Value, To: e.At.Value}
		if until, ok := e.Step.Until.Get(); ok && until >= s.From {
			s.To, s.Ended = until, true
		}
		spans = append(spans, s)
	}
	if n := len(spans); n > 0 && !spans[n-1].Ended {
		if ends, ok := c.Recording.Ends.Get(); ok && ends >= spans[n-1].From {
			spans[n-1].To, spans[n-1].Ended = ends, true
		}
	}
	for i := range spans {
		spans[i].Cut = c.cutWithin(spans[i].From, spans[i].To)
	}
	return spans
}

// cutWithin reports whether the recording was cut after from and not after to.
func (c *Case) cutWithin(from, to measure.Time) bool {
	for _, cut := range c.Recording.Cuts {
		if t, ok := cut.Get(); ok && t > from && t <= to {
			return true
		}
	}
	return false
}

// NoticeDelay returns the time from beginning to noticing an event, where both
// are known and the recording was not cut between.
func (c *Case) NoticeDelay(e *Event) (measure.Duration, bool) {
	return c.delay(e.Began, e.Noticed)
}

// ActDelay returns the time from noticing an event to acting on it, where both
// are known and the recording was not cut between.
func (c *Case) ActDelay(e *Event) (measure.Duration, bool) {
	return c.delay(e.Noticed, e.Acted)
}

func (c *Case) delay(from, to Given[measure.Time]) (measure.Duration, bool) {
	if !from.Known() || !to.Known() || c.cutWithin(from.Value, to.Value) {
		return 0, false
	}
	return to.Value.Sub(from.Value), true
}

// Onset returns the step an event began in: the author's during, else the last
// step that had begun when the event began and had not ended before. Where the
// beginning is unknown, so is the step: it is not taken from when the event
// was noticed.
func (c *Case) Onset(e *Event) (step string, ok bool) {
	if during, ok := e.During.Get(); ok {
		return during, true
	}
	began, ok := e.Began.Get()
	if !ok {
		return "", false
	}
	return c.StepAt(began)
}

// StepAt returns the step that was under way at a time.
func (c *Case) StepAt(t measure.Time) (step string, ok bool) {
	steps := c.Steps()
	for _, s := range steps {
		if s.From <= t && (!s.Ended || t < s.To || t == s.From) {
			step, ok = s.Term, true
		}
	}
	if !ok && len(steps) > 0 {
		// The very end of the recording still belongs to the last step.
		if last := steps[len(steps)-1]; last.Ended && t == last.To {
			return last.Term, true
		}
	}
	return step, ok
}

// Events returns the case's events in order.
func (c *Case) Events() []*Entry { return c.entries(func(e *Entry) bool { return e.Event != nil }) }

// Decisions returns the case's decision points in order.
func (c *Case) Decisions() []*Entry {
	return c.entries(func(e *Entry) bool { return e.Decision != nil })
}

// Findings returns the case's findings in order.
func (c *Case) Findings() []*Entry { return c.entries(func(e *Entry) bool { return e.Finding != nil }) }

func (c *Case) entries(keep func(*Entry) bool) []*Entry {
	var out []*Entry
	for i := range c.Timeline.Entries {
		if e := &c.Timeline.Entries[i]; keep(e) {
			out = append(out, e)
		}
	}
	return out
}
