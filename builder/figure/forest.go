package figure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ForestScale is what an interval plot measures.
type ForestScale int

// The scales. Rates and differences are proportions, drawn in per cent on a straight axis;
// ratios are drawn on a logarithmic one.
const (
	Rates ForestScale = iota
	Differences
	Ratios
)

// Forest is an interval plot: one point with its interval for each group, with the counts
// beside it. It draws rates of a consecutive logbook; it is not for counts of cases.
type Forest struct {
	IDPrefix, Title string
	Words           Words
	Finding         string // what the figure shows, in one sentence, for the caption
	Scale           ForestScale
	Method          string // "Wilson, 95 %"
	Operations      int    // consecutive operations that the rates are out of; 0 if not to be told
	Rows            []ForestRow
}

// ForestRow is one line. A row with Heading only heads those that follow.
type ForestRow struct {
	Heading, Label     string
	Events, Operations int     // the counts; Operations 0 where there are none to give
	Value, Low, High   float64 // NaN where nothing could be estimated
	Hidden             bool    // few events: neither count nor rate is shown
	Href               string
}

// fewOperations is the number of operations below which no percentage is printed.
const fewOperations = 30

// Draw lays the plot out.
func (f Forest) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: f.IDPrefix, Title: f.Title}
	p := lanePlot{d: d, tick: f.tick, axis: f.axis()}
	p.from, p.to, p.ticks, p.refs = f.span()
	for _, r := range f.Rows {
		if r.Heading != "" {
			p.lanes = append(p.lanes, lane{head: true, label: r.Heading})
			continue
		}
		l := lane{label: r.Label, value: f.value(r), href: r.Href}
		if !r.Hidden && !math.IsNaN(r.Low) && !math.IsNaN(r.High) {
			l.mark = func(x scale, y Px) { f.whisker(d, x, y, r) }
		}
		p.lanes = append(p.lanes, l)
	}
	d.Height = p.draw(4) + 4
	return d
}

// place turns a value into the axis's own scale.
func (f Forest) place(v float64) float64 {
	if f.Scale == Ratios {
		return math.Log10(v)
	}
	return v
}

// span gives the ends of the axis, its ticks and its reference lines.
func (f Forest) span() (from, to float64, ticks, refs []float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range f.Rows {
		if r.Heading != "" || r.Hidden || math.IsNaN(r.Low) || math.IsNaN(r.High) {
			continue
		}
		low, high = math.Min(low, r.Low), math.Max(high, r.High)
	}
	if f.Scale == Ratios {
		return ratioSpan(low, high)
	}
	if math.IsInf(low, 0) || math.IsInf(high, 0) {
		low, high = 0, 0.1
	}
	low, high = math.Min(low, 0), math.Max(high, 0.01)
	step := niceStep((high - low) / 4)
	from, to = math.Floor(low/step+1e-9)*step, math.Ceil(high/step-1e-9)*step
	if f.Scale == Rates {
		return 0, math.Min(to, 1), niceTicks(0, math.Min(to, 1), 6), nil
	}
	return from, to, niceTicks(from, to, 6), []float64{0}
}

// ratioSpan gives a logarithmic axis in powers and halves of ten around 1, within 1/100 to
// 100; intervals beyond end in an arrow.
func ratioSpan(low, high float64) (from, to float64, ticks, refs []float64) {
	low = math.Max(0.01, math.Min(low, 0.5))
	high = math.Min(100, math.Max(high, 2))
	for _, t := range []float64{0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100} {
		if t >= low/2 && t <= high*2 {
			ticks = append(ticks, math.Log10(t))
		}
	}
	return ticks[0], ticks[len(ticks)-1], ticks, []float64{0}
}

// tick writes a number of the axis.
func (f Forest) tick(v float64) string {
	switch f.Scale {
	case Ratios:
		return strconv.FormatFloat(math.Round(math.Pow(10, v)*100)/100, 'f', -1, 64)
	case Differences:
		return signedPercent(v)
	}
	return percent(v)
}

// axis names what the axis measures.
func (f Forest) axis() string {
	what := say(f.Words, [...]string{"draw-axis-rates", "draw-axis-differences", "draw-axis-ratios"}[f.Scale])
	if f.Method != "" {
		return say(f.Words, "draw-axis-method", what, f.Method)
	}
	return what
}

// whisker draws the interval and, unless operations are too few, the point. Ends beyond
// the axis are arrows.
func (f Forest) whisker(d *Drawing, x scale, y Px, r ForestRow) {
	low, high := f.place(r.Low), f.place(r.High)
	a, b := x.at(x.clamp(low)), x.at(x.clamp(high))
	d.line(Point{a, y}, Point{b, y}, stroke{Accent, 2, ""})
	whiskerEnd(d, Point{a, y}, low < x.from-1e-12, -1)
	whiskerEnd(d, Point{b, y}, high > x.to+1e-12, 1)
	v := f.place(r.Value)
	if r.few() || math.IsNaN(v) || v < x.from || v > x.to {
		return
	}
	c := x.at(v)
	d.rect(Box{c - 4, y - 4, 8, 8}, Ink, stroke{})
}

