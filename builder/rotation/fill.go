package rotation

import (
	"math/bits"
	"math/rand/v2"
)

// filling is a rectangle in the course of being filled.
type filling struct {
	rectangle
	asked  []int
	cells  [][]int
	left   int        // work left before the next beginning
	random *rand.Rand // how ties are broken
}

// search fills the cells, beginning anew with ties broken otherwise whenever a
// beginning has led nowhere for long, each time for longer: without that, one
// unlucky cell can cost more than all the rest (C. P. Gomes, B. Selman and
// H. Kautz, Boosting combinatorial search through randomization, 1998; from
// memory). The seeds are fixed.
func (s *filling) search() answer {
	for try := uint64(0); ; try++ {
		own := min(*s.nodes, 200<<min(try, 20))
		s.left, s.random = own, rand.New(rand.NewPCG(try, uint64(s.n)))
		a := s.fill(len(s.asked) * s.n)
		*s.nodes -= own - s.left
		if a != unknown || *s.nodes <= 0 {
			return a
		}
	}
}

// fill sets the cell with the fewest choices first, or places the symbol of a
// row that has the fewest columns left; it goes back where one has none.
func (s *filling) fill(left int) answer {
	if left == 0 {
		return yes
	}
	if s.left <= 0 {
		return unknown
	}
	s.left--
	choices := s.tightest()
	s.random.Shuffle(len(choices), func(i, j int) { choices[i], choices[j] = choices[j], choices[i] })
	for _, c := range choices {
		undo, ok := s.set(c)
		a := no
		if ok {
			a = s.fill(left - 1)
		}
		if a == yes {
			return yes
		}
		s.unset(c, undo)
		if a == unknown {
			return unknown
		}
	}
	return no
}

// choice is a symbol for a cell.
type choice struct{ row, column, symbol int }

// tightest lists the choices of the most constrained cell, or of the most
// constrained symbol of a row.
func (s *filling) tightest() []choice {
	least, found := s.n+1, choice{}
	bySymbol, ties := false, 0
	better := func(k int) bool { // fewer choices, or as few and drawn
		if k > least {
			return false
		}
		if k < least {
			least, ties = k, 0
		}
		ties++
		return s.random.IntN(ties) == 0
	}
	var columns [Most]uint16
	for _, i := range s.asked {
		clear(columns[:])
		for c, v := range s.cells[i] {
			if v >= 0 {
				continue
			}
			d := s.domain[i][c]
			if better(bits.OnesCount16(d)) {
				found, bySymbol = choice{i, c, 0}, false
			}
			for d != 0 {
				columns[bits.TrailingZeros16(d)] |= 1 << c
				d &= d - 1
			}
		}
		for v := range s.n {
			if s.placed(i, v) {
				continue
			}
			if better(bits.OnesCount16(columns[v])) {
				found, bySymbol = choice{i, 0, v}, true
			}
		}
	}
	return s.spell(found, bySymbol)
}

func (s *filling) placed(row, symbol int) bool {
	for _, v := range s.cells[row] {
		if v == symbol {
			return true
		}
	}
	return false
}

// spell lists every choice of a cell, or of a symbol.
func (s *filling) spell(found choice, bySymbol bool) []choice {
	var list []choice
	if bySymbol {
		for c, v := range s.cells[found.row] {
			if v < 0 && s.domain[found.row][c]&(1<<found.symbol) != 0 {
				list = append(list, choice{found.row, c, found.symbol})
			}
		}
		return list
	}
	for d := s.domain[found.row][found.column]; d != 0; d &= d - 1 {
		list = append(list, choice{found.row, found.column, bits.TrailingZeros16(d)})
	}
	return list
}

// set puts a symbol in a cell and takes it from the rest of its row and column;
// ok is false when a cell is left without any. It returns the cells that lost it.
func (s *filling) set(c choice) (undo []choice, ok bool) {
	s.cells[c.row][c.column] = c.symbol
	ok = true
	take := func(row, column int) {
		d := &s.domain[row][column]
		if s.cells[row][column] >= 0 || *d&(1<<c.symbol) == 0 {
			return
		}
		*d &^= 1 << c.symbol
		undo = append(undo, choice{row, column, c.symbol})
		ok = ok && *d != 0
	}
	for column := range s.n {
		take(c.row, column)
	}
	for _, row := range s.asked {
		take(row, c.column)
	}
	return undo, ok
}

func (s *filling) unset(c choice, undo []choice) {
	s.cells[c.row][c.column] = -1
	for _, u := range undo {
		s.domain[u.row][u.column] |= 1 << u.symbol
	}
}
