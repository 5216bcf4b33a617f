package chart

import (
	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// Stretch names the mark of a delay: a line from the first value (before zero) to
// the second with a mark at zero, drawn by the page's script.
const Stretch types.FuncStr = "stretch"

// Cell is one count of an onset map.
type Cell struct {
	Step, Complication int // places in the lists of labels
	Count              int
	Tip                string
}

// Onsets maps counts of chosen cases by step and complication: counts, never
// rates.
func Onsets(h Head, steps, complications []string, cells []Cell) (Chart, error) {
	marks, most := []Mark{}, 1
	for _, c := range cells {
		marks = append(marks, Mark{[]any{c.Step, c.Complication, c.Count}, c.Tip})
		most = max(most, c.Count)
	}
	c := charts.NewHeatMap()
	labels := plainLabels()
	labels.Rotate, labels.Interval = 60, "0"
	c.SetGlobalOptions(h.common(
		charts.WithXAxisOpts(opts.XAxis{Type: "category", Data: steps, AxisLabel: labels, SplitArea: &opts.SplitArea{Show: opts.Bool(true)}}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: complications, AxisLabel: plainLabels()}),
		charts.WithGridOpts(opts.Grid{Left: "8", Right: "16", Top: "12", Bottom: "12", ContainLabel: opts.Bool(true)}),
		charts.WithVisualMapOpts(opts.VisualMap{Type: "continuous", Min: 0, Max: float32(most), Show: opts.Bool(false)}),
	)...)
	c.SetXAxis(steps)
	c.AddSeries(h.Title, nil, charts.WithLabelOpts(opts.Label{Show: opts.Bool(true)}))
	c.MultiSeries[0].Data = marks
	return seal(h, c, len(complications)+8)
}

// Delay is one event of one case, in seconds; NaN where nobody knows.
type Delay struct {
	Label         string
	Unseen, Until float64
	Tip           string
}

// Delays shows how long events went unseen (left of zero) and how long until
// something was done (right of it).
func Delays(h Head, rows []Delay, seconds string) (Chart, error) {
	var labels []string
	marks := []Mark{}
	for i, r := range rows {
		labels = append(labels, r.Label)
		unseen, err := number(h, r.Label, "delay", -r.Unseen)
		if err != nil {
			return Chart{}, err
		}
		until, err := number(h, r.Label, "delay", r.Until)
		if err != nil {
			return Chart{}, err
		}
		if unseen != nil || until != nil {
			marks = append(marks, Mark{[]any{i, unseen, until}, r.Tip})
		}
	}
	c := charts.NewCustom()
	c.SetGlobalOptions(h.common(
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Name: seconds, NameLocation: "middle", NameGap: 26, AxisLabel: plainLabels()}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: labels, AxisLabel: plainLabels()}),
		charts.WithGridOpts(opts.Grid{Left: "8", Right: "24", Top: "12", Bottom: "76", ContainLabel: opts.Bool(true)}),
		charts.WithDataZoomOpts(opts.DataZoom{Type: "slider", Orient: "horizontal", FilterMode: "none"}),
	)...)
	c.AddSeries(h.Title, nil, charts.WithCustomChartOpts(opts.CustomChart{RenderItem: Stretch}),
		charts.WithEncodeOpts(opts.Encode{X: []int{1, 2}, Y: 0}))
	c.MultiSeries[0].Data = marks
	return seal(h, c, len(rows))
}

// Eye is the acuity of one case before and after, in logMAR; NaN for a category
// such as counting fingers, which has no number and no mark.
type Eye struct {
	Label         string
	Before, After float64
	Tip           string
}

// Acuity plots measured acuity after against before; the line is no change.
func Acuity(h Head, eyes []Eye, before, after, same string) (Chart, error) {
	marks := []Mark{}
	for _, e := range eyes {
		x, err := number(h, e.Label, "acuity before", e.Before)
		if err != nil {
			return Chart{}, err
		}
		y, err := number(h, e.Label, "acuity after", e.After)
		if err != nil {
			return Chart{}, err
		}
		if x != nil && y != nil {
			marks = append(marks, Mark{[]any{x, y}, e.Tip})
		}
	}
	c := charts.NewScatter()
	c.SetGlobalOptions(h.common(
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Name: before, NameLocation: "middle", NameGap: 26, Min: -0.4, Max: 2, AxisLabel: plainLabels()}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value", Name: after, NameLocation: "middle", NameGap: 40, Min: -0.4, Max: 2, AxisLabel: plainLabels()}),
		charts.WithGridOpts(opts.Grid{Left: "28", Right: "24", Top: "12", Bottom: "36", ContainLabel: opts.Bool(true)}),
	)...)
	c.AddSeries(h.Title, nil)
	c.MultiSeries[0].Data = marks
	c.MultiSeries[0].Symbol = "emptyCircle"
	c.AddSeries(same, nil, charts.WithLineStyleOpts(opts.LineStyle{Type: "dashed", Width: 1.2}))
	line := &c.MultiSeries[1]
	line.Type, line.ShowSymbol = "line", opts.Bool(false)
	line.Data = []Mark{{Value: []any{-0.4, -0.4}}, {Value: []any{2.0, 2.0}}}
	return seal(h, c, 0)
}
