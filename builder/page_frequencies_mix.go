package builder

import (
	"slices"

	"caseleaf/builder/tally"
)

// mix says how many operations of each stratum each technique had. The published
// result has these sizes beside every complication, the same ones each time.
func (b *rateBook) mix() MixTable {
	var t MixTable
	var strata []tally.Word
	cells := map[string]map[tally.Word]string{}
	for _, row := range b.result.ByStratum {
		if row.Complication != b.result.ByStratum[0].Complication {
			break
		}
		if !slices.Contains(strata, row.Stratum) {
			strata = append(strata, row.Stratum)
			t.Strata = append(t.Strata, b.stratum(row.Stratum))
		}
		if cells[row.Technique] == nil {
			cells[row.Technique] = map[tally.Word]string{}
		}
		cells[row.Technique][row.Stratum] = b.count(row.Operations)
	}
	for _, row := range b.result.Complications {
		if row.Complication != b.result.Complications[0].Complication {
			break
		}
		line := MixLine{ID: "technique-" + row.Technique, Name: b.met.link(row.Technique), All: b.count(row.Operations)}
		for _, s := range strata {
			text, some := cells[row.Technique][s]
			if !some {
				text = b.words.number(0)
			}
			line.Cells = append(line.Cells, text)
		}
		t.Lines = append(t.Lines, line)
	}
	return t
}

// periodLines says how many operations each period had.
func (b *rateBook) periodLines() []PeriodLine {
	var lines []PeriodLine
	for _, row := range b.result.ByPeriod {
		if row.Complication != b.result.ByPeriod[0].Complication {
			break
		}
		line := PeriodLine{Period: row.Period, Operations: b.count(row.Operations)}
		if row.Operations.Hidden == tally.Shown && row.Operations.N == 0 {
			line.Gap, line.Operations = true, b.words.say("no-data")
		}
		lines = append(lines, line)
	}
	return lines
}
