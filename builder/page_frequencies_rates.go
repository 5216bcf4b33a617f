package builder

import (
	"html/template"
	"math"
	"strings"

	"caseleaf/builder/chart"
	"caseleaf/builder/figure"
	"caseleaf/builder/tally"
)

// frequencies are the complications of the logbook in the result's order.
func (b *rateBook) frequencies() []*Frequency {
	var list []*Frequency
	stratified := map[[2]string]tally.StratifiedRow{}
	for _, row := range b.result.Stratified {
		stratified[[2]string{row.Complication, row.Technique}] = row
	}
	rows := b.result.Complications
	for i := 0; i < len(rows); {
		j := i
		for j < len(rows) && rows[j].Complication == rows[i].Complication {
			j++
		}
		if b.met.scope.holds(rows[i].Complication) {
			list = append(list, b.frequency(rows[i:j], stratified))
		}
		i = j
	}
	return list
}

// frequency is one complication; its rows are one a technique.
func (b *rateBook) frequency(rows []tally.ComplicationRow, stratified map[[2]string]tally.StratifiedRow) *Frequency {
	w, id := b.words, rows[0].Complication
	label := b.met.link(id)
	f := &Frequency{
		ID: "complication-" + id, Complication: label, Definition: b.site.Bank.Term(id).Definition,
		Closer: Link{Text: w.say("frequency-closer"), Path: frequencyPath(id)},
		Rates:  RateTable{Caption: w.say("rates-caption", b.sourced()...), Of: w.say("technique"), Groups: []RateGroup{{}}},
		Data:   b.data["complications"],
	}
	plot := &ratePlot{id: id, title: w.say("figure-rates", label.Text), on: frequencyPath(id), kind: ratesKind}
	f.plot = plot
	for _, row := range rows {
		line := b.rateLine(b.met.link(row.Technique), row.Rate)
		f.Rates.Groups[0].Lines = append(f.Rates.Groups[0].Lines, line)
		plot.add(line, row.Rate)
	}
	f.Finding = b.finding(f.Rates.Groups[0].Lines[0])
	plot.finding = f.Finding
	b.compare(f, rows, stratified)
	return f
}

// rateLine prints one rate, or why there is none.
func (b *rateBook) rateLine(name Link, r tally.Rate) RateLine {
	w := b.words
	line := RateLine{Name: name, Counts: b.count(r.Events) + "/" + b.count(r.Operations)}
	hidden := r.Events.Hidden != tally.Shown || r.Operations.Hidden != tally.Shown
	switch {
	case r.Rate.Defined():
		line.Rate = percentText(r.Rate)
		line.Interval = b.interval(r.Interval.Low, r.Interval.High)
	case hidden:
		line.Missing = w.say("not-shown")
	case r.Operations.N == 0:
		line.Counts, line.Missing = "", w.say("no-data")
	default:
		line.Missing = w.say("under-thirty")
	}
	return line
}

// interval prints the limits of a percentage, the sign of per cent once.
func (b *rateBook) interval(low, high tally.Number) string {
	return b.words.say("interval-text", strings.TrimSuffix(percentText(low), perCent), percentText(high))
}

// finding says what the first line of a table shows.
func (b *rateBook) finding(line RateLine) string {
	switch w := b.words; {
	case line.Rate != "":
		return w.say("finding-rate", line.Name.Text, line.Counts, line.Rate, line.Interval)
	case line.Missing == w.say("not-shown"):
		return w.say("finding-hidden", line.Name.Text)
	default:
		return w.say("finding-counts", line.Name.Text, line.Counts)
	}
}

// ratePlot is an interval plot: what is drawn and what is explored, from one set
// of rows.
type ratePlot struct {
	id, title, finding string
	on                 string // path of the page it stands on
	kind               figureKind
	rows               []figure.ForestRow
	marks              []chart.RateRow
	drawn              int // rows with an interval
}

func (p *ratePlot) add(line RateLine, r tally.Rate) {
	row := figure.ForestRow{
		Label: line.Name.Text, Events: r.Events.N, Operations: r.Operations.N,
		Value: float64(r.Rate), Low: float64(r.Interval.Low), High: float64(r.Interval.High),
		Hidden: r.Events.Hidden != tally.Shown || r.Operations.Hidden != tally.Shown,
	}
	p.rows = append(p.rows, row)
	tip := line.Name.Text + "\n" + line.Counts + ": " + line.Rate + " (" + line.Interval + ")"
	p.marks = append(p.marks, chart.RateRow{Label: line.Name.Text, Tip: tip, Rate: r})
	if !math.IsNaN(row.Low) {
		p.drawn++
	}
}

// ratesFigure draws an interval plot; nil where no row has an interval, and where
// one among several has: there is nothing to see that a line of the table does
// not say.
func (b *rateBook) ratesFigure(p *ratePlot, not string) *RateFigure {
	if p.drawn == 0 || p.drawn == 1 && len(p.rows) > 1 {
		return nil
	}
	f := figure.Forest{Words: b.words,
		IDPrefix: "rates-" + p.id, Title: p.title, Finding: p.finding, Method: b.words.say("wilson"), Rows: p.rows,
	}
	if n := b.result.Source.Operations; n.Hidden == tally.Shown {
		f.Operations = n.N
	}
	block := &RateFigure{Title: p.title, Drawing: drawnFor(f), Caption: f.Caption(), Not: not, File: b.keep(p.id, p.kind, p.title, p.on, f)}
	block.Chart = b.addChart(chart.Rates(b.head(p.id, p.title, block.Caption), p.marks))
	return block
}

// keep has a figure of rates or counts written as a file that stands alone.
func (b *rateBook) keep(id string, kind figureKind, title, on string, f figure.Figure) Link {
	return b.site.keep(drawnFigure{figurePath("frequencies", id, kind), kind, title, on, f, nil, f.Caption()})
}

// drawnFor is a figure as it stands in a page.
func drawnFor(f figure.Figure) template.HTML {
	return template.HTML(figure.SVG(f)) // figure escapes every text it draws
}
