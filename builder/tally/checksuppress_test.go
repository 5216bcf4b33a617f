package tally_test

import (
	"strconv"

	"caseleaf/builder/stat"
)

// suppressFunctions are the rows on small counts: the rule itself is
// stat.Suppress; the attacks on a table are searches that belong to the tests.
var suppressFunctions = map[string]func(checkRow) answer{
	"suppress": func(r checkRow) answer {
		counts := r.counts("counts")
		s := stat.Suppress(counts, int(r.realOr("threshold", 5)))
		primary, hidden := s.Count()
		found := tablesThatFit(counts, s.Hidden, 0)
		return answer{"shown": shown(counts, s.Hidden), "primary": primary, "hidden": hidden,
			"solutions": found.solutions, "hidden_cell_ranges": found.ranges()}
	},
	"suppress_attack": func(r checkRow) answer {
		counts := r.counts("counts")
		hidden := make([][]bool, len(counts))
		for i := range hidden {
			hidden[i] = make([]bool, len(counts[i]))
		}
		for _, c := range r.counts("hidden") {
			hidden[c[0]][c[1]] = true
		}
		found := tablesThatFit(counts, hidden, 0)
		return answer{"solutions": found.solutions, "recovered": found.solutions == 1}
	},
	"suppress_attack_row": func(r checkRow) answer {
		n := fillings(r.whole("row_total")-r.whole("shown_sum"), r.whole("hidden_cells"),
			r.whole("primary_min"), r.whole("primary_max"))
		return answer{"solutions": n, "recovered": n == 1}
	},
}

func shown(counts [][]int, hidden [][]bool) []any {
	var out []any
	for i, row := range counts {
		var line []any
		for j, v := range row {
			if hidden[i][j] {
				line = append(line, "s")
			} else {
				line = append(line, strconv.Itoa(v))
			}
		}
		out = append(out, line)
	}
	return out
}

// fillings counts the ways to write rest as cells whole numbers from low to
// high.
func fillings(rest, cells, low, high int) int {
	if cells == 0 {
		if rest == 0 {
			return 1
		}
		return 0
	}
	n := 0
	for v := low; v <= min(high, rest); v++ {
		n += fillings(rest-v, cells-1, low, high)
	}
	return n
}

// fitting is the outcome of the attack on a table with hidden cells.
type fitting struct {
	solutions int
	cells     [][2]int // column by column, as in the reference rows
	low, high []int
}

func (f fitting) ranges() []any {
	var out []any
	for k, c := range f.cells {
		out = append(out, map[string]any{"row": c[0], "col": c[1], "min": f.low[k], "max": f.high[k]})
	}
	return out
}

// tablesThatFit counts the tables of numbers >= least that agree with the shown
// cells and all row and column totals, and notes each hidden cell's range.
func tablesThatFit(counts [][]int, hidden [][]bool, least int) fitting {
	var f fitting
	rows, columns := make([]int, len(counts)), make([]int, len(counts[0]))
	inRow, inColumn := make([]int, len(rows)), make([]int, len(columns))
	for j := range columns {
		for i := range rows {
			if hidden[i][j] {
				f.cells = append(f.cells, [2]int{i, j})
				rows[i] += counts[i][j]
				columns[j] += counts[i][j]
				inRow[i]++
				inColumn[j]++
			}
		}
	}
	values := make([]int, len(f.cells))
	var place func(k int)
	place = func(k int) {
		if k == len(f.cells) {
			f.note(values)
			return
		}
		i, j := f.cells[k][0], f.cells[k][1]
		inRow[i]--
		inColumn[j]--
		for v := least; v <= min(rows[i], columns[j]); v++ {
			if inRow[i] == 0 && v != rows[i] || inColumn[j] == 0 && v != columns[j] {
				continue
			}
			values[k] = v
			rows[i], columns[j] = rows[i]-v, columns[j]-v
			place(k + 1)
			rows[i], columns[j] = rows[i]+v, columns[j]+v
		}
		inRow[i]++
		inColumn[j]++
	}
	place(0)
	return f
}

// note counts one solution.
func (f *fitting) note(values []int) {
	if f.solutions == 0 {
		f.low, f.high = append([]int{}, values...), append([]int{}, values...)
	}
	for k, v := range values {
		f.low[k], f.high[k] = min(f.low[k], v), max(f.high[k], v)
	}
	f.solutions++
}
