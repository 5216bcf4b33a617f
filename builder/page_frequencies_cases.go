package builder

import (
	"math"
	"slices"
	"strings"

	"caseleaf/builder/chart"
	"caseleaf/builder/figure"
	"caseleaf/content"
	"caseleaf/content/measure"
	"caseleaf/content/term"
)

// caseFigures are the figures of what the chosen cases tell: counts and times,
// never rates.
func (b *rateBook) caseFigures() []RateFigure {
	var list []RateFigure
	for _, make := range []func() *RateFigure{b.onsetMap, b.delayPlot, b.acuityPlot} {
		if f := make(); f != nil {
			list = append(list, *f)
		}
	}
	return list
}

// caseCounts is the page of them.
func (b *rateBook) caseCounts(cases int) *CaseCountsPage {
	w := b.words
	p := &CaseCountsPage{Heading: b.site.headingBelow(frequenciesPage, w.say("from-cases"))}
	p.Summary = w.say("from-cases-note", cases)
	p.Back = Link{Text: w.say("frequencies"), Path: frequenciesPage}
	p.Figures = b.caseFigures()
	p.Layer = b.layer("from-cases")
	return p
}

// caseBlock is a figure of the cases with its table.
func (b *rateBook) caseBlock(f figure.Figure, title, not, data string) *RateFigure {
	table := f.Table()
	return &RateFigure{
		File:  b.keep(data, countsKind, title, caseCountsPage, f),
		Title: title, Drawing: drawnFor(f), Not: not, Table: &table, Data: b.data[data],
		Caption: f.Caption() + " " + b.words.say("cases-caption", b.result.Source.Cases),
	}
}

// onsetMap maps in which step events began, steps in vocabulary order.
func (b *rateBook) onsetMap() *RateFigure {
	w := b.words
	f := figure.Onset{Words: w, IDPrefix: "onsets", Title: w.say("onset-map"), Cases: b.result.Source.Cases}
	place, steps := map[string]int{}, []string{}
	for _, t := range b.site.Bank.Vocabulary.Of(term.Step) {
		for _, row := range b.result.Onsets {
			if _, seen := place[t.ID]; !seen && string(row.Step) == t.ID {
				place[t.ID] = len(steps)
				steps = append(steps, t.Label)
			}
		}
	}
	f.Steps = steps
	var cells []chart.Cell
	var labels []string
	line := map[string]int{}
	for _, row := range b.result.Onsets {
		i, seen := line[row.Complication]
		if !seen {
			i = len(f.Rows)
			line[row.Complication] = i
			link := b.met.link(row.Complication)
			labels = append(labels, link.Text)
			f.Rows = append(f.Rows, figure.OnsetRow{Label: link.Text, Href: rootOf(caseCountsPage) + link.Path, Counts: make([]int, len(steps))})
		}
		j, known := place[string(row.Step)]
		if !known {
			f.Rows[i].Unknown += row.Count
			continue
		}
		f.Rows[i].Counts[j] += row.Count
		cells = append(cells, chart.Cell{Step: j, Complication: i, Count: row.Count,
			Tip: w.say("tip-counts", labels[i], steps[j], row.Count)})
	}
	if len(f.Rows) == 0 {
		return nil
	}
	block := b.caseBlock(f, f.Title, w.say("onset-map-not"), "onsets")
	if len(cells) > 0 {
		block.Chart = b.addChart(chart.Onsets(b.head("onsets", f.Title, block.Caption), steps, labels, cells))
	}
	return block
}

// acuityPlot sets acuity after against before; categories such as counting
// fingers have a place in the drawing and no number in the chart.
func (b *rateBook) acuityPlot() *RateFigure {
	w := b.words
	f := figure.AcuityChange{Words: w, IDPrefix: "acuity", Title: w.say("acuity-plot")}
	var eyes []chart.Eye
	for _, c := range b.site.Bank.Cases {
		change := c.Outcome.Acuity
		if !change.Before.Known() || !change.After.Known() {
			f.Unknown++
			continue
		}
		before, after := change.Before.Value, change.After.Value
		f.Eyes = append(f.Eyes, figure.AcuityPair{Label: c.ID.Value, Before: before, After: after, Href: rootOf(caseCountsPage) + casePath(c.ID.Value)})
		tip := []string{c.ID.Value, caseTitle(c), w.say("tip-acuity", before.String(), after.String())}
		eyes = append(eyes, chart.Eye{Label: c.ID.Value, Before: logMAR(change.Before), After: logMAR(change.After), Tip: strings.Join(tip, "\n")})
	}
	if len(f.Eyes) == 0 {
		return nil
	}
	block := b.caseBlock(f, f.Title, w.say("acuity-plot-not"), "acuity")
	block.Small = true
	if slices.ContainsFunc(eyes, func(e chart.Eye) bool { return !math.IsNaN(e.Before) && !math.IsNaN(e.After) }) {
		block.Chart = b.addChart(chart.Acuity(b.head("acuity", f.Title, block.Caption), eyes,
			w.say("logmar-before"), w.say("logmar-after"), w.say("no-change")))
	}
	return block
}

func logMAR(g content.Given[measure.Acuity]) float64 {
	if v, ok := g.Value.LogMAR(); ok {
		return v
	}
	return math.NaN()
}
