package figure

import "caseleaf/content/measure"

// DelayGroups is Delays for more events than anybody could read line by line: one line for
// each complication, with the medians and the middle halves of its two delays.
type DelayGroups struct {
	IDPrefix, Title string
	Words           Words
	Rows            []DelayGroup
}

// DelayGroup is the delays of the events of one complication.
type DelayGroup struct {
	Label         string
	Href          string
	Events        int
	Unseen, Until DelaySpread
}

// DelaySpread is how N known delays spread: median, first and third quartile. Nothing is
// known where N is 0, and quartiles are not told of fewer than fewestForQuartiles.
type DelaySpread struct {
	N                    int
	Median, Lower, Upper measure.Duration
}

const fewestForQuartiles = 4

// Draw lays the plot out.
func (v DelayGroups) Draw(width Px) *Drawing {
	p := newDelayPlot(width, v.IDPrefix, v.Title, v.Words)
	for _, r := range v.Rows {
		if r.Unseen.N > 0 {
			p.began(r.Unseen.Upper)
		}
		if r.Until.N > 0 {
			p.acted(r.Until.Upper)
		}
		p.lanes = append(p.lanes, lane{label: r.Label, value: r.medians().words(v.Words), href: r.Href,
			mark: func(x scale, y Px) { r.draw(p.d, x, y) }})
	}
	return p.finish(v.Words)
}

// medians is the row of an event that took the median of each delay.
func (g DelayGroup) medians() DelayRow {
	var r DelayRow
	if g.Unseen.N > 0 {
		r.Unseen = &g.Unseen.Median
	}
	if g.Until.N > 0 {
		r.Until = &g.Until.Median
	}
	return r
}

// draw draws the medians as one event is drawn, and under them the middle halves.
func (g DelayGroup) draw(d *Drawing, x scale, y Px) {
	half := func(s DelaySpread, side float64) {
		if s.N >= fewestForQuartiles {
			below := y + markR + 2
			d.line(Point{x.at(side * float64(s.Lower)), below}, Point{x.at(side * float64(s.Upper)), below}, inkLine)
		}
	}
	half(g.Unseen, -1)
	half(g.Until, 1)
	g.medians().draw(d, x, y)
}

// words tells a spread in a cell of a table.
func (s DelaySpread) words(w Words) string {
	switch {
	case s.N == 0:
		return say(w, "draw-unknown")
	case s.N < fewestForQuartiles:
		return say(w, "draw-median-few", s.Median.String(), s.N)
	}
	return say(w, "draw-median-of", s.Median.String(), s.Lower.String(), s.Upper.String(), s.N)
}

// Caption says how many events have which delays, and what the marks are.
func (v DelayGroups) Caption() string {
	events, began, acted := 0, 0, 0
	for _, r := range v.Rows {
		events, began, acted = events+r.Events, began+r.Unseen.N, acted+r.Until.N
	}
	return say(v.Words, "draw-delay-caption", say(v.Words, "draw-n-events", events), began, acted) + " " + say(v.Words, "draw-delay-groups")
}

// Table gives the medians with their quartiles.
func (v DelayGroups) Table() Table {
	t := Table{Headers: heads(v.Words, "draw-event", "draw-to-notice", "draw-to-action")}
	for _, r := range v.Rows {
		t.Rows = append(t.Rows, []string{r.Label, r.Unseen.words(v.Words), r.Until.words(v.Words)})
	}
	return t
}