// whiskerEnd draws a cap, or an arrow where the interval goes on.
func whiskerEnd(d *Drawing, p Point, beyond bool, dir Px) {
	if beyond {
		d.polygon(Accent, stroke{}, p, Point{p.X - dir*7, p.Y - 4}, Point{p.X - dir*7, p.Y + 4})
		return
	}
	d.line(Point{p.X, p.Y - 4}, Point{p.X, p.Y + 4}, stroke{Accent, 2, ""})
}

// few reports whether the operations are too few for a percentage.
func (r ForestRow) few() bool { return r.Operations > 0 && r.Operations < fewOperations }

// value writes the numbers of a row.
func (f Forest) value(r ForestRow) string {
	switch {
	case r.Hidden:
		return say(f.Words, "draw-not-shown")
	case r.Operations == 0 && (math.IsNaN(r.Low) || math.IsNaN(r.High)):
		return say(f.Words, "draw-no-data")
	case r.few():
		return fmt.Sprintf("%d/%d", r.Events, r.Operations)
	case math.IsNaN(r.Value):
		return say(f.Words, "draw-not-estimable")
	}
	out := say(f.Words, "draw-interval", f.number(r.Value), f.number(r.Low), f.number(r.High))
	if r.Operations > 0 {
		out = fmt.Sprintf("%d/%d: %s", r.Events, r.Operations, out)
	}
	return out
}

// number writes one value with the precision of the scale.
func (f Forest) number(v float64) string {
	switch {
	case math.IsInf(v, 1):
		return "∞"
	case f.Scale == Ratios:
		return strconv.FormatFloat(v, 'f', 2, 64)
	case f.Scale == Differences:
		return signedPercent(v)
	}
	return percent(v)
}

// Caption says the finding and the denominator.
func (f Forest) Caption() string {
	rows, few := 0, 0
	for _, r := range f.Rows {
		if r.Heading != "" {
			continue
		}
		rows++
		if r.few() && !r.Hidden {
			few++
		}
	}
	out := say(f.Words, "draw-n-rows", rows)
	if f.Operations > 0 {
		out = say(f.Words, "draw-out-of", out, f.Operations)
	}
	if few > 0 {
		return sentence(f.Finding) + sentence(out) + say(f.Words, "draw-under-thirty")
	}
	return sentence(f.Finding) + strings.TrimSpace(sentence(out))
}

// sentence ends a finding with a stop and a space.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	if last := s[len(s)-1]; last != '.' && last != '!' && last != '?' {
		s += "."
	}
	return s + " "
}

// percent writes a proportion: "2.5 %", "0 %", "12 %".
func percent(v float64) string {
	p := math.Round(v*1e9) / 1e7
	decimals := 1
	if math.Abs(p) >= 9.95 || p == math.Trunc(p) {
		decimals = 0
	}
	if math.Abs(p) < 0.995 && p != 0 && math.Abs(p*10-math.Round(p*10)) > 1e-9 {
		decimals = 2
	}
	return strconv.FormatFloat(p, 'f', decimals, 64) + " %"
}

// signedPercent writes a difference with its sign: "+1.2", "−0.5", "0".
func signedPercent(v float64) string {
	s := strconv.FormatFloat(math.Round(v*1000)/10, 'f', -1, 64)
	switch {
	case s == "0" || s == "-0":
		return "0"
	case s[0] == '-':
		return "−" + s[1:]
	}
	return "+" + s
}

// Table gives the rows with counts and numbers.
func (f Forest) Table() Table {
	t := Table{Headers: heads(f.Words, "draw-head-group", "draw-head-events", "draw-head-operations",
		[...]string{"draw-head-rate", "draw-head-difference", "draw-head-odds"}[f.Scale], "draw-head-low", "draw-head-high")}
	heading := ""
	for _, r := range f.Rows {
		if r.Heading != "" {
			heading = r.Heading
			continue
		}
		label := r.Label
		if heading != "" {
			label = heading + ": " + label
		}
		t.Rows = append(t.Rows, f.tableRow(label, r))
	}
	t.Notes = append(t.Notes, say(f.Words, "draw-intervals-by", f.Method))
	return t
}

// tableRow writes one row, hiding what may not be shown.
func (f Forest) tableRow(label string, r ForestRow) []string {
	row := []string{label, "", "", "", "", ""}
	if r.Hidden {
		row[1] = say(f.Words, "draw-not-shown")
		return row
	}
	if r.Operations > 0 {
		row[1], row[2] = strconv.Itoa(r.Events), strconv.Itoa(r.Operations)
	}
	if !r.few() {
		for i, v := range []float64{r.Value, r.Low, r.High} {
			if !math.IsNaN(v) {
				row[3+i] = f.number(v)
			}
		}
	}
	return row
}
