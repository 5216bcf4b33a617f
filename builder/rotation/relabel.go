package rotation

// relabel gives the rows of a design to the groups and its symbols to the
// stations so that the demands are met. Neither changes how often one station
// follows another, so a balanced design stays balanced. The design may have
// more rows than there are groups. It returns nil where no such naming exists,
// or none is found within the bound.
func relabel(design Table, p Problem, nodes *int) Table {
	n := naming{design: design, p: p, nodes: nodes, row: spare(p.Groups), symbol: spare(p.Stations)}
	n.rowTaken, n.symbolTaken = make([]bool, len(design)), make([]bool, p.Stations)
	for _, d := range p.Demands {
		if d.Round == AnyRound {
			if d.Forbidden {
				return nil
			}
			continue
		}
		n.add(d)
	}
	if !n.name(0) {
		return nil
	}
	return n.table()
}

func spare(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = -1
	}
	return out
}

// naming is a design in the course of being named.
type naming struct {
	design                Table
	p                     Problem
	nodes                 *int
	asked                 []Demand // fixed ones first: they leave the least choice
	fixed                 int
	row, symbol           []int // of a group, of a station; -1 while free
	rowTaken, symbolTaken []bool
}

func (n *naming) add(d Demand) {
	if d.Forbidden {
		n.asked = append(n.asked, d)
		return
	}
	n.asked = append(n.asked, Demand{})
	copy(n.asked[n.fixed+1:], n.asked[n.fixed:])
	n.asked[n.fixed] = d
	n.fixed++
}

// name goes through the demands from the i-th on.
func (n *naming) name(i int) bool {
	if i == len(n.asked) {
		return true
	}
	if *n.nodes <= 0 {
		return false
	}
	*n.nodes--
	d := n.asked[i]
	if n.row[d.Group] < 0 {
		for row := range n.design {
			if n.rowTaken[row] {
				continue
			}
			n.row[d.Group], n.rowTaken[row] = row, true
			if n.name(i) {
				return true
			}
			n.row[d.Group], n.rowTaken[row] = -1, false
		}
		return false
	}
	there := n.design[n.row[d.Group]][d.Round]
	if n.symbol[d.Station] >= 0 {
		return (n.symbol[d.Station] == there) != d.Forbidden && n.name(i+1)
	}
	for symbol := range n.symbolTaken {
		if n.symbolTaken[symbol] || (symbol == there) == d.Forbidden {
			continue
		}
		n.symbol[d.Station], n.symbolTaken[symbol] = symbol, true
		if n.name(i + 1) {
			return true
		}
		n.symbol[d.Station], n.symbolTaken[symbol] = -1, false
	}
	return false
}

// table writes the design with its names; what the demands do not name takes
// what is left, in order.
func (n *naming) table() Table {
	fillUp(n.row, n.rowTaken)
	fillUp(n.symbol, n.symbolTaken)
	station := make([]int, len(n.symbol))
	for s, symbol := range n.symbol {
		station[symbol] = s
	}
	t := make(Table, n.p.Groups)
	for g, row := range n.row {
		t[g] = append([]int(nil), n.design[row]...)
		for r, symbol := range t[g] {
			if symbol != Rest {
				t[g][r] = station[symbol]
			}
		}
	}
	return t
}

func fillUp(to []int, taken []bool) {
	next := 0
	for i := range to {
		if to[i] >= 0 {
			continue
		}
		for taken[next] {
			next++
		}
		to[i], taken[next] = next, true
	}
}
