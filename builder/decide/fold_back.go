package decide

import (
	"math"
	"math/big"
)

// Valued is a node with its expected value, the tree drawn by its values.
type Valued struct {
	Node  *Node
	Exact *big.Rat
	Value float64
	// Next are the options or branches in the order stated.
	Next []ValuedBranch
}

// ValuedBranch is one option or branch with what follows it.
type ValuedBranch struct {
	ID, Text string
	// P is the branch's probability, NaN for an option.
	P float64
	// Seen is how often the branch was taken in the cases.
	Seen int
	// Preferred marks the best option of a decision; on an exact tie, each.
	Preferred bool
	Then      Valued
}

// FoldBack computes every node's expected value from the ends: an end's own
// value, Σ p·value at a chance node, the best option's at a decision (the
// largest for [Most], the smallest for [Least]). Sums and comparisons are exact.
func (m *Model) FoldBack() Result {
	values := make([]*big.Rat, len(m.nodes))
	m.fold(m.root, values)
	root := m.valued(m.root, values)
	r := Result{Root: root, Exact: root.Exact, Value: root.Value, Margin: math.NaN()}
	var runnerUp *big.Rat
	for i, b := range root.Next {
		v := OptionValue{ID: b.ID, Text: b.Text, Exact: b.Then.Exact, Value: b.Then.Value, Preferred: b.Preferred}
		r.Options = append(r.Options, v)
		if b.Preferred {
			r.Best = append(r.Best, b.ID)
		} else if e := values[m.root.next[i].id]; runnerUp == nil || m.better(e, runnerUp) {
			runnerUp = e
		}
	}
	switch {
	case len(r.Best) > 1:
		r.Margin = 0
	case runnerUp != nil:
		r.Margin = math.Abs(float(new(big.Rat).Sub(r.Exact, runnerUp)))
	}
	return r
}

// Result is a folded-back tree.
type Result struct {
	Root    Valued
	Options []OptionValue // of the root
	// Best are the preferred options: more than one on an exact tie, and then
	// each must be named.
	Best  []string
	Exact *big.Rat
	Value float64
	// Margin is the distance from the preferred option to the next, in the
	// values' unit: 0 on a tie, NaN with one option only.
	Margin float64
}

// OptionValue is the expected value of one option of the root.
type OptionValue struct {
	ID, Text  string
	Exact     *big.Rat
	Value     float64
	Preferred bool
}

// fold fills values, by node, from n down.
func (m *Model) fold(n *node, values []*big.Rat) *big.Rat {
	v := new(big.Rat)
	switch n.source.Kind {
	case End:
		v.Set(n.source.Value)
	case Chance:
		for i, child := range n.next {
			v.Add(v, new(big.Rat).Mul(n.p[i], m.fold(child, values)))
		}
	default:
		for i, child := range n.next {
			if c := m.fold(child, values); i == 0 || m.better(c, v) {
				v.Set(c)
			}
		}
	}
	values[n.id] = v
	return v
}

func (m *Model) valued(n *node, values []*big.Rat) Valued {
	v := Valued{Node: n.source, Exact: values[n.id], Value: float(values[n.id])}
	for i, child := range n.next {
		b := ValuedBranch{P: math.NaN(), Then: m.valued(child, values)}
		if n.source.Kind == Chance {
			s := n.source.Branches[i]
			b.ID, b.Text, b.Seen, b.P = s.ID, s.Text, s.P.Seen, float(n.p[i])
		} else {
			s := n.source.Options[i]
			b.ID, b.Text = s.ID, s.Text
			b.Preferred = values[child.id].Cmp(values[n.id]) == 0
		}
		v.Next = append(v.Next, b)
	}
	return v
}
