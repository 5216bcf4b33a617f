package builder

import (
	"caseleaf/builder/stat"
	"caseleaf/content/measure"
	"caseleaf/content/term"
)

// DurationTable gives durations over cases as median, quartiles and n.
type DurationTable struct {
	Rows    []DurationRow
	Untold  int // stretches left out: no end known, or the recording was cut
	Visited int // all stretches
}

// DurationRow is one line of a duration table.
type DurationRow struct {
	Name         Link
	N            int
	Median       string
	Lower, Upper string // first and third quartile; empty under fewestForQuartiles
	Least, Most  string
}

// fewestForQuartiles is the fewest values of which quartiles are printed; of
// fewer the least and the most say all there is.
const fewestForQuartiles = 4

// durationRow summarises durations: median and quartiles by definition 7 of
// Hyndman and Fan (Am Stat 1996;50:361-365), rounded to whole seconds.
func durationRow(name Link, seconds []float64) DurationRow {
	at := func(p float64) string {
		return measure.Duration(stat.Quantile(seconds, p, stat.Standard) + 0.5).String()
	}
	row := DurationRow{Name: name, N: len(seconds), Median: at(0.5), Least: at(0), Most: at(1)}
	if row.N >= fewestForQuartiles {
		row.Lower, row.Upper = at(0.25), at(0.75)
	}
	return row
}

// durationsByTechnique summarises how long one step lasted, by the technique of
// the operation, and over all operations where there is more than one
// technique.
func (s *Site) durationsByTechnique(m *met, visits []meeting) DurationTable {
	table := DurationTable{Visited: len(visits)}
	byTechnique := map[string][]float64{}
	var all []float64
	for _, at := range visits {
		d, ok := at.Span.Duration()
		if !ok {
			table.Untold++
			continue
		}
		id := at.Case.Technique.Or("")
		byTechnique[id] = append(byTechnique[id], float64(d.Seconds()))
		all = append(all, float64(d.Seconds()))
	}
	for _, t := range s.Bank.Vocabulary.Of(term.Procedure, term.Technique) {
		if seconds := byTechnique[t.ID]; len(seconds) > 0 {
			table.Rows = append(table.Rows, durationRow(m.link(t.ID), seconds))
		}
	}
	if len(table.Rows) > 1 {
		table.Rows = append(table.Rows, durationRow(Link{Text: s.words().say("all-techniques")}, all))
	}
	return table
}

// durationsByStep summarises how long each step lasted over some visits, in
// vocabulary order.
func (s *Site) durationsByStep(m *met, keep func(meeting) bool) DurationTable {
	var table DurationTable
	for _, t := range s.Bank.Vocabulary.Of(term.Step) {
		var seconds []float64
		for _, at := range m.steps[t.ID] {
			if !keep(at) {
				continue
			}
			table.Visited++
			if d, ok := at.Span.Duration(); ok {
				seconds = append(seconds, float64(d.Seconds()))
			} else {
				table.Untold++
			}
		}
		if len(seconds) > 0 {
			table.Rows = append(table.Rows, durationRow(m.link(t.ID), seconds))
		}
	}
	return table
}

// delaySeconds lists the delays of events that can be told, in seconds.
func delaySeconds(events []meeting, of func(meeting) delay) []float64 {
	var seconds []float64
	for _, at := range events {
		if d := of(at); d.Why == "" {
			seconds = append(seconds, float64(d.Value.Seconds()))
		}
	}
	return seconds
}
