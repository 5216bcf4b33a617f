package builder

import (
	"fmt"

	"caseleaf/content"
	"caseleaf/content/measure"
)

// stepSpan is one stretch of an operation: from where a step begins to where it
// stops, the next one begins or the recording ends.
type stepSpan struct {
	Entry int // place in the timeline
	Step  *content.Step
	From  measure.Time
	To    measure.Time
	Ended bool // whether To is known
	Cut   bool // the recording was cut inside: the length cannot be told
}

// Duration is how long the stretch lasted; false where that cannot be told.
func (p stepSpan) Duration() (measure.Duration, bool) {
	if !p.Ended || p.Cut || p.To < p.From {
		return 0, false
	}
	return p.To.Sub(p.From), true
}

// stepSpans lists the steps of a case whose beginning is known, in order.
func stepSpans(c *content.Case) []stepSpan {
	var spans []stepSpan
	for i := range c.Timeline.Entries {
		e := &c.Timeline.Entries[i]
		if e.Step == nil || !e.At.Known() {
			continue
		}
		spans = append(spans, stepSpan{Entry: i, Step: e.Step, From: e.At.Value})
	}
	for i := range spans {
		p := &spans[i]
		switch {
		case p.Step.Until.Known():
			p.To, p.Ended = p.Step.Until.Value, true
		case i+1 < len(spans):
			p.To, p.Ended = spans[i+1].From, true
		case c.Recording.Ends.Known():
			p.To, p.Ended = c.Recording.Ends.Value, true
		}
		p.Cut = p.Ended && cutBetween(c, p.From, p.To)
	}
	return spans
}

// cutBetween reports whether the recording was cut after from and before to.
func cutBetween(c *content.Case, from, to measure.Time) bool {
	for _, cut := range c.Recording.Cuts {
		if cut.Known() && from < cut.Value && cut.Value < to {
			return true
		}
	}
	return false
}

// stepAt returns the id of the step that was under way at t, or "" between
// steps and before the first. A step ends just before the next begins.
func stepAt(spans []stepSpan, t measure.Time) string {
	for i := len(spans) - 1; i >= 0; i-- {
		p := spans[i]
		if t < p.From {
			continue
		}
		if p.Step.Until.Known() && t > p.Step.Until.Value {
			return ""
		}
		return p.Step.Term.Value
	}
	return ""
}

// delay is the time from one moment of an event to a later one, or the reason
// why it cannot be told.
type delay struct {
	Value measure.Duration
	Why   string // key of the words for the reason; empty when Value stands
}

// delayBetween computes a delay. Nothing is guessed: a moment that is not
// known, or a recording cut in between, leaves no delay.
func delayBetween(c *content.Case, from, to content.Given[measure.Time]) delay {
	switch {
	case to.State == content.None:
		return delay{Why: "not-acted"}
	case !from.Known() || !to.Known():
		return delay{Why: "not-known"}
	case cutBetween(c, from.Value, to.Value):
		return delay{Why: "recording-cut"}
	}
	return delay{Value: to.Value.Sub(from.Value)}
}

// anchors names every moment of a case's timeline that a link can lead to:
// t-185 for what is at 3:05.
type anchors struct {
	rows  []string                // the id of each entry's row
	times map[measure.Time]string // the id that stands for a moment
	order []measure.Time          // the keys of times, as they come
}

// anchorsOf gives the entries their ids first and then the moments inside them
// (began, noticed, acted, spread, until) that no entry stands for.
func anchorsOf(c *content.Case) anchors {
	a := anchors{times: map[measure.Time]string{}}
	again := map[measure.Time]int{}
	for i := range c.Timeline.Entries {
		at := c.Timeline.Entries[i].At
		if !at.Known() {
			a.rows = append(a.rows, fmt.Sprintf("t-entry-%d", i+1))
			continue
		}
		again[at.Value]++
		id := a.claim(at.Value)
		if n := again[at.Value]; n > 1 {
			id = fmt.Sprintf("%s-%d", id, n)
		}
		a.rows = append(a.rows, id)
	}
	for i := range c.Timeline.Entries {
		for _, g := range momentsIn(&c.Timeline.Entries[i]) {
			if g.Known() {
				a.claim(g.Value)
			}
		}
	}
	return a
}

func (a *anchors) claim(t measure.Time) string {
	id, taken := a.times[t]
	if !taken {
		id = fmt.Sprintf("t-%d", t.Seconds())
		a.times[t] = id
		a.order = append(a.order, t)
	}
	return id
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

// near returns the id for a moment: its own, else that of the last moment
// before it, else that of the first; "" in a case without any.
func (a anchors) near(t measure.Time) string {
	if id, ok := a.times[t]; ok {
		return id
	}
	best, id := measure.Time(-1), ""
	for _, at := range a.order {
		if at <= t && at > best || id == "" {
			best, id = at, a.times[at]
		}
	}
	return id
}
