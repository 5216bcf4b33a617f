package rotation

// addRow fills a row without demands by matching columns to symbols that they
// do not hold yet.
func (s *filling) addRow(row int) {
	var holds [Most]int // symbol to column
	for v := range holds {
		holds[v] = -1
	}
	for c := range s.n {
		var seen uint16
		s.augment(c, &holds, &seen)
	}
	for v, c := range holds {
		if c >= 0 {
			s.cells[row][c] = v
		}
	}
}

// augment finds column c a symbol, moving other columns on where it must.
func (s *filling) augment(c int, holds *[Most]int, seen *uint16) bool {
	for v := range s.n {
		if *seen&(1<<v) != 0 || s.inColumn(c, v) {
			continue
		}
		*seen |= 1 << v
		if holds[v] < 0 || s.augment(holds[v], holds, seen) {
			holds[v] = c
			return true
		}
	}
	return false
}

func (s *filling) inColumn(c, symbol int) bool {
	for i := range s.cells {
		if s.cells[i][c] == symbol {
			return true
		}
	}
	return false
}
