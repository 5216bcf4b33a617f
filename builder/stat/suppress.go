package stat

// Suppression says which cells of a table of counts are hidden.
type Suppression struct {
	// Primary cells are the small counts themselves, 1 to threshold-1.
	Primary [][]bool
	// Hidden cells are the primary and the complementary ones.
	Hidden [][]bool
}

// Count gives the number of primary and of hidden cells.
func (s Suppression) Count() (primary, hidden int) {
	for i, row := range s.Hidden {
		for j, h := range row {
			if h {
				hidden++
			}
			if s.Primary[i][j] {
				primary++
			}
		}
	}
	return primary, hidden
}

// Suppress hides the small counts of a table whose row and column totals are
// shown: first every count from 1 to threshold-1 (primary), then, rows before
// columns, in each line that hides exactly one cell also its smallest other
// non-zero cell (the first of equals; a zero only where there is nothing else),
// until no line hides exactly one. Zeros stay shown.
//
// It is the rule on cells only. Two hidden cells in a line may still be told
// from a small remainder, and a shown total may itself be small: whoever
// publishes must check both. Rows must be of one length; an empty table gives an
// empty result.
//
// Common practice, no source for this exact rule.
func Suppress(counts [][]int, threshold int) Suppression {
	s := Suppression{Primary: make([][]bool, len(counts)), Hidden: make([][]bool, len(counts))}
	columns := 0
	for i, row := range counts {
		columns = max(columns, len(row))
		s.Primary[i], s.Hidden[i] = make([]bool, len(row)), make([]bool, len(row))
		for j, v := range row {
			s.Primary[i][j] = v > 0 && v < threshold
			s.Hidden[i][j] = s.Primary[i][j]
		}
	}
	for changed := true; changed; {
		changed = false
		for i := range counts {
			changed = s.pairUp(counts, rowLine(i, len(counts[i]))) || changed
		}
		for j := range columns {
			changed = s.pairUp(counts, columnLine(j, counts)) || changed
		}
	}
	return s
}

// cell is a place in a table.
type cell struct{ row, column int }

func rowLine(row, length int) []cell {
	line := make([]cell, length)
	for j := range line {
		line[j] = cell{row, j}
	}
	return line
}

func columnLine(column int, counts [][]int) []cell {
	var line []cell
	for i := range counts {
		if column < len(counts[i]) {
			line = append(line, cell{i, column})
		}
	}
	return line
}

// pairUp hides one more cell of a line that hides exactly one, and says whether
// it did.
func (s Suppression) pairUp(counts [][]int, line []cell) bool {
	hidden, best, bestZero := 0, -1, -1
	for k, c := range line {
		v := counts[c.row][c.column]
		switch {
		case s.Hidden[c.row][c.column]:
			hidden++
		case v == 0 && bestZero < 0:
			bestZero = k
		case v > 0 && (best < 0 || v < counts[line[best].row][line[best].column]):
			best = k
		}
	}
	if best < 0 {
		best = bestZero
	}
	if hidden != 1 || best < 0 {
		return false
	}
	s.Hidden[line[best].row][line[best].column] = true
	return true
}
