package tally

import (
	"slices"

	"caseleaf/content"
)

// Counter counts the operations of a logbook as they come. It keeps counts
// only, so its size depends on how many techniques, strata, grades, periods,
// units and complications there are and not on the operations.
type Counter struct {
	techniques, strata, grades, periods, units, complications index

	operations layer
	events     []layer // by complication
	any        []int   // operations with any complication, by unit
}

// index gives names small numbers in the order met.
type index struct {
	names []string
	of    map[string]int
	last  int // neighbours in a logbook are often alike
}

// fewNames is how many names are looked through before the map is asked; for
// so few that is the quicker way.
const fewNames = 8

func (x *index) place(name string) int {
	if x.last < len(x.names) && x.names[x.last] == name {
		return x.last
	}
	x.last = x.find(name)
	return x.last
}

func (x *index) find(name string) int {
	if len(x.names) <= fewNames {
		if i := slices.Index(x.names, name); i >= 0 {
			return i
		}
	} else if i, ok := x.of[name]; ok {
		return i
	}
	if x.of == nil {
		x.of = map[string]int{}
	}
	i := len(x.names)
	x.of[name] = i
	x.names = append(x.names, name)
	return i
}

// layer is one count (of operations, or of one complication) split every way
// that a table splits it.
type layer struct {
	techniqueStratum grid
	stratumGrade     grid
	period, unit     []int
	total            int
}

// grid is a table of counts that grows as needed.
type grid [][]int

func (g *grid) add(i, j int) {
	for len(*g) <= i {
		*g = append(*g, nil)
	}
	addTo(&(*g)[i], j)
}

func (g grid) at(i, j int) int {
	if i >= len(g) || j >= len(g[i]) {
		return 0
	}
	return g[i][j]
}

// row is the sum of line i.
func (g grid) row(i int) int {
	sum := 0
	if i < len(g) {
		for _, v := range g[i] {
			sum += v
		}
	}
	return sum
}

func addTo(line *[]int, i int) {
	for len(*line) <= i {
		*line = append(*line, 0)
	}
	(*line)[i]++
}

func at(line []int, i int) int {
	if i >= len(line) {
		return 0
	}
	return line[i]
}

// cell is where one operation is counted.
type cell struct{ technique, stratum, grade, period, unit int }

func (l *layer) add(c cell) {
	l.techniqueStratum.add(c.technique, c.stratum)
	l.stratumGrade.add(c.stratum, c.grade)
	addTo(&l.period, c.period)
	addTo(&l.unit, c.unit)
	l.total++
}

// Add counts one operation. A complication named twice in a row counts once.
func (c *Counter) Add(o *content.Operation) {
	at := cell{
		technique: c.techniques.place(o.Technique),
		stratum:   c.strata.place(o.Risk),
		grade:     c.grades.place(string(o.Surgeon)),
		period:    c.periods.place(o.Period),
		unit:      c.units.place(o.Unit),
	}
	c.operations.add(at)
	for i, name := range o.Complications {
		if slices.Contains(o.Complications[:i], name) {
			continue
		}
		k := c.complications.place(name)
		for len(c.events) <= k {
			c.events = append(c.events, layer{})
		}
		c.events[k].add(at)
	}
	if len(o.Complications) > 0 {
		addTo(&c.any, at.unit)
	}
}
