package stat

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// ChiSquareResult is Pearson's test of a table.
type ChiSquareResult struct {
	Statistic float64
	// DF is (rows-1)(columns-1) after empty lines are dropped.
	DF int
	P  float64
	// MinExpected is the smallest expected count: below 5 the test is a rough
	// one and [FisherExactTable] is the better.
	MinExpected float64
}

// ChiSquare is Pearson's chi-square Σ(O-E)²/E of a table of counts, its rows
// all of one length. Empty rows and columns are dropped first; yates takes
// min(0.5, |O-E|) off each |O-E| of a 2 x 2 table and has no effect on others.
// A table with fewer than two rows or columns left, ragged rows, or a negative
// count gives NaN and 0 degrees of freedom.
//
// Pearson K. Phil Mag 1900;50:157-175; Yates F. J R Stat Soc Suppl
// 1934;1:217-235 (both from memory).
func ChiSquare(table [][]int, yates bool) ChiSquareResult {
	nan := math.NaN()
	t, ok := dropEmpty(table)
	if !ok || len(t) < 2 || len(t[0]) < 2 {
		return ChiSquareResult{nan, 0, nan, nan}
	}
	rows, columns, total := margins(t)
	correction := 0.0
	smallest := math.Inf(1)
	if yates && len(t) == 2 && len(t[0]) == 2 {
		correction = 0.5
		e := float64(rows[0]) * float64(columns[0]) / float64(total)
		correction = math.Min(correction, math.Abs(float64(t[0][0])-e))
	}
	statistic := 0.0
	for i, row := range t {
		for j, count := range row {
			e := float64(rows[i]) * float64(columns[j]) / float64(total)
			gap := math.Abs(float64(count)-e) - correction
			statistic += gap * gap / e
			smallest = math.Min(smallest, e)
		}
	}
	df := (len(t) - 1) * (len(t[0]) - 1)
	return ChiSquareResult{statistic, df, chiSquareTail(statistic, df), smallest}
}

// chiSquareTail is the upper tail, taken directly: 1 - CDF would print 0 for
// small p values.
func chiSquareTail(statistic float64, df int) float64 {
	if math.IsNaN(statistic) || df < 1 {
		return math.NaN()
	}
	return distuv.ChiSquared{K: float64(df)}.Survival(math.Max(0, statistic))
}

// dropEmpty returns table without its all-zero rows and columns; false when it
// is ragged or holds a negative count.
func dropEmpty(table [][]int) ([][]int, bool) {
	if len(table) == 0 {
		return nil, true
	}
	for _, row := range table {
		if len(row) != len(table[0]) {
			return nil, false
		}
		for _, v := range row {
			if v < 0 {
				return nil, false
			}
		}
	}
	rows, columns, _ := margins(table)
	var kept [][]int
	for i, row := range table {
		if rows[i] == 0 {
			continue
		}
		var k []int
		for j, v := range row {
			if columns[j] > 0 {
				k = append(k, v)
			}
		}
		kept = append(kept, k)
	}
	return kept, true
}

// margins gives the row totals, the column totals and the total.
func margins(table [][]int) (rows, columns []int, total int) {
	rows = make([]int, len(table))
	columns = make([]int, len(table[0]))
	for i, row := range table {
		for j, v := range row {
			rows[i] += v
			columns[j] += v
			total += v
		}
	}
	return rows, columns, total
}
