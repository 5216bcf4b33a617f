package tally

import (
	"math"

	"caseleaf/builder/stat"
)

// OverallRow asks of one complication whether its rate differs among the
// techniques at all, before any two of them are compared.
type OverallRow struct {
	Complication string `json:"complication"`
	Method       string `json:"method" doc:"fisher (exact, by Freeman and Halton) where events are few, else chi-square"`
	P            Number `json:"p"`
	MinExpected  Number `json:"min_expected" doc:"smallest expected count; under 5 a chi-square p is rough"`
}

// exactTables is the most tables for which the exact test is made.
const exactTables = 50_000

// overallRows has none on a published sheet: a handout has no p values.
func (t *sheet) overallRows() []OverallRow {
	var rows []OverallRow
	if t.published || len(t.technique) < 2 {
		return rows
	}
	for _, k := range t.complication {
		var table [][]int
		for _, i := range t.technique {
			h := t.table(k, key{byTechnique, i, 0})
			table = append(table, []int{h.events, h.others})
		}
		row := OverallRow{Complication: t.complications.names[k], Method: "chi-square"}
		c := stat.ChiSquare(table, false)
		row.P, row.MinExpected = Number(c.P), Number(c.MinExpected)
		if tablesWith(t.events[k].total, len(table)) <= exactTables {
			if p, err := stat.FisherExactTable(table); err == nil {
				row.Method, row.P = "fisher", Number(p)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// tablesWith is how many ways there are to share events among groups, before
// any group's size is asked: C(events+groups-1, groups-1).
func tablesWith(events, groups int) float64 {
	a, _ := math.Lgamma(float64(events + groups))
	b, _ := math.Lgamma(float64(groups))
	c, _ := math.Lgamma(float64(events + 1))
	return math.Exp(a - b - c)
}
