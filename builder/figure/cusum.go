package figure

import (
	"math"
	"strconv"
)

// Cusum is a cumulative-sum chart of one series: the score after each operation, and the
// limit at which it signals. The score starts again after a signal, as the rule has it.
type Cusum struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Scores          []float64 // after operation 1, 2, …
	Events          []int     // operations, from 1, with the event
	Signals         []int     // operations, from 1, at which the score reached the limit
	Limit           float64
	Tested          string // "a doubling of the rate from 1.5 %"
}

// Draw lays the chart out.
func (c Cusum) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: c.IDPrefix, Title: c.Title}
	top := math.Max(c.Limit, 0.1)
	for _, v := range c.Scores {
		top = math.Max(top, v)
	}
	step := niceStep(top * 1.15 / 4)
	top = math.Ceil(top*1.15/step) * step
	n := float64(max(len(c.Scores), 10))
	p := newPlot(d, axisNumbers{0, n, niceTicks(0, n, int(d.Width/90)), whole, say(c.Words, "draw-in-order")},
		axisNumbers{0, top, niceTicks(0, top, 4), func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) },
			c.axis()}, 4, min(280, max(200, d.Width*0.42)))
	y := p.y.at(c.Limit)
	d.line(Point{p.x.a, y}, Point{p.x.b, y}, stroke{Ink, 1.2, "6 3"})
	p.placer.block(Box{p.x.a, y - 3, p.x.b - p.x.a, 6})
	c.path(p)
	c.marks(p)
	d.Height = legend(d, c.keys(), margin, d.Height+2) + 4
	return d
}

// axis names the score and what it gathers evidence for.
func (c Cusum) axis() string {
	if c.Tested == "" {
		return say(c.Words, "draw-score")
	}
	return say(c.Words, "draw-score-for", c.Tested)
}

// path draws the score as steps.
func (c Cusum) path(p *plot) {
	points := []Point{p.at(0, 0)}
	for i, v := range c.Scores {
		last := points[len(points)-1]
		next := p.at(float64(i+1), v)
		if next.Y != last.Y {
			points = append(points, Point{next.X, last.Y})
		}
		points = append(points, next)
		p.placer.block(Box{last.X, min(last.Y, next.Y) - 2, next.X - last.X + 1, max(last.Y, next.Y) - min(last.Y, next.Y) + 4})
	}
	p.d.polyline(stroke{Accent, 1.8, ""}, points...)
}

// marks draws a tick on the axis for each event and names each signal.
func (c Cusum) marks(p *plot) {
	for _, i := range c.Events {
		x := p.x.at(float64(i))
		p.d.line(Point{x, p.y.a}, Point{x, p.y.a - 7}, stroke{Ink, 1.2, ""})
	}
	for _, i := range c.Signals {
		if i < 1 || i > len(c.Scores) {
			continue
		}
		at := p.at(float64(i), c.Scores[i-1])
		triangle(p.d, Point{at.X, at.Y - 2}, true)
		p.label(at, say(c.Words, "draw-signal-at", i), Ink)
	}
}

// keys explains the lines and marks.
func (c Cusum) keys() []key {
	return []key{
		{say(c.Words, "draw-score"), 22, func(d *Drawing, at Point) {
			d.line(Point{at.X - 11, at.Y}, Point{at.X + 11, at.Y}, stroke{Accent, 1.8, ""})
		}},
		{say(c.Words, "draw-limit", strconv.FormatFloat(math.Round(c.Limit*1000)/1000, 'f', -1, 64)), 22, func(d *Drawing, at Point) {
			d.line(Point{at.X - 11, at.Y}, Point{at.X + 11, at.Y}, stroke{Ink, 1.2, "6 3"})
		}},
		{say(c.Words, "draw-kind-event"), 4, func(d *Drawing, at Point) {
			d.line(Point{at.X, at.Y - 4}, Point{at.X, at.Y + 4}, stroke{Ink, 1.2, ""})
		}},
		{say(c.Words, "draw-signal"), 11, func(d *Drawing, at Point) { triangle(d, at, true) }},
	}
}

// Caption says how many signals, out of how many operations and events.
func (c Cusum) Caption() string {
	return sentence(c.Finding) + say(c.Words, "draw-cusum-caption", say(c.Words, "draw-n-signals", len(c.Signals)),
		say(c.Words, "draw-n-operations", len(c.Scores)), say(c.Words, "draw-n-events", len(c.Events)))
}

// Table gives the operations at which something happened; the score between events falls
// step by step.
func (c Cusum) Table() Table {
	t := Table{Headers: heads(c.Words, "draw-head-operation", "draw-what", "draw-head-score")}
	signal := map[int]bool{}
	for _, i := range c.Signals {
		signal[i] = true
	}
	event := map[int]bool{}
	for _, i := range c.Events {
		event[i] = true
	}
	for i := 1; i <= len(c.Scores); i++ {
		what := ""
		switch {
		case event[i] && signal[i]:
			what = say(c.Words, "draw-joined", say(c.Words, "draw-kind-event"), say(c.Words, "draw-signal"))
		case event[i]:
			what = say(c.Words, "draw-kind-event")
		case signal[i]:
			what = say(c.Words, "draw-signal")
		case i != len(c.Scores):
			continue
		default:
			what = say(c.Words, "draw-last-operation")
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(i), what, strconv.FormatFloat(c.Scores[i-1], 'f', 2, 64)})
	}
	return t
}
