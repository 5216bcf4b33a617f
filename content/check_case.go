package content

import (
	"caseleaf/content/diagnose"
	"caseleaf/content/measure"

	"gopkg.in/yaml.v3"
)

// checkCase finds what is wrong between the parts of one case.
func checkCase(r *reader, n *yaml.Node, c *Case) {
	checkTimeOrder(r, c)
	checkEnds(r, c)
	if c.Release.Consent.Value == "not-required" && !c.Release.Reason.Known() {
		r.bag.Error("missing-key", c.Release.Consent.Span, "consent not-required needs a reason")
	}
}

// checkTimeOrder reports entries that stand after a later one. They are kept;
// the published order is by time, ties in file order.
func checkTimeOrder(r *reader, c *Case) {
	var latest Given[measure.Time]
	for _, e := range c.Timeline.Entries {
		switch {
		case !e.At.Known():
		case latest.Known() && e.At.Value < latest.Value:
			r.bag.Error("time-order", e.At.Span, "time %s is out of order: it stands after %s", e.At.Value, latest.Value).
				Also(latest.Span, "the later time")
		default:
			latest = e.At
		}
	}
}

// checkEnds reports entries after the end of the recording.
func checkEnds(r *reader, c *Case) {
	ends, ok := c.Recording.Ends.Get()
	if !ok {
		return
	}
	for _, e := range c.Timeline.Entries {
		if at, ok := e.At.Get(); ok && at > ends {
			r.bag.Error("time-order", e.At.Span, "time %s is after the end of the recording at %s", at, ends).
				Also(c.Recording.Ends.Span, "the end")
		}
	}
	for _, cut := range c.Recording.Cuts {
		if cut.Value > ends {
			r.bag.Error("time-order", cut.Span, "the cut at %s is after the end of the recording at %s", cut.Value, ends)
		}
	}
}

// checkEvent holds the times of an event in order: it can't be noticed before
// it began, nor acted on before it was noticed.
func checkEvent(r *reader, n *yaml.Node, e *entry[Event]) {
	event := e.That
	inOrder(r, "noticed", event.Noticed, "it began", event.Began)
	inOrder(r, "acted on", event.Acted, "it was noticed", event.Noticed)
	if !event.Noticed.Known() {
		inOrder(r, "acted on", event.Acted, "it began", event.Began)
	}
	last := Given[measure.Time]{}
	for _, s := range event.Spread {
		if last.Known() && s.At.Known() && s.At.Value < last.Value {
			r.bag.Error("time-order", s.At.Span, "time %s is out of order: it stands after %s", s.At.Value, last.Value)
		}
		last = s.At
	}
}

func inOrder(r *reader, second string, later Given[measure.Time], first string, earlier Given[measure.Time]) {
	if later.Known() && earlier.Known() && later.Value < earlier.Value {
		r.bag.Error("impossible-value", later.Span, "%s at %s, before %s at %s", second, later.Value, first, earlier.Value).
			Also(earlier.Span, "the earlier time")
	}
}

// checkDecisionPoint holds a decision point to its own options.
func checkDecisionPoint(r *reader, n *yaml.Node, e *entry[DecisionPoint]) {
	d := e.That
	if len(d.Options) == 1 {
		r.bag.Error("bad-value", d.Options[0].Span, "a decision needs at least two options")
	}
	seen := map[string]diagnose.Span{}
	var ids []string
	for _, o := range d.Options {
		if !o.ID.Known() {
			continue
		}
		if earlier, ok := seen[o.ID.Value]; ok {
			r.bag.Error("duplicate-id", o.ID.Span, "option %q stands twice", o.ID.Value).Also(earlier, "the first one")
			continue
		}
		seen[o.ID.Value] = o.ID.Span
		ids = append(ids, o.ID.Value)
	}
	if d.Chosen.Known() && len(ids) > 0 {
		r.known(d.Chosen, ids, "option")
	}
	if d.CameOf.Known() && !d.Point.Known() {
		r.bag.Error("unknown-id", d.CameOf.Span, "came_of names a branch of a shared decision, so it needs point; write result for words")
	}
}

// known reports an id that is not in a list.
func (r *reader) known(id Given[string], ids []string, what string) bool {
	return reportUnknownID(r.bag, id, ids, what)
}
