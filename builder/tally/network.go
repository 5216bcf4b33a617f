package tally

import "math"

// All published counts of one complication hang together: techniques add up to
// the total, technique and stratum to both, strata and grades, periods, units. One
// such family of sums is a flow in a closed network,
//
//	start → technique → stratum → stratum' → grade → all → all' → (periods) → (units) → start
//
// with a count on each edge. Knowing that, it can be told exactly whether a hidden
// count could still have another value: only if one can be pushed round a cycle
// through its edge that uses hidden edges alone and keeps each within what its
// mark says.

// network is the family of counts of one layer.
type network struct {
	edges     []edge
	touching  [][]int // edges at each node
	threshold int
	// weak says that a withheld count may be a small one after all.
	weak bool
}

// edge is one count. A count of 0 is always shown and has no edge.
type edge struct {
	from, to int
	key      key
	value    int
	// low and high bound what the count could be while it is hidden: by its
	// mark, and by the other layers (events are never more than operations).
	low, high int
	floor     int // the smallest and the largest value whatever the mark
	cap       int
	hidden    Hiding
	// free edges are published nowhere: they close the network.
	free bool
	// sum marks a total, which is hidden only when nothing else helps.
	sum bool
}

const unbounded = math.MaxInt

// nodes numbers the network's nodes.
type nodes struct{ techniques, strata, grades int }

func (n nodes) technique(i int) int { return 1 + i }
func (n nodes) stratum(j int) int   { return 1 + n.techniques + j }
func (n nodes) stratum2(j int) int  { return 1 + n.techniques + n.strata + j }
func (n nodes) grade(g int) int     { return 1 + n.techniques + 2*n.strata + g }
func (n nodes) all() int            { return 1 + n.techniques + 2*n.strata + n.grades }
func (n nodes) all2() int           { return n.all() + 1 }
func (n nodes) dated() int          { return n.all() + 2 }

const start = 0

// newNetwork lays out one layer; bounds gives the smallest and the largest value
// that another solution may have at a key and still agree with the other layers
// as they are.
func newNetwork(c *Counter, l *layer, threshold int, bounds func(k key) (low, high int)) *network {
	n := nodes{len(c.techniques.names), len(c.strata.names), len(c.grades.names)}
	net := &network{threshold: threshold, touching: make([][]int, n.dated()+1)}
	add := func(from, to int, k key, sum bool) {
		low, high := bounds(k)
		net.add(edge{from: from, to: to, key: k, value: l.at(k), low: low, high: high, floor: low, cap: high, sum: sum})
	}
	for i := range n.techniques {
		add(start, n.technique(i), key{byTechnique, i, 0}, true)
		for j := range n.strata {
			add(n.technique(i), n.stratum(j), key{byTechniqueStratum, i, j}, false)
		}
	}
	for j := range n.strata {
		add(n.stratum(j), n.stratum2(j), key{byStratum, j, 0}, true)
		for g := range n.grades {
			add(n.stratum2(j), n.grade(g), key{byStratumGrade, j, g}, false)
		}
	}
	for g := range n.grades {
		sum := 0
		for j := range n.strata {
			sum += l.stratumGrade.at(j, g)
		}
		net.add(edge{from: n.grade(g), to: n.all(), value: sum, high: unbounded, free: true})
	}
	add(n.all(), n.all2(), key{}, true)
	for p := range c.periods.names {
		add(n.all2(), n.dated(), key{byPeriod, p, 0}, false)
	}
	for u := range c.units.names {
		add(n.dated(), start, key{byUnit, u, 0}, false)
	}
	return net
}

func (n *network) add(e edge) {
	if e.value == 0 && !e.free {
		return
	}
	n.touching[e.from] = append(n.touching[e.from], len(n.edges))
	n.touching[e.to] = append(n.touching[e.to], len(n.edges))
	n.edges = append(n.edges, e)
}

// path finds the cheapest way for one unit from a node to another without edge
// except: along edges with room for one more, against edges with room for one
// less. Dijkstra's method, plain, for the networks are small.
func (n *network) path(from, to, except int, mayHide bool) []int {
	cost := make([]int, len(n.touching))
	by, done := make([]int, len(n.touching)), make([]bool, len(n.touching))
	for v := range cost {
		cost[v], by[v] = unbounded, -1
	}
	cost[from] = 0
	for {
		v := -1
		for u := range cost {
			if !done[u] && cost[u] != unbounded && (v < 0 || cost[u] < cost[v]) {
				v = u
			}
		}
		if v < 0 {
			return nil
		}
		if v == to {
			break
		}
		done[v] = true
		for _, k := range n.touching[v] {
			e := &n.edges[k]
			next, more := e.to, true
			if e.from != v {
				next, more = e.from, false
			}
			if k == except || done[next] || !n.room(e, more, mayHide) {
				continue
			}
			if c := cost[v] + n.price(e); c < cost[next] {
				cost[next], by[next] = c, k
			}
		}
	}
	way := []int{}
	for v := to; v != from; {
		e := &n.edges[by[v]]
		way = append(way, by[v])
		if e.to == v {
			v = e.from
		} else {
			v = e.to
		}
	}
	return way
}

// mask gives the marks of the hidden counts.
func (n *network) mask() mask {
	m := mask{}
	for _, e := range n.edges {
		if e.hidden != Shown {
			m[e.key] = e.hidden
		}
	}
	return m
}
