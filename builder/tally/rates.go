package tally

import (
	"fmt"
	"math"

	"caseleaf/builder/stat"
)

// complicationRows compares every technique with the reference, complication by
// complication. Holm's adjustment is over all comparisons of the table.
func (t *sheet) complicationRows() []ComplicationRow {
	var rows []ComplicationRow
	var p []float64
	for _, k := range t.complication {
		for _, i := range t.technique {
			row := ComplicationRow{
				Complication: t.complications.names[k], Technique: t.techniques.names[i],
				Rate: t.rate(k, key{byTechnique, i, 0}), FisherP: undefined, HolmP: undefined,
			}
			row.Difference = t.difference(k, i, row.Rate)
			p = append(p, t.fisher(k, i))
			rows = append(rows, row)
		}
	}
	if t.published {
		return rows // a handout has no p values
	}
	for i, adjusted := range stat.Holm(p) {
		rows[i].FisherP, rows[i].HolmP = Number(p[i]), Number(adjusted)
	}
	return rows
}

// difference is the crude one to the reference; nil for the reference itself.
func (t *sheet) difference(complication, technique int, own Rate) *Difference {
	if t.reference < 0 || technique == t.reference {
		return nil
	}
	d := &Difference{Reference: t.techniques.names[t.reference], Limited: unlimited}
	other := t.rate(complication, key{byTechnique, t.reference, 0})
	if own.Rate.Defined() && other.Rate.Defined() {
		d.Limited = limited(stat.Newcombe(own.Events.N, own.Operations.N, other.Events.N, other.Operations.N, level))
	}
	return d
}

// unlimited is the value that is not there.
var unlimited = Limited{undefined, undefined, undefined}

func limited(e stat.Estimate) Limited {
	return Limited{Number(e.Value), Number(e.Low), Number(e.High)}
}

func (t *sheet) fisher(complication, technique int) float64 {
	if t.reference < 0 || technique == t.reference {
		return math.NaN()
	}
	own, other := t.table(complication, key{byTechnique, technique, 0}), t.table(complication, key{byTechnique, t.reference, 0})
	return stat.FisherExact(own.events, own.others, other.events, other.others).TwoSided
}

// half is one group of a 2 x 2 table.
type half struct{ events, others int }

func (t *sheet) table(complication int, k key) half {
	e := t.events[complication].at(k)
	return half{e, t.operations.at(k) - e}
}

func (t *sheet) stratumRows() []StratumRow {
	var rows []StratumRow
	for _, k := range t.complication {
		for _, j := range t.stratum {
			for _, i := range t.technique {
				if at := (key{byTechniqueStratum, i, j}); t.operations.at(at) > 0 {
					rows = append(rows, StratumRow{t.complications.names[k], Word(t.strata.names[j]), t.techniques.names[i], t.rate(k, at)})
				}
			}
		}
	}
	return rows
}

func (t *sheet) gradeRows() []GradeRow {
	var rows []GradeRow
	for _, k := range t.complication {
		for _, j := range t.stratum {
			for _, g := range t.grade {
				if at := (key{byStratumGrade, j, g}); t.operations.at(at) > 0 {
					rows = append(rows, GradeRow{t.complications.names[k], Word(t.strata.names[j]), Word(t.grades.names[g]), t.rate(k, at)})
				}
			}
		}
	}
	return rows
}

// periodRows has every period from the first to the last, those without an
// operation too, so that a chart shows a gap and not a rate of 0.
func (t *sheet) periodRows() []PeriodRow {
	var names []string
	for _, i := range t.period {
		names = append(names, t.periods.names[i])
	}
	names = withGaps(names)
	var rows []PeriodRow
	for _, k := range t.complication {
		for _, name := range names {
			row := PeriodRow{Complication: t.complications.names[k], Period: name}
			if i, ok := t.periods.of[name]; ok {
				row.Rate = t.rate(k, key{byPeriod, i, 0})
			} else {
				row.Rate = Rate{Rate: undefined, Interval: Interval{"wilson", level, undefined, undefined}}
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// withGaps fills the periods that are missing between the first and the last,
// where all are years or all are quarters (2025-Q1); else it leaves the list.
func withGaps(names []string) []string {
	if len(names) < 2 {
		return names
	}
	first, quarter, ok := periodNumber(names[0])
	last, lastQuarter, ok2 := periodNumber(names[len(names)-1])
	if !ok || !ok2 || quarter != lastQuarter || last-first > 1000 {
		return names
	}
	for _, n := range names {
		if _, q, ok := periodNumber(n); !ok || q != quarter {
			return names
		}
	}
	var all []string
	for n := first; n <= last; n++ {
		if quarter {
			all = append(all, fmt.Sprintf("%04d-Q%d", n/4, n%4+1))
		} else {
			all = append(all, fmt.Sprintf("%04d", n))
		}
	}
	return all
}

// periodNumber numbers years, or quarters, so that neighbours differ by 1.
func periodNumber(name string) (n int, quarter, ok bool) {
	var year, q int
	switch {
	case len(name) == 7:
		if c, err := fmt.Sscanf(name, "%4d-Q%1d", &year, &q); c == 2 && err == nil && q >= 1 && q <= 4 {
			return year*4 + q - 1, true, true
		}
	case len(name) == 4:
		if c, err := fmt.Sscanf(name, "%4d", &year); c == 1 && err == nil {
			return year, false, true
		}
	}
	return 0, false, false
}
