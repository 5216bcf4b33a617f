package decide

import "slices"

// scenario is one setting of all numbers of a tree, by node.
type scenario struct {
	p [][]float64
	v []float64
}

// rest is the scenario that the tree states.
func (m *Model) rest() scenario {
	s := scenario{make([][]float64, len(m.nodes)), make([]float64, len(m.nodes))}
	for i, n := range m.nodes {
		for _, p := range n.p {
			s.p[i] = append(s.p[i], float(p))
		}
		if n.source.Kind == End {
			s.v[i] = float(n.source.Value)
		}
	}
	return s
}

// move sets a parameter to x in s, whose other numbers are at rest.
func (s scenario) move(p Parameter, x float64) {
	for _, at := range p.places {
		if !p.Probability {
			s.v[at.node] = x
			continue
		}
		moved := slices.Clone(s.p[at.node])
		scale := (1 - x) / (1 - moved[at.branch])
		for j := range moved {
			moved[j] *= scale
		}
		moved[at.branch] = x
		s.p[at.node] = moved
	}
}

// value is a node's expected value in s; each decision takes its best option or,
// where policy is given, the option that policy names.
func (m *Model) value(n *node, s scenario, policy []int) float64 {
	switch n.source.Kind {
	case End:
		return s.v[n.id]
	case Chance:
		sum := 0.0
		for i, child := range n.next {
			sum += s.p[n.id][i] * m.value(child, s, policy)
		}
		return sum
	}
	if policy != nil {
		return m.value(n.next[policy[n.id]], s, policy)
	}
	best := m.value(n.next[0], s, nil)
	for _, child := range n.next[1:] {
		if v := m.value(child, s, nil); m.prefers(v, best) {
			best = v
		}
	}
	return best
}

// options gives the values of the root's options in s.
func (m *Model) optionValues(s scenario, policy []int) []float64 {
	out := make([]float64, len(m.root.next))
	for i, child := range m.root.next {
		out[i] = m.value(child, s, policy)
	}
	return out
}

// At gives the options' expected values with one parameter set to x and the
// others at rest, later decisions being made anew.
func (m *Model) At(p Parameter, x float64) []float64 {
	s := m.rest()
	s.move(p, x)
	return m.optionValues(s, nil)
}

// policy is the option taken at each decision at rest, by node: the first of
// the best.
func (m *Model) policy() []int {
	choice := make([]int, len(m.nodes))
	var walk func(n *node, v Valued)
	walk = func(n *node, v Valued) {
		for i := len(v.Next) - 1; i >= 0; i-- {
			if v.Next[i].Preferred {
				choice[n.id] = i
			}
			walk(n.next[i], v.Next[i].Then)
		}
	}
	walk(m.root, m.FoldBack().Root)
	return choice
}
