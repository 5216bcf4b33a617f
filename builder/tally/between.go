package tally

import (
	"math"

	"caseleaf/builder/stat"
)

// Between is the range of a figure over all tables that agree with the counts
// that are shown. It is computed from those alone, so it tells nothing that a
// reader could not work out.
type Between struct {
	Low  Number `json:"low"`
	High Number `json:"high"`
}

// betweenWork bounds how many tables are tried for one row.
const betweenWork = 40_000

// between fills a withheld row with what can be said of it whatever the hidden
// counts are: the range of the pooled figures, and the reversal where every
// table has it. Nothing is filled where the operations themselves are hidden, or
// where there are too many tables.
func (t *sheet) between(row *StratifiedRow, complication, technique int) {
	var groups [2][][]int
	var sizes [2][]int
	for g, i := range []int{technique, t.reference} {
		cells, total, ok := t.shownCells(complication, i)
		if !ok {
			return
		}
		for _, c := range cells {
			sizes[g] = append(sizes[g], c.size)
		}
		if groups[g] = t.fillings(cells, total); groups[g] == nil {
			return
		}
	}
	for j := range sizes[0] {
		if sizes[0][j] > 0 && sizes[1][j] > 0 {
			row.ComparableStrata++
		}
	}
	if len(groups[0])*len(groups[1]) > betweenWork {
		return
	}
	odds, difference, reversed, tried := wholeRange(), wholeRange(), 0, 0
	strata := make([]stat.Table, len(sizes[0]))
	for _, own := range groups[0] {
		for _, other := range groups[1] {
			for j := range strata {
				strata[j] = stat.Of(own[j], sizes[0][j], other[j], sizes[1][j])
			}
			odds.hold(stat.MantelHaenszelOddsRatio(strata, level).Value)
			difference.hold(stat.MantelHaenszelRiskDifference(strata, level).Value)
			if stat.CompareStrata(strata).Reversal {
				reversed++
			}
			tried++
		}
	}
	row.OddsRatioBetween, row.RiskDifferenceBetween = odds.between(), difference.between()
	row.Reversal = tried > 0 && reversed == tried
}

// shownCell is what is printed of one technique in one stratum.
type shownCell struct {
	events Count
	size   int
}

// shownCells gives a technique's recorded strata and its events in all of them
// (-1 where they are not told); false where operations are hidden.
func (t *sheet) shownCells(complication, technique int) (cells []shownCell, total int, ok bool) {
	if all := t.event(complication, key{byTechnique, technique, 0}); all.Hidden == Shown {
		total = all.N
	} else {
		total = -1
	}
	for _, j := range t.stratum {
		k := key{byTechniqueStratum, technique, j}
		events, size := t.event(complication, k), t.size(k)
		if size.Hidden != Shown {
			return nil, 0, false
		}
		if t.strata.names[j] != "" {
			cells = append(cells, shownCell{events, size.N})
			continue
		}
		// Operations without a stratum are in the total and in no table.
		if events.Hidden != Shown {
			total = -1
		} else if total >= 0 {
			total -= events.N
		}
	}
	return cells, total, true
}

// fillings lists the events that the cells can have; nil where there are too
// many. A withheld count may be any but 0, a small one is below the threshold.
func (t *sheet) fillings(cells []shownCell, total int) [][]int {
	var out [][]int
	values := make([]int, len(cells))
	steps := 0
	var place func(j, sum int) bool
	place = func(j, sum int) bool {
		if steps++; steps > betweenWork {
			return false
		}
		if j == len(cells) {
			if total < 0 || sum == total {
				out = append(out, append([]int(nil), values...))
			}
			return true
		}
		low, high := cells[j].events.N, cells[j].events.N
		switch cells[j].events.Hidden {
		case Small:
			low, high = 1, min(t.settings.Threshold-1, cells[j].size)
		case Withheld:
			low, high = 1, cells[j].size
		}
		for v := low; v <= high; v++ {
			if total >= 0 && sum+v > total {
				break
			}
			values[j] = v
			if !place(j+1, sum+v) {
				return false
			}
		}
		return true
	}
	if !place(0, 0) {
		return nil
	}
	return out
}

// extent grows to hold values; a value that is not a number spoils it.
type extent struct{ low, high float64 }

func wholeRange() extent { return extent{math.Inf(1), math.Inf(-1)} }

func (e *extent) hold(v float64) {
	e.low, e.high = math.Min(e.low, v), math.Max(e.high, v) // NaN stays
}

func (e extent) between() *Between {
	if b := (Between{Number(e.low), Number(e.high)}); b.Low.Defined() && b.High.Defined() {
		return &b
	}
	return nil
}
