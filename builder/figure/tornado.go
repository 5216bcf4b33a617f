package figure

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Tornado shows how far each uncertain number of a decision moves the margin between its
// two best options when it runs through its range, all others held. Where a bar crosses
// zero, the preferred option changes.
type Tornado struct {
	IDPrefix, Title string
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
	d := &Drawing{Width: max(width, Narrow), IDPrefix: t.IDPrefix, Title: t.Title, Desc: t.Caption()}
	low, high := math.Min(0, t.Base), math.Max(0, t.Base)
	p := lanePlot{d: d, axis: "margin in points: " + t.Option + " less " + t.Other + "; right of 0 " + t.Option + " is preferred"}
	for _, r := range t.sorted() {
		low, high = math.Min(low, math.Min(r.AtLow, r.AtHigh)), math.Max(high, math.Max(r.AtLow, r.AtHigh))
		p.lanes = append(p.lanes, lane{label: r.Label, value: r.words(), href: r.Href,
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
		{"low end of the range", 14, func(d *Drawing, c Point) { d.rect(Box{c.X - 7, c.Y - 5, 14, 10}, Paper, stroke{Ink, 1.2, ""}) }},
		{"high end", 14, func(d *Drawing, c Point) { d.rect(Box{c.X - 7, c.Y - 5, 14, 10}, Accent, stroke{Ink, 1.2, ""}) }},
		{"margin as stated: " + points(t.Base), 3, func(d *Drawing, c Point) {
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
func (r TornadoRow) words() string {
	out := r.Low + " to " + r.High
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
	return sentence(t.Finding) + fmt.Sprintf("The margin of %s over %s is %s points as stated; of %s varied one at a time, %d would change the preferred option within its range. Teaching, not advice.",
		t.Option, t.Other, points(t.Base), count(len(t.Rows), "number"), changes)
}

// Table gives the ranges and the margins.
func (t Tornado) Table() Table {
	out := Table{Headers: []string{"Number", "Low", "High", "Margin at low", "Margin at high", "Choice changes"}}
	for _, r := range t.sorted() {
		change := r.Threshold
		if change == "" {
			change = "not in this range"
		}
		out.Rows = append(out.Rows, []string{r.Label, r.Low, r.High, points(r.AtLow), points(r.AtHigh), change})
	}
	return out
}
