package figure

import (
	"fmt"
	"math"
	"strconv"
)

// Funnel is a control-limit plot: units by the number of their operations and their rate,
// with the limits that chance alone would seldom pass. Whether a unit lies outside is decided
// by exact tail counts before it comes here, never by where its point stands.
type Funnel struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Target          float64 // the rate the limits are about, a proportion
	Units           []FunnelUnit
	Limits          []FunnelLimit // by rising N; proportions
}

// FunnelUnit is one unit. Outside is empty, "95 %" or "99.8 %".
type FunnelUnit struct {
	Label              string
	Events, Operations int
	Outside            string
	Hidden             bool // few events: not drawn
	Href               string
}

// FunnelLimit holds the limits at one number of operations; NaN where there is none.
type FunnelLimit struct {
	N                              int
	Low95, High95, Low998, High998 float64
}

// shown tells whether a unit is drawn.
func (u FunnelUnit) shown() bool { return !u.Hidden && u.Operations > 0 }

// rate gives events by operations.
func (u FunnelUnit) rate() float64 { return float64(u.Events) / float64(u.Operations) }

// Draw lays the plot out.
func (f Funnel) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: f.IDPrefix, Title: f.Title}
	most, top := 50.0, math.Max(f.Target*2.5, 0.02)
	for _, u := range f.Units {
		if u.shown() {
			most, top = math.Max(most, float64(u.Operations)), math.Max(top, u.rate())
		}
	}
	step := niceStep(top * 1.08 / 5)
	top = math.Ceil(top*1.08/step) * step
	height := min(320, max(220, d.Width*0.5))
	p := newPlot(d, axisNumbers{0, most * 1.05, niceTicks(0, most*1.05, int(d.Width/90)), whole, say(f.Words, "draw-operations")},
		axisNumbers{0, top, niceTicks(0, top, 5), percent, say(f.Words, "draw-axis-rates")}, 4, height)
	f.limits(p, top)
	f.target(p)
	f.points(p)
	d.Height = legend(d, f.keys(), margin, d.Height+2) + 4
	return d
}

// whole writes a whole number.
func whole(v float64) string { return strconv.Itoa(int(math.Round(v))) }

// limits draws the four lines, broken where they leave the frame or don't exist.
func (f Funnel) limits(p *plot, top float64) {
	for _, c := range []struct {
		of func(FunnelLimit) float64
		s  stroke
	}{
		{func(l FunnelLimit) float64 { return l.Low998 }, stroke{Ink, 1.2, ""}},
		{func(l FunnelLimit) float64 { return l.High998 }, stroke{Ink, 1.2, ""}},
		{func(l FunnelLimit) float64 { return l.Low95 }, stroke{Ink, 1.2, "5 3"}},
		{func(l FunnelLimit) float64 { return l.High95 }, stroke{Ink, 1.2, "5 3"}},
	} {
		var run []Point
		for _, l := range f.Limits {
			v := c.of(l)
			if math.IsNaN(v) || v < 0 || v > top || float64(l.N) > p.x.to {
				p.d.polyline(c.s, run...)
				run = nil
				continue
			}
			run = append(run, p.at(float64(l.N), v))
			p.placer.blockLine(run)
		}
		p.d.polyline(c.s, run...)
	}
}

// target draws the rate the limits are about.
func (f Funnel) target(p *plot) {
	a, b := p.at(0, f.Target), p.at(p.x.to, f.Target)
	p.d.line(a, b, stroke{Accent, 1.6, ""})
	p.placer.block(Box{a.X, a.Y - 1, b.X - a.X, 2})
}

// points draws the units: outside ones as diamonds, and names as many as there is room for,
// those outside first.
func (f Funnel) points(p *plot) {
	for _, u := range f.Units {
		if u.shown() {
			c := p.at(float64(u.Operations), u.rate())
			p.placer.block(Box{c.X - 5, c.Y - 5, 10, 10})
		}
	}
	for _, outside := range []bool{true, false} {
		for _, u := range f.Units {
			if !u.shown() || (u.Outside != "") != outside {
				continue
			}
			c := p.at(float64(u.Operations), u.rate())
			p.d.open("figure-unit", u.Href, fmt.Sprintf("%s: %d/%d", u.Label, u.Events, u.Operations))
			if outside {
				diamond(p.d, c)
				p.d.disc(c, 1.8, Ink, stroke{})
			} else {
				p.d.disc(c, 3.6, Paper, inkLine)
			}
			p.label(c, u.Label, Ink)
			p.d.close()
		}
	}
}

// keys explains the lines and marks.
func (f Funnel) keys() []key {
	line := func(s stroke) func(*Drawing, Point) {
		return func(d *Drawing, c Point) { d.line(Point{c.X - 11, c.Y}, Point{c.X + 11, c.Y}, s) }
	}
	return []key{
		{say(f.Words, "draw-all-units", percent(f.Target)), 22, line(stroke{Accent, 1.6, ""})},
		{say(f.Words, "draw-limits", "95 %"), 22, line(stroke{Ink, 1.2, "5 3"})},
		{say(f.Words, "draw-limits", "99.8 %"), 22, line(stroke{Ink, 1.2, ""})},
		{say(f.Words, "draw-unit"), 9, func(d *Drawing, c Point) { d.disc(c, 3.6, Paper, inkLine) }},
		{say(f.Words, "draw-outside"), 13, func(d *Drawing, c Point) { diamond(d, c); d.disc(c, 1.8, Ink, stroke{}) }},
	}
}

// Caption says how many units lie outside, of how many and over how many operations.
func (f Funnel) Caption() string {
	units, outside, events, operations := 0, 0, 0, 0
	for _, u := range f.Units {
		if !u.shown() {
			continue
		}
		units++
		events, operations = events+u.Events, operations+u.Operations
		if u.Outside != "" {
			outside++
		}
	}
	return sentence(f.Finding) + say(f.Words, "draw-funnel-caption", outside, units, events, operations)
}

// Table gives the units.
func (f Funnel) Table() Table {
	t := Table{Headers: heads(f.Words, "draw-head-unit", "draw-head-events", "draw-head-operations", "draw-head-rate", "draw-head-outside")}
	for _, u := range f.Units {
		row := []string{u.Label, say(f.Words, "draw-not-shown"), strconv.Itoa(u.Operations), "", ""}
		if u.shown() {
			row[1], row[4] = strconv.Itoa(u.Events), u.Outside
			if u.Operations >= fewOperations {
				row[3] = percent(u.rate())
			}
			if row[4] == "" {
				row[4] = say(f.Words, "draw-no")
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
