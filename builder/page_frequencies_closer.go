package builder

import (
	"caseleaf/builder/chart"
	"caseleaf/builder/figure"
	"caseleaf/builder/stat"
	"caseleaf/builder/tally"
)

// closer is the page that splits one complication by risk, by grade within risk,
// by period and by unit.
func (b *rateBook) closer(f *Frequency) *FrequencyPage {
	w := b.words
	id := f.ID[len("complication-"):]
	h := b.site.headingBelow(frequenciesPage, f.Complication.Text)
	h.Kicker, h.Summary = w.say("frequency-kicker"), w.say("frequency-summary")
	p := &FrequencyPage{
		Heading: h, Definition: f.Definition,
		Complication: Link{Text: w.say("frequency-page"), Path: f.Complication.Path},
		Back:         Link{Text: w.say("frequencies"), Path: frequenciesPage + "#" + f.ID},
	}
	own := *f
	own.Figure = b.ratesFigure(f.plot, w.say("rates-not"))
	p.Rate = &own
	p.Splits = []Split{b.byRisk(id), b.byGrade(id), b.byPeriod(id, f.Complication.Text)}
	if units := b.byUnit(id, f.Complication.Text); len(units.Table.Groups) > 0 {
		p.Splits = append(p.Splits, units)
	}
	p.Layer = b.layer("frequency-" + fileStem(id))
	return p
}

// split begins a table of rates of the logbook.
func (b *rateBook) split(id, title, of string) Split {
	return Split{ID: id, Title: title, Table: RateTable{Caption: b.words.say("rates-caption", b.sourced()...), Of: of}}
}

// add puts a line under the head of its group, which is the last one or new.
func (t *RateTable) add(group string, line RateLine) {
	if n := len(t.Groups); n == 0 || t.Groups[n-1].Name != group {
		t.Groups = append(t.Groups, RateGroup{Name: group})
	}
	g := &t.Groups[len(t.Groups)-1]
	g.Lines = append(g.Lines, line)
}

func (b *rateBook) byRisk(id string) Split {
	w := b.words
	s := b.split("by-risk", w.say("by-risk-head"), w.say("technique"))
	s.Not, s.Data = w.say("by-risk-not"), b.data["by_stratum"]
	for _, row := range b.result.ByStratum {
		if row.Complication == id {
			s.Table.add(b.stratum(row.Stratum), b.rateLine(b.met.link(row.Technique), row.Rate))
		}
	}
	return s
}

// byGrade splits by grade within each stratum, never by grade alone.
func (b *rateBook) byGrade(id string) Split {
	w := b.words
	s := b.split("by-grade", w.say("by-grade-head"), w.say("grade"))
	s.Not, s.Data = w.say("by-grade-not"), b.data["by_grade"]
	for _, row := range b.result.ByGrade {
		if row.Complication == id {
			s.Table.add(b.stratum(row.Stratum), b.rateLine(Link{Text: b.grade(row.Grade)}, row.Rate))
		}
	}
	return s
}

// byPeriod keeps every period from the first to the last in its place; one
// without operations is no data.
func (b *rateBook) byPeriod(id, label string) Split {
	w := b.words
	s := b.split("by-period", w.say("by-period-head"), w.say("period"))
	s.Data, s.Note = b.data["by_period"], w.say("by-period-note")
	plot := &ratePlot{id: "period-" + id, title: w.say("figure-periods", label), on: frequencyPath(id), kind: periodsKind}
	for _, row := range b.result.ByPeriod {
		if row.Complication != id {
			continue
		}
		line := b.rateLine(Link{Text: row.Period}, row.Rate)
		s.Table.add("", line)
		plot.add(line, row.Rate)
	}
	plot.finding = w.say("finding-periods", plot.drawn, len(plot.rows))
	s.Figure = b.ratesFigure(plot, w.say("by-period-not"))
	if s.Figure == nil {
		s.Not = w.say("by-period-not")
	}
	return s
}

