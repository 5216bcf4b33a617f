package tally

import (
	"slices"

	"caseleaf/builder/stat"
)

// hide marks a count: a small one by its size, any other as withheld, which says
// that it is not small.
func (n *network) hide(i int) {
	e := &n.edges[i]
	switch {
	case e.hidden != Shown || e.free:
	case e.value < n.threshold:
		e.hidden, e.low, e.high = Small, max(1, e.low), min(n.threshold-1, e.high)
	default:
		e.hidden, e.low = Withheld, max(n.leastWithheld(), e.low)
	}
}

// leastWithheld is the smallest count that withheld can stand for.
func (n *network) leastWithheld() int {
	if n.weak {
		return 1
	}
	return n.threshold
}

// protect hides every small count, then the companions of the usual rule on
// technique by stratum, then what else is needed until no hidden count can be
// worked out.
//
// It tries first with marks that say all: small ones are "<5", withheld ones are
// not small. Where so few events are left that this cannot be done, it tries with
// small counts withheld too, and if even that fails withholds everything.
func (n *network) protect(l *layer, forced func(k key) bool) {
	plain := slices.Clone(n.edges)
	companions := stat.Suppress(l.techniqueStratum.square(), n.threshold)
	for _, weak := range []bool{false, true} {
		n.weak, n.edges = weak, slices.Clone(plain)
		for i := range n.edges {
			e := &n.edges[i]
			small := e.value < n.threshold
			companion := e.key.split == byTechniqueStratum && companions.Hidden[e.key.i][e.key.j]
			if small || companion || forced(e.key) {
				n.hide(i)
			}
		}
		for n.coverAll() {
			if !n.hideTwins() {
				return
			}
		}
	}
	n.blanket()
}

// hideTwins hides every shown count that could be the same operations as a
// hidden one under another name (a unit that alone uses one technique, say): as
// many operations and as many events. It says whether it hid any.
func (n *network) hideTwins() bool {
	type pair struct{ size, value int }
	hidden := map[pair]bool{}
	for _, e := range n.edges {
		if e.hidden != Shown {
			hidden[pair{e.cap, e.value}] = true
		}
	}
	found := false
	for i := range n.edges {
		e := &n.edges[i]
		if e.hidden == Shown && !e.free && e.cap != unbounded && hidden[pair{e.cap, e.value}] {
			n.hide(i)
			found = true
		}
	}
	return found
}

// coverAll covers every hidden count that could be worked out; false when one
// cannot be covered. Hiding more never pins another count down, and what cover
// hides varies itself, so one pass is enough.
func (n *network) coverAll() bool {
	for i := range n.edges {
		if n.determined(i) && !n.cover(i) {
			return false
		}
	}
	return true
}

// square is the grid with all lines of one length, as a table.
func (g grid) square() [][]int {
	columns := 0
	for _, line := range g {
		columns = max(columns, len(line))
	}
	out := make([][]int, len(g))
	for i, line := range g {
		out[i] = append(append([]int{}, line...), make([]int, columns-len(line))...)
	}
	return out
}

// blanket withholds all counts; that says no more than that they are not 0.
func (n *network) blanket() {
	for i := range n.edges {
		if !n.edges[i].free {
			n.demote(i)
		}
	}
}

// demote marks a count as withheld whatever its size.
func (n *network) demote(i int) {
	e := &n.edges[i]
	e.hidden, e.low, e.high = Withheld, max(1, e.floor), e.cap
}

// determined says whether a count is hidden and could yet be worked out.
func (n *network) determined(i int) bool {
	e := &n.edges[i]
	if e.hidden == Shown {
		return false
	}
	more := e.value < e.high && n.path(e.to, e.from, i, false) != nil
	less := e.value > e.low && n.path(e.from, e.to, i, false) != nil
	return !more && !less
}

// cover hides the cheapest set of further counts that lets a determined one
// vary; false when there is none.
func (n *network) cover(i int) bool {
	e := &n.edges[i]
	if n.weak && e.hidden == Small {
		n.demote(i)
		if !n.determined(i) {
			return true
		}
	}
	var best []int
	if e.value < e.high {
		best = n.path(e.to, e.from, i, true)
	}
	if e.value > e.low {
		if p := n.path(e.from, e.to, i, true); p != nil && (best == nil || n.cost(p) < n.cost(best)) {
			best = p
		}
	}
	for _, k := range best {
		if n.weak && n.edges[k].hidden == Small && n.edges[k].value == n.edges[k].high {
			n.demote(k)
		}
		n.hide(k)
	}
	return best != nil
}

// cost is what hiding the shown edges of a path loses.
func (n *network) cost(path []int) int {
	sum := 0
	for _, k := range path {
		sum += n.price(&n.edges[k])
	}
	return sum
}

// sumPrice makes hiding a total dearer than hiding any cell.
const sumPrice = 1_000_000

func (n *network) price(e *edge) int {
	switch {
	case e.hidden != Shown || e.free:
		return 0
	case e.sum:
		return sumPrice + e.value
	}
	return 1 + e.value
}

// room says whether one more (or one less) can go along an edge. With mayHide an
// edge that is shown, or in the weak form marked small, counts as withheld.
func (n *network) room(e *edge, more, mayHide bool) bool {
	low, high := e.low, e.high
	switch {
	case e.free:
	case e.hidden == Shown && !mayHide:
		return false
	case e.hidden == Shown:
		low = max(e.floor, n.leastWithheld())
	case e.hidden == Small && n.weak && mayHide:
		high = e.cap
	}
	if more {
		return e.value < high
	}
	return e.value > low
}
