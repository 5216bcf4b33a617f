package builder

import (
	"math"
	"strings"

	"caseleaf/builder/chart"
	"caseleaf/builder/figure"
	"caseleaf/builder/stat"
	"caseleaf/content/measure"
	"caseleaf/content/term"
)

// mostDelays is the most events that are drawn one by one. More are drawn by
// complication, and stand one by one on the pages of the complications.
const mostDelays = 120

// delayPlot shows the events of the cases that have a delay to tell.
func (b *rateBook) delayPlot() *RateFigure {
	list := b.timedEvents()
	w := b.words
	var drawn figure.Figure
	var marks []chart.Delay
	title := w.say("delay-plot")
	switch {
	case len(list) == 0:
		return nil
	case len(list) > mostDelays:
		rows := b.delayGroups(list)
		drawn, marks = figure.DelayGroups{Words: w, IDPrefix: "delays", Title: title, Rows: rows}, b.groupMarks(rows)
	default:
		var rows []figure.DelayRow
		rows, marks = b.delayRows(list)
		drawn = figure.Delays{Words: w, IDPrefix: "delays", Title: title, Rows: rows}
	}
	block := b.caseBlock(drawn, title, w.say("delay-plot-not"), "moments")
	block.Chart = b.addChart(chart.Delays(b.head("delays", title, block.Caption), marks, w.say("delay-seconds")))
	return block
}

// timedEvents are the events of which a delay is known.
func (b *rateBook) timedEvents() []meeting {
	var list []meeting
	for _, c := range b.site.Bank.Cases {
		for _, e := range c.Events() {
			if at := (meeting{Case: c, Entry: e}); noticeDelay(c, e.Event).Why == "" || actDelay(c, e.Event).Why == "" {
				list = append(list, at)
			}
		}
	}
	return list
}

// delayRows is one row and one mark for each event.
func (b *rateBook) delayRows(list []meeting) (rows []figure.DelayRow, marks []chart.Delay) {
	w := b.words
	for _, at := range list {
		c, e := at.Case, at.Entry.Event
		label := w.say("event-in", c.ID.Value, b.site.Bank.Term(e.Term.Value).Label)
		row := figure.DelayRow{Label: label, Href: rootOf(caseCountsPage) + casePath(c.ID.Value)}
		mark := chart.Delay{Label: label, Unseen: math.NaN(), Until: math.NaN()}
		tip := []string{label, caseTitle(c)}
		if unseen, seen := c.NoticeDelay(e); seen {
			row.Unseen, mark.Unseen = &unseen, float64(unseen.Seconds())
			tip = append(tip, w.say("tip-noticed", unseen.String()))
		}
		if until, acted := c.ActDelay(e); acted {
			row.Until, mark.Until = &until, float64(until.Seconds())
			tip = append(tip, w.say("tip-acted", until.String()))
		}
		mark.Tip = strings.Join(tip, "\n")
		rows, marks = append(rows, row), append(marks, mark)
	}
	return rows, marks
}

// delayGroups is one row for each complication, in vocabulary order.
func (b *rateBook) delayGroups(list []meeting) []figure.DelayGroup {
	of := map[string][]meeting{}
	for _, at := range list {
		of[at.Entry.Event.Term.Value] = append(of[at.Entry.Event.Term.Value], at)
	}
	var rows []figure.DelayGroup
	for _, t := range b.site.Bank.Vocabulary.Of(term.Complication) {
		events := of[t.ID]
		if len(events) == 0 {
			continue
		}
		rows = append(rows, figure.DelayGroup{
			Label: t.Label, Href: rootOf(caseCountsPage) + b.site.met.pageOf(t.ID), Events: len(events),
			Unseen: delaySpread(delaySeconds(events, func(at meeting) delay { return noticeDelay(at.Case, at.Entry.Event) })),
			Until:  delaySpread(delaySeconds(events, func(at meeting) delay { return actDelay(at.Case, at.Entry.Event) })),
		})
	}
	return rows
}

// delaySpread is median and quartiles as durationRow has them.
func delaySpread(seconds []float64) figure.DelaySpread {
	if len(seconds) == 0 {
		return figure.DelaySpread{}
	}
	at := func(p float64) measure.Duration {
		return measure.Duration(stat.Quantile(seconds, p, stat.Standard) + 0.5)
	}
	return figure.DelaySpread{N: len(seconds), Median: at(0.5), Lower: at(0.25), Upper: at(0.75)}
}

// groupMarks are the marks of the interactive layer for rows of complications.
func (b *rateBook) groupMarks(rows []figure.DelayGroup) []chart.Delay {
	table := figure.DelayGroups{Words: b.words, Rows: rows}.Table()
	marks := make([]chart.Delay, len(rows))
	for i, r := range rows {
		marks[i] = chart.Delay{Label: r.Label, Unseen: math.NaN(), Until: math.NaN()}
		tip := []string{r.Label}
		if r.Unseen.N > 0 {
			marks[i].Unseen = float64(r.Unseen.Median.Seconds())
			tip = append(tip, table.Headers[1]+": "+table.Rows[i][1])
		}
		if r.Until.N > 0 {
			marks[i].Until = float64(r.Until.Median.Seconds())
			tip = append(tip, table.Headers[2]+": "+table.Rows[i][2])
		}
		marks[i].Tip = strings.Join(tip, "\n")
	}
	return marks
}
