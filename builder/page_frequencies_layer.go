package builder

import (
	"io/fs"
	"path"
	"strings"

	"caseleaf/builder/chart"
)

// Where the interactive layer lies in a handout, and in a theme.
const (
	chartScript = "assets/charts.js"
	chartStyle  = "assets/charts.css"
	chartFolder = "charts"
)

// head names a chart; ids of terms are made of letters that ids allow, others
// are written as file names are.
func (b *rateBook) head(id, title, caption string) chart.Head {
	return chart.Head{ID: "chart-" + strings.NewReplacer("_", "-", ".", "-").Replace(fileStem(id)), Title: title, Caption: caption}
}

// addChart keeps a chart for the page at hand and returns its id. Without the
// layer there are no charts; a chart that cannot be made is a fault of the build,
// which names it.
func (b *rateBook) addChart(c chart.Chart, err error) string {
	if b.site.Options.Charts == nil {
		return ""
	}
	if err != nil {
		b.site.faults = append(b.site.faults, err)
		return ""
	}
	b.charts = append(b.charts, c)
	return c.ID
}

// layer files the charts that were added since it was last called under a page's
// name, and says what the page loads; nil where it has no chart.
func (b *rateBook) layer(name string) *ChartLayer {
	list := b.charts
	b.charts = nil
	if len(list) == 0 {
		return nil
	}
	data, err := chart.Script(list)
	if err != nil {
		b.site.faults = append(b.site.faults, err)
		return nil
	}
	l := &ChartLayer{Library: "assets/" + libraryScript, Data: "assets/charts/" + name + ".js", Script: chartScript, Style: chartStyle}
	b.site.file(l.Data, data)
	return l
}

// file keeps a file that was planned along with pages.
func (s *Site) file(path string, data []byte) {
	if s.files == nil {
		s.files = map[string][]byte{}
	}
	s.files[path] = data
	s.added = append(s.added, path)
}

// addCharts adds the interactive layer, where there is one, to the files of the
// handout.
func (s *Site) addCharts(files map[string][]byte, theme fs.FS) error {
	if s.Options.Charts == nil {
		return nil
	}
	for _, target := range []string{chartScript, chartStyle} {
		data, err := fs.ReadFile(theme, chartFolder+"/"+path.Base(target))
		if err != nil {
			return err
		}
		if files[target], err = light(target, data); err != nil {
			return err
		}
	}
	s.Options.Charts.addTo(files)
	return nil
}
