package tally

// Published gives the result as it may leave the house.
//
// Counts from 1 to threshold-1 (of operations and of events) are hidden and
// printed as "<5" (for 5); so many others are withheld that no hidden count can be
// worked out from everything else that is printed: not from the totals by
// technique, stratum, grade within stratum, period or unit, nor from what the
// marks themselves say. Zeros stay shown. Events among a hidden number of
// operations are hidden too. Whatever is computed from a hidden count is left out
// with it, a pooled comparison when any of its strata holds one. Rates of fewer
// than 30 operations are not printed, nor are p values, nor the units' limits for
// "any complication".
//
// What follows from the written-up cases stays: the cases are published one by
// one, so counting them reveals nothing that they do not say themselves.
//
// The rule bounds what can be worked out from these tables alone. It does not
// reach what readers know from elsewhere.
func (r *Result) Published() *Result {
	c := r.counter
	settings := r.settings
	t := newSheet(c, settings)
	t.published = true
	operations := newNetwork(c, &c.operations, settings.Threshold, c.operationBounds)
	operations.protect(&c.operations, func(key) bool { return false })
	t.operationsMask = operations.mask()
	for k := range c.events {
		l := &c.events[k]
		events := newNetwork(c, l, settings.Threshold, func(at key) (int, int) { return 0, c.operations.at(at) })
		events.protect(l, func(at key) bool { return t.operationsMask[at] != Shown })
		t.eventsMask = append(t.eventsMask, events.mask())
	}
	p := t.result()
	p.Source.LeftOut, p.Source.Cases = r.Source.LeftOut, r.Source.Cases
	p.Onsets, p.Delays, p.Durations = r.Onsets, r.Delays, r.Durations
	p.Choices, p.Decisions, p.Acuity = r.Choices, r.Decisions, r.Acuity
	return p
}

// operationBounds says that operations are never fewer than the events of any one
// complication among them.
func (c *Counter) operationBounds(k key) (low, high int) {
	for i := range c.events {
		low = max(low, c.events[i].at(k))
	}
	return low, unbounded
}
