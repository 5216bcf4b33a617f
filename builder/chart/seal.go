package chart

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// Head is what every chart says of itself.
type Head struct {
	// ID is the chart's in its page and in the data: lower case ASCII letters,
	// digits and hyphens. The same bank gives the same ids.
	ID string
	// Title names the chart; it is printed by the page, and read out.
	Title string
	// Caption says the finding and the denominator; it is the chart's text for
	// readers who do not see it.
	Caption string
}

// Chart is one chart of the interactive layer.
type Chart struct {
	ID     string
	Option json.RawMessage // an option object of the chart library
	Rows   int             // rows or bands that want room on the upright axis; 0 for a plot
}

// assetsHost is where the library's files lie, seen from a page of the handout's
// top folder. It is set so that nothing in the options names a server.
const assetsHost = "assets/"

// source is a chart of go-echarts.
type source interface {
	Validate()
	JSON() map[string]any
}

// common are the options that all charts share. The page's script sets colours
// and faces, which depend on the reader's mode.
func (h Head) common(more ...charts.GlobalOpts) []charts.GlobalOpts {
	return append([]charts.GlobalOpts{
		charts.WithInitializationOpts(opts.Initialization{ChartID: h.ID, PageTitle: h.Title, AssetsHost: assetsHost}),
		charts.WithTitleOpts(opts.Title{Title: h.Title, Show: opts.Bool(false)}),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}),
		charts.WithAnimation(false),
		charts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "item"}),
		charts.WithAriaOpts(&opts.Aria{Enabled: opts.Bool(true),
			Label: &opts.AriaLabel{Enabled: opts.Bool(true), Description: h.Title + ". " + h.Caption}}),
	}, more...)
}

// seal writes a chart's options as JSON. It refuses an id that could break out of
// an attribute or a script, and a number that is not finite, naming the chart and
// the place.
func seal(h Head, c source, rows int) (Chart, error) {
	if !validID(h.ID) {
		return Chart{}, fmt.Errorf("chart %q: an id has lower case letters, digits and hyphens only", h.ID)
	}
	c.Validate()
	option := c.JSON()
	// The library's own default palette has no meaning here: the page's script
	// sets colours that follow the reader's mode.
	delete(option, "color")
	delete(option, "toolbox")
	data, err := json.Marshal(option) // escapes <, >, & and the two line ends that JSON allows and scripts did not
	if err != nil {
		return Chart{}, fmt.Errorf("chart %s: %w", h.ID, err)
	}
	return Chart{ID: h.ID, Option: data, Rows: rows}, nil
}

func validID(id string) bool {
	return id != "" && !strings.ContainsFunc(id, func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9') && r != '-'
	})
}

// number is a value of a chart: nil, which the library draws as a gap, where the
// row has none. A value that is infinite is a mistake of the caller.
func number(h Head, row, what string, v float64) (any, error) {
	switch {
	case math.IsNaN(v):
		return nil, nil
	case math.IsInf(v, 0):
		return nil, fmt.Errorf("chart %s: %s of %q is not finite", h.ID, what, row)
	}
	return v, nil
}

// Script writes charts as a classic script (file:// pages may load no modules and
// no JSON) that adds them, by id, to window.caseleafCharts. It calls nothing.
func Script(list []Chart) ([]byte, error) {
	sorted := slices.Clone(list)
	slices.SortStableFunc(sorted, func(a, b Chart) int { return strings.Compare(a.ID, b.ID) })
	var out bytes.Buffer
	out.WriteString("window.caseleafCharts={")
	for i, c := range sorted {
		if i > 0 {
			if c.ID == sorted[i-1].ID {
				return nil, fmt.Errorf("chart %s: two charts have this id", c.ID)
			}
			out.WriteByte(',')
		}
		out.WriteString("\n" + strconv.Quote(c.ID) + `:{"rows":` + strconv.Itoa(c.Rows) + `,"option":`)
		out.Write(c.Option)
		out.WriteByte('}')
	}
	out.WriteString("\n};\n")
	return out.Bytes(), nil
}
