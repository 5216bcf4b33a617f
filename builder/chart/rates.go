package chart

import (
	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"

	"caseleaf/builder/tally"
)

// Interval names the mark that the page's script draws: a whisker from the
// second to the third value with a square at the first. It is a name, not code.
const Interval types.FuncStr = "interval"

// Mark is one mark with the words that are shown when it is pointed at. Tip is
// plain text: the page's script draws it as text, never as markup.
type Mark struct {
	Value any    `json:"value"`
	Tip   string `json:"tip,omitempty"`
}

// RateRow is one row of an interval plot: a technique, or a period.
type RateRow struct {
	Label string
	Tip   string // the row in words: counts, rate, interval, or why there is none
	Rate  tally.Rate
}

// Rates is an interval plot, one row a group, in per cent. A row without a rate
// keeps its place and has no mark.
func Rates(h Head, rows []RateRow) (Chart, error) {
	var labels []string
	marks := []Mark{}
	for i, r := range rows {
		labels = append(labels, r.Label)
		value := []any{i, nil, nil, nil}
		for k, v := range []tally.Number{r.Rate.Rate, r.Rate.Interval.Low, r.Rate.Interval.High} {
			n, err := number(h, r.Label, "rate", 100*float64(v))
			if err != nil {
				return Chart{}, err
			}
			value[k+1] = n
		}
		if value[1] != nil {
			marks = append(marks, Mark{value, r.Tip})
		}
	}
	c := charts.NewCustom()
	c.SetGlobalOptions(h.common(
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: 0, Name: "%", AxisLabel: plainLabels()}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: labels, AxisLabel: plainLabels()}),
		charts.WithGridOpts(plainGrid()),
		charts.WithDataZoomOpts(opts.DataZoom{Type: "slider", Orient: "horizontal", FilterMode: "none"}),
	)...)
	c.AddSeries(h.Title, nil, charts.WithCustomChartOpts(opts.CustomChart{RenderItem: Interval}),
		charts.WithEncodeOpts(opts.Encode{X: []int{1, 2, 3}, Y: 0}))
	c.MultiSeries[0].Data = marks
	return seal(h, c, len(rows))
}

// plainLabels are the labels of an axis, first and last one with the others.
func plainLabels() *opts.AxisLabel {
	return &opts.AxisLabel{ShowMinLabel: opts.Bool(true), ShowMaxLabel: opts.Bool(true)}
}

// plainGrid is the room of the plot, the labels of both axes within it.
func plainGrid() opts.Grid {
	return opts.Grid{Left: "8", Right: "40", Top: "28", Bottom: "56", ContainLabel: opts.Bool(true)}
}
