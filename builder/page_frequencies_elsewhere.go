package builder

import "caseleaf/builder/tally"

// HowOften is what a page about something else says of rates: the rates, each with
// what it is out of, and what may not be concluded.
type HowOften struct {
	Rates RateTable
	Not   string
	More  Link
}

// overview draws every complication of the reference technique's operations; nil
// where no two of them can be drawn.
func (b *rateBook) overview(list []*Frequency) *RateFigure {
	reference := string(b.result.Source.Reference)
	title := b.words.say("figure-overview", b.met.link(reference).Text)
	plot := &ratePlot{id: "overview", title: title, on: frequenciesPage, kind: ratesKind}
	for _, row := range b.result.Complications {
		if row.Technique == reference {
			plot.add(b.rateLine(b.met.link(row.Complication), row.Rate), row.Rate)
		}
	}
	plot.finding = b.words.say("overview-finding", plot.drawn, len(plot.rows))
	return b.ratesFigure(plot, b.words.say("overview-not"))
}

// startFigure is one figure of rates for the first page: of the complication for
// which most techniques have one; the commoner, where several have as many. nil
// without one.
func (b *rateBook) startFigure() (*RateFigure, *Link) {
	var best *Frequency
	for _, f := range b.frequencies() {
		if f.plot.drawn > 1 && (best == nil || f.plot.drawn > best.plot.drawn) {
			best = f
		}
	}
	if best == nil {
		return nil, nil
	}
	plot := *best.plot
	figure := b.ratesFigure(&plot, b.words.say("rates-not"))
	figure.Caption += " " + b.words.say("rates-caption", b.sourced()...)
	figure.Chart = "" // the layer stays on the pages of rates
	b.charts = nil
	return figure, &Link{Text: b.words.say("start-rates-more"), Path: frequenciesPage}
}

// ofComplication is a complication's rates by technique; nil where the logbook has
// none.
func (b *rateBook) ofComplication(id string) *HowOften {
	w := b.words
	return b.howOften(w.say("technique"), w.say("rates-not"), Link{Text: w.say("how-often-more"), Path: frequencyPath(id)},
		func(row tally.ComplicationRow) (Link, bool) { return b.met.link(row.Technique), row.Complication == id })
}

// ofTechnique is a technique's rates by complication; nil where the logbook has
// none.
func (b *rateBook) ofTechnique(id string) *HowOften {
	w := b.words
	return b.howOften(w.say("complication"), w.say("overview-not"), Link{Text: w.say("how-often-all"), Path: frequenciesPage},
		func(row tally.ComplicationRow) (Link, bool) {
			name := b.met.link(row.Complication)
			if b.met.scope.holds(row.Complication) {
				name.Path = frequencyPath(row.Complication)
			}
			return name, row.Technique == id
		})
}

// howOften takes the rows that are asked for.
func (b *rateBook) howOften(of, not string, more Link, pick func(tally.ComplicationRow) (Link, bool)) *HowOften {
	h := &HowOften{Not: not, More: more}
	h.Rates = RateTable{Caption: b.words.say("rates-caption", b.sourced()...), Of: of, Groups: []RateGroup{{}}}
	for _, row := range b.result.Complications {
		if name, ok := pick(row); ok {
			h.Rates.Groups[0].Lines = append(h.Rates.Groups[0].Lines, b.rateLine(name, row.Rate))
		}
	}
	if len(h.Rates.Groups[0].Lines) == 0 {
		return nil
	}
	return h
}
