package tally

import (
	"math"

	"caseleaf/builder/stat"
)

// Notes that stand where there is no pooled figure.
const (
	noteNoStrata = "the logbook names no risk strata"
	noteNoneBoth = "no stratum has operations by both techniques"
	noteNoEvents = "no event in a stratum with both techniques"
	noteOneSided = "in the strata with both, every event came with one technique: no ratio"
	noteWithheld = "withheld: small counts"
	strataDiffer = 0.05 // Breslow-Day p below which one pooled figure hides different ones
)

// stratifiedRows compares each technique with the reference within strata.
func (t *sheet) stratifiedRows() []StratifiedRow {
	var rows []StratifiedRow
	if t.reference < 0 {
		return rows
	}
	for _, k := range t.complication {
		for _, i := range t.technique {
			if i != t.reference {
				rows = append(rows, t.stratifiedRow(k, i))
			}
		}
	}
	return rows
}

func (t *sheet) stratifiedRow(complication, technique int) StratifiedRow {
	row := StratifiedRow{
		Complication: t.complications.names[complication],
		Technique:    t.techniques.names[technique], Reference: t.techniques.names[t.reference],
		CrudeOddsRatio: undefined, CrudeRiskDifference: undefined,
		OddsRatio: unlimited, RiskDifference: unlimited, BreslowDayP: undefined,
	}
	strata, hidden := t.strataOf(complication, technique)
	if hidden {
		row.Note = noteWithheld
		t.between(&row, complication, technique)
		return row
	}
	if len(strata) == 0 { // no risk recorded at all: the crude figures still stand
		row.Note = noteNoStrata
		own, other := t.table(complication, key{byTechnique, technique, 0}), t.table(complication, key{byTechnique, t.reference, 0})
		strata = []stat.Table{{Events1: own.events, Others1: own.others, Events2: other.events, Others2: other.others}}
		s := stat.CompareStrata(strata)
		row.CrudeOddsRatio, row.CrudeRiskDifference = Number(s.CrudeOddsRatio), Number(s.CrudeRiskDifference)
		return row
	}
	row.pool(strata, t.published)
	return row
}

// strataOf gives the 2 x 2 table of each recorded stratum; hidden says that a
// count among them is not shown.
func (t *sheet) strataOf(complication, technique int) (strata []stat.Table, hidden bool) {
	for _, j := range t.stratum {
		if t.strata.names[j] == "" {
			continue
		}
		var groups [2]half
		for g, i := range []int{technique, t.reference} {
			k := key{byTechniqueStratum, i, j}
			groups[g] = t.table(complication, k)
			hidden = hidden || t.event(complication, k).Hidden != Shown || t.size(k).Hidden != Shown
		}
		strata = append(strata, stat.Table{Events1: groups[0].events, Others1: groups[0].others,
			Events2: groups[1].events, Others2: groups[1].others})
	}
	return strata, hidden
}

// pool fills the row from its strata.
func (r *StratifiedRow) pool(strata []stat.Table, published bool) {
	s := stat.CompareStrata(strata)
	r.CrudeOddsRatio, r.CrudeRiskDifference = Number(s.CrudeOddsRatio), Number(s.CrudeRiskDifference)
	r.Reversal = s.Reversal
	for _, table := range strata {
		if table.BothGroups() {
			r.ComparableStrata++
		}
	}
	if r.ComparableStrata == 0 {
		r.Note = noteNoneBoth
		return
	}
	r.RiskDifference = limited(stat.MantelHaenszelRiskDifference(strata, level).Estimate)
	odds := stat.MantelHaenszelOddsRatio(strata, level)
	r.OddsRatio = limited(odds.Estimate)
	switch {
	case math.IsNaN(odds.Value):
		r.Note = noteNoEvents
	case !odds.Estimable():
		r.Note = noteOneSided
	}
	homogeneity := stat.BreslowDay(strata)
	r.StrataDisagree = homogeneity.P < strataDiffer
	if !published {
		r.BreslowDayP = Number(homogeneity.P)
	}
}
