package figure

import (
	"math"
	"slices"
	"strconv"
)

// Tornado shows how far each uncertain number of a decision moves the margin between its
// two best options when it runs through its range, all others held. Where a bar crosses
// zero, the preferred option changes.
type Tornado struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Option, Other   string  // margin is the value of Option less that of Other
	Base            float64 // margin with every number at its stated value
	Rows            []TornadoRow
}

// TornadoRow is one number: the ends of its range, the margins there, and the values at
// which the preferred option changes, if any.
type TornadoRow struct {
	Label         string
	Low, High     string // the ends of its range as printed
	AtLow, AtHigh float64
	Threshold     string // "changes at 0.31"; empty where it never does
	Href          string
}

// Draw lays the bars out, the longest first.
func (t Tornado) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: t.IDPrefix, Title: t.Title}
	low, high := math.Min(0, t.Base), math.Max(0, t.Base)
	p := lanePlot{d: d, axis: say(t.Words, "draw-tornado-axis", t.Option, t.Other)}
	for _, r := range t.sorted() {
		low, high = math.Min(low, math.Min(r.AtLow, r.AtHigh)), math.Max(high, math.Max(r.AtLow, r.AtHigh))
		p.lanes = append(p.lanes, lane{label: r.Label, value: r.words(t.Words), href: r.Href,
			mark: func(x scale, y Px) { t.bar(d, x, y, r) }})
	}
	step := niceStep(math.Max(high-low, 1e-6) / 5)
	p.from, p.to = math.Floor(low/step)*step, math.Ceil(high/step)*step
	if p.from == p.to {
		p.to = p.from + step
	}
	p.ticks, p.refs = niceTicks(p.from, p.to, 6), []float64{0}
	p.tick = points
	y := p.draw(4)
	keys := []key{
		{say(t.Words, "draw-low-end"), 14, func(d *Drawing, c Point) { d.rect(Box{c.X - 7, c.Y - 5, 14, 10}, Paper, stroke{Ink, 1.2, ""}) }},
		{say(t.Words, "draw-high-end"), 14, func(d *Drawing, c Point) { d.rect(Box{c.X - 7, c.Y - 5, 14, 10}, Accent, stroke{Ink, 1.2, ""}) }},
		{say(t.Words, "draw-margin-stated", points(t.Base)), 3, func(d *Drawing, c Point) {
			d.line(Point{c.X, c.Y - 7}, Point{c.X, c.Y + 7}, stroke{Ink, 2.4, ""})
		}},
	}
	d.Height = legend(d, keys, margin, y+6) + 4
	return d
}

// sorted gives the rows by the length of their bars, longest first; ties keep their order.
func (t Tornado) sorted() []TornadoRow {
	rows := slices.Clone(t.Rows)
	slices.SortStableFunc(rows, func(a, b TornadoRow) int {
		la, lb := math.Abs(a.AtHigh-a.AtLow), math.Abs(b.AtHigh-b.AtLow)
		switch {
		case la > lb:
			return -1
		case la < lb:
			return 1
		}
		return 0
	})
	return rows
}

// bar draws from the base to either end: hollow to the low, filled to the high.
func (t Tornado) bar(d *Drawing, x scale, y Px, r TornadoRow) {
	base := x.at(t.Base)
	part := func(v float64, f Paint) {
		a, b := base, x.at(v)
		if a > b {
			a, b = b, a
		}
		d.rect(Box{a, y - 5, b - a, 10}, f, stroke{Ink, 1.2, ""})
	}
	part(r.AtLow, Paper)
	part(r.AtHigh, Accent)
	d.line(Point{base, y - 7}, Point{base, y + 7}, stroke{Ink, 2.4, ""})
}

// words tells the range and the threshold.
func (r TornadoRow) words(w Words) string {
	out := say(w, "draw-range", r.Low, r.High)
	if r.Threshold != "" {
		out += "; " + r.Threshold
	}
	return out
}

// points writes a margin: "+3.5", "−2", "0".
func points(v float64) string {
	s := strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64)
	switch {
	case s == "0" || s == "-0":
		return "0"
	case s[0] == '-':
		return "−" + s[1:]
	}
	return "+" + s
}

// Caption says what is compared and how many numbers change the choice.
func (t Tornado) Caption() string {
	changes := 0
	for _, r := range t.Rows {
		if r.Threshold != "" {
			changes++
		}
	}
	return sentence(t.Finding) + say(t.Words, "draw-tornado-caption", len(t.Rows), changes, t.Option, t.Other, points(t.Base)) + " " +
		say(t.Words, "draw-not-advice")
}

// Table gives the ranges and the margins.
func (t Tornado) Table() Table {
	out := Table{Headers: heads(t.Words, "draw-head-number", "draw-head-low", "draw-head-high", "draw-head-at-low", "draw-head-at-high", "draw-head-changes")}
	for _, r := range t.sorted() {
		change := r.Threshold
		if change == "" {
			change = say(t.Words, "draw-not-in-range")
		}
		out.Rows = append(out.Rows, []string{r.Label, r.Low, r.High, points(r.AtLow), points(r.AtHigh), change})
	}
	return out
}
