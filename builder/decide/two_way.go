package decide

import "math"

// Map is the preferred option over a grid of two parameters.
type Map struct {
	X, Y Parameter
	// XAt and YAt are the grid's values, ascending.
	XAt, YAt []float64
	// Best[i][j] is the preferred option (its place in [Model.OptionIDs]) at
	// XAt[j], YAt[i]; the first on a tie.
	Best [][]int
}

// TwoWay moves two parameters together over their ranges (0 to 1 for a
// probability without one) on a grid of size by size points, at least 2. Two
// branches of one node cannot be moved independently, nor can a parameter
// without range or domain: both give false.
func (m *Model) TwoWay(x, y Parameter, size int) (Map, bool) {
	xLow, xHigh, okX := x.domain()
	yLow, yHigh, okY := y.domain()
	if !okX || !okY || size < 2 || x.touches(y) {
		return Map{}, false
	}
	grid := Map{X: x, Y: y}
	for i := range size {
		share := float64(i) / float64(size-1)
		grid.XAt = append(grid.XAt, xLow+(xHigh-xLow)*share)
		grid.YAt = append(grid.YAt, yLow+(yHigh-yLow)*share)
	}
	for _, v := range grid.YAt {
		row := make([]int, size)
		for j, u := range grid.XAt {
			s := m.rest()
			s.move(x, u)
			s.move(y, v)
			values := m.optionValues(s, nil)
			for k := range values {
				if m.prefers(values[k], values[row[j]]) {
					row[j] = k
				}
			}
		}
		grid.Best = append(grid.Best, row)
	}
	return grid, true
}

// domain is what the parameter may be moved over.
func (p Parameter) domain() (low, high float64, ok bool) {
	switch {
	case p.Ranged():
		return p.Low, p.High, true
	case p.Probability:
		return 0, 1, true
	}
	return 0, 0, false
}

// touches says whether two parameters stand at one node.
func (p Parameter) touches(q Parameter) bool {
	for _, a := range p.places {
		for _, b := range q.places {
			if a.node == b.node {
				return true
			}
		}
	}
	return false
}

// MostInfluential gives the two ranged parameters with the largest swings that
// can be moved together, for the two-way map; false where there are not two.
func (m *Model) MostInfluential() (x, y Parameter, ok bool) {
	var first *Parameter
	for _, s := range m.OneWay() {
		switch {
		case math.IsNaN(s.Swing):
			return x, y, false
		case first == nil:
			p := s.Parameter
			first = &p
		case !first.touches(s.Parameter):
			return *first, s.Parameter, true
		}
	}
	return x, y, false
}
