package rotation

import (
	"math/bits"
	"math/rand/v2"
)

// rectangle is a table seen the way that makes it a Latin rectangle: of the two,
// groups and stations, the fewer are its rows and the others its symbols. Each
// row holds every symbol once, and no column holds one twice; nobody's rest has
// to be thought of. A cell's domain is the set of symbols that it may hold.
type rectangle struct {
	byStation bool // rows are stations, symbols are groups
	rows, n   int
	domain    [][]uint16 // [row][column]
	nodes     *int       // work left; shared by all searches of a problem
}

// newRectangle is the rectangle of a problem with some of its demands; ok is
// false when a demand can never be met.
func newRectangle(p Problem, demands []Demand, nodes *int) (q rectangle, ok bool) {
	q = rectangle{byStation: p.Groups > p.Stations, n: p.Rounds(), rows: min(p.Groups, p.Stations), nodes: nodes}
	q.domain = make([][]uint16, q.rows)
	for i := range q.domain {
		q.domain[i] = make([]uint16, q.n)
		for c := range q.domain[i] {
			q.domain[i][c] = 1<<q.n - 1
		}
	}
	for _, d := range demands {
		row, symbol := d.Group, d.Station
		if q.byStation {
			row, symbol = d.Station, d.Group
		}
		switch {
		case d.Round == AnyRound && d.Forbidden:
			return q, false
		case d.Round == AnyRound:
		case d.Forbidden:
			q.domain[row][d.Round] &^= 1 << symbol
		default:
			q.domain[row][d.Round] &= 1 << symbol
		}
	}
	return q, true
}

// answer is what a bounded search knows.
type answer int

const (
	no answer = iota
	yes
	unknown // the bound was reached first
)

// complete fills the rectangle, or says that it can't be filled. Only rows with
// demands need search: by Hall's marriage theorem a Latin rectangle always takes
// one more row (M. Hall, An existence theorem for Latin squares, 1945; from
// memory), and so any row without demands goes in afterwards.
func (q rectangle) complete() (answer, [][]int) {
	var asked, free []int
	for i, row := range q.domain {
		if all(row, 1<<q.n-1) {
			free = append(free, i)
		} else {
			asked = append(asked, i)
		}
	}
	cells := make([][]int, q.rows)
	for i := range cells {
		cells[i] = make([]int, q.n)
		for c := range cells[i] {
			cells[i][c] = -1
		}
	}
	s := filling{rectangle: q, asked: asked, cells: cells}
	if a := s.search(); a != yes {
		return a, nil
	}
	for _, i := range free {
		s.addRow(i)
	}
	return yes, cells
}

func all(row []uint16, full uint16) bool {
	for _, d := range row {
		if d != full {
			return false
		}
	}
	return true
}

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

// table turns a filled rectangle back into a table.
func (q rectangle) table(p Problem, cells [][]int) Table {
	t := make(Table, p.Groups)
	for g := range t {
		t[g] = make([]int, q.n)
		for r := range t[g] {
			t[g][r] = Rest
		}
	}
	for i := range cells {
		for r, v := range cells[i] {
			if q.byStation {
				t[v][r] = i
			} else {
				t[i][r] = v
			}
		}
	}
	return t
}