// byUnit holds units against their common rate.
func (b *rateBook) byUnit(id, label string) Split {
	w := b.words
	s := b.split("by-unit", w.say("by-unit-head"), w.say("unit"))
	s.Not, s.Data, s.Table.Limits = w.say("by-unit-not"), b.data["limits_by_complication"], true
	var rows []tally.LimitRow
	target := w.say("target-withheld")
	for _, row := range b.result.LimitsByComplication {
		if string(row.Complication) != id {
			continue
		}
		rows = append(rows, row)
		s.Table.add("", b.unitLine(row))
		if row.Target.Defined() {
			target = percentText(row.Target)
		}
	}
	s.Table.Caption = w.say("by-unit-caption", b.sourced(target)...)
	if s.Figure = b.unitsFigure(id, label, rows); s.Figure != nil {
		s.Not, s.Figure.Not = "", s.Not
	} else {
		s.Note = w.say("by-unit-hidden")
	}
	return s
}

func (b *rateBook) unitLine(row tally.LimitRow) RateLine {
	w := b.words
	r := tally.Rate{Events: row.Events, Operations: row.Operations, Rate: row.Rate}
	line := b.rateLine(Link{Text: row.Unit}, r)
	line.Interval = ""
	if row.High95.Defined() {
		line.Limits = b.interval(row.Low95, row.High95)
	}
	switch {
	case row.Outside == nil:
	case *row.Outside998:
		line.Outside = w.say("outside-998")
	case *row.Outside:
		line.Outside = w.say("outside-95")
	default:
		line.Outside = w.say("outside-no")
	}
	return line
}

// unitsFigure is the control-limit plot; nil where the common rate is not shown.
func (b *rateBook) unitsFigure(id, label string, rows []tally.LimitRow) *RateFigure {
	w := b.words
	f := figure.Funnel{Words: w, IDPrefix: "units-" + id, Title: w.say("figure-units", label)}
	var units []chart.Unit
	most, known := 0, false
	for _, row := range rows {
		line := b.unitLine(row)
		hidden := row.Events.Hidden != tally.Shown || !row.Rate.Defined()
		f.Units = append(f.Units, figure.FunnelUnit{
			Label: row.Unit, Events: row.Events.N, Operations: row.Operations.N, Hidden: hidden, Outside: outsideMark(row),
		})
		units = append(units, chart.Unit{Row: row, Tip: row.Unit + "\n" + line.Counts + ": " + line.Rate})
		if row.Target.Defined() && !hidden {
			f.Target, known, most = float64(row.Target), true, max(most, row.Operations.N)
		}
	}
	if !known || f.Target == 0 {
		return nil
	}
	limits := b.limitLines(&f, most)
	block := &RateFigure{Drawing: drawnFor(f), Caption: f.Caption(), File: b.keep(id, unitsKind, f.Title, frequencyPath(id), f)}
	block.Chart = b.addChart(chart.Limits(b.head("units-"+id, f.Title, block.Caption), f.Target, limits, units, chart.LimitWords{
		Target: w.say("limit-target"), Inner: w.say("limit-inner"), Outer: w.say("limit-outer"),
		Units: w.say("units"), Operations: w.say("operations"),
	}))
	return block
}

// outsideMark is how the figure is told that a unit lies outside.
func outsideMark(row tally.LimitRow) string {
	switch {
	case row.Outside998 != nil && *row.Outside998:
		return "99.8 %"
	case row.Outside != nil && *row.Outside:
		return "95 %"
	}
	return ""
}

// limitPoints is at about how many numbers of operations the lines are drawn.
const limitPoints = 60

// limits computes the lines up to a little beyond the largest unit.
func (b *rateBook) limitLines(f *figure.Funnel, most int) []chart.Limit {
	most = max(50, most+most/16)
	step := max(1, most/limitPoints)
	var list []chart.Limit
	for n := step; n <= most; n += step {
		inner, outer := stat.ControlLimits(n, f.Target, stat.Tail95), stat.ControlLimits(n, f.Target, stat.Tail998)
		list = append(list, chart.Limit{Operations: n, Low95: inner.Low, High95: inner.High, Low998: outer.Low, High998: outer.High})
		f.Limits = append(f.Limits, figure.FunnelLimit{N: n, Low95: inner.Low, High95: inner.High, Low998: outer.Low, High998: outer.High})
	}
	return list
}
