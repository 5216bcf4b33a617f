package rotation

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
