package chart

import (
	"math"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"caseleaf/builder/tally"
)

// Limit is the limits at one number of operations, as proportions; NaN where
// there is none.
type Limit struct {
	Operations                     int
	Low95, High95, Low998, High998 float64
}

// Unit is one unit of a control-limit plot.
type Unit struct {
	Row tally.LimitRow
	Tip string
}

// LimitWords name the lines.
type LimitWords struct{ Target, Inner, Outer, Units, Operations string }

// Limits is a control-limit plot: units by operations and rate, in per cent, with
// the two pairs of limits about their common rate. A unit whose count is hidden
// has no mark; one that lies outside by exact count has a mark of another shape.
func Limits(h Head, target float64, limits []Limit, units []Unit, words LimitWords) (Chart, error) {
	most := 0
	marks := []Mark{}
	for _, u := range units {
		value, err := number(h, u.Row.Unit, "rate", 100*float64(u.Row.Rate))
		if err != nil {
			return Chart{}, err
		}
		if value == nil {
			continue
		}
		most = max(most, u.Row.Operations.N)
		m := Mark{[]any{u.Row.Operations.N, value}, u.Tip}
		marks = append(marks, m)
	}
	c := charts.NewLine()
	c.SetGlobalOptions(h.common(
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: 0, Name: words.Operations, NameLocation: "middle", NameGap: 26, AxisLabel: plainLabels()}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value", Min: 0, Name: "%", AxisLabel: plainLabels()}),
		charts.WithGridOpts(opts.Grid{Left: "8", Right: "24", Top: "28", Bottom: "76", ContainLabel: opts.Bool(true)}),
		charts.WithDataZoomOpts(opts.DataZoom{Type: "slider", Orient: "horizontal", FilterMode: "none"}),
	)...)
	for _, line := range []struct {
		name string
		dash string
		of   func(Limit) float64
	}{
		{words.Target, "solid", func(Limit) float64 { return target }},
		{words.Inner, "dashed", func(l Limit) float64 { return l.Low95 }},
		{words.Inner, "dashed", func(l Limit) float64 { return l.High95 }},
		{words.Outer, "dotted", func(l Limit) float64 { return l.Low998 }},
		{words.Outer, "dotted", func(l Limit) float64 { return l.High998 }},
	} {
		c.AddSeries(line.name, nil, charts.WithLineStyleOpts(opts.LineStyle{Type: line.dash, Width: 1.2}))
		s := &c.MultiSeries[len(c.MultiSeries)-1]
		s.Data = points(limits, line.of)
		s.ShowSymbol = opts.Bool(false)
	}
	c.AddSeries(words.Units, nil)
	s := &c.MultiSeries[len(c.MultiSeries)-1]
	s.Type, s.Data, s.Symbol = "scatter", shaped(marks, units), "circle"
	return seal(h, c, 0)
}

// points is one line; where there is no limit it is broken.
func points(limits []Limit, of func(Limit) float64) []Mark {
	line := []Mark{}
	for _, l := range limits {
		if v := of(l); math.IsNaN(v) || math.IsInf(v, 0) {
			line = append(line, Mark{Value: []any{l.Operations, nil}})
		} else {
			line = append(line, Mark{Value: []any{l.Operations, 100 * v}})
		}
	}
	return line
}

// shapedMark is a mark with a shape of its own.
type shapedMark struct {
	Mark
	Symbol string `json:"symbol,omitempty"`
}

// shaped gives units outside the limits a diamond.
func shaped(marks []Mark, units []Unit) []shapedMark {
	out := []shapedMark{}
	i := 0
	for _, u := range units {
		if !u.Row.Rate.Defined() {
			continue
		}
		m := shapedMark{Mark: marks[i]}
		if u.Row.Outside != nil && *u.Row.Outside {
			m.Symbol = "diamond"
		}
		out = append(out, m)
		i++
	}
	return out
}
