package decide

import (
	"math"

	"caseleaf/builder/stat"
)

// Parameter is one number of a tree that a sensitivity analysis moves: a
// branch's probability (the others rescaled in proportion) or an end's value.
type Parameter struct {
	// Name is p(…) for the probability of a branch and v(…) for the value of an
	// end, with the ids on the way to it: p(hooks / pupil-held).
	Name string
	// Text is the branch's own text; for an end that of the branch or option
	// that leads to it.
	Text  string
	Value float64 // as the tree states it
	// Low and High are the range that the author's statement supports: the 95 %
	// interval of a Beta or Dirichlet probability, the stated range of a value.
	// NaN for a fixed probability and for a value without a range.
	Low, High float64
	// Probability tells a probability (0 to 1) from a value.
	Probability bool

	places []place
}

// Ranged says whether the parameter has a range to be moved over.
func (p Parameter) Ranged() bool { return !math.IsNaN(p.Low) && !math.IsNaN(p.High) }

// place is where a parameter stands: an end, or a branch of a chance node.
type place struct {
	node, branch int
}

// below says whether the place lies in the tree below n.
func (p place) below(n *node) bool { return n.id < p.node && p.node <= n.last }

// Parameters lists the numbers of the tree in the order stated: of a chance node
// with two branches the first only, for the second is what the first leaves; a
// branch at probability 1 not at all, for its others cannot grow.
func (m *Model) Parameters() []Parameter {
	return m.parameters(func(n *node, branch int) bool {
		return len(n.next) != 2 || branch == 0
	})
}

// Parameter gives the parameter of a name, be it the second of two branches.
func (m *Model) Parameter(name string) (Parameter, bool) {
	for _, p := range m.parameters(func(*node, int) bool { return true }) {
		if p.Name == name {
			return p, true
		}
	}
	return Parameter{}, false
}

func (m *Model) parameters(wanted func(n *node, branch int) bool) []Parameter {
	var out []Parameter
	shared := map[string]int{}
	for _, n := range m.nodes {
		if n.source.Kind == End {
			out = append(out, m.valueParameter(n))
		}
		for i, b := range n.source.Branches {
			if !wanted(n, i) || n.p[i].IsInt() && n.p[i].Sign() > 0 {
				continue
			}
			p := m.branchParameter(n, i)
			if k, ok := shared[b.Shared]; ok && b.Shared != "" {
				out[k].places = append(out[k].places, p.places...)
				continue
			}
			if b.Shared != "" {
				p.Name = "p(" + b.Shared + ")"
				shared[b.Shared] = len(out)
			}
			out = append(out, p)
		}
	}
	return out
}

func (m *Model) valueParameter(n *node) Parameter {
	p := Parameter{Name: "v(" + n.path + ")", Text: m.textOf(n), Value: float(n.source.Value), Low: math.NaN(), High: math.NaN()}
	if n.source.Low != nil && n.source.High != nil {
		p.Low, p.High = float(n.source.Low), float(n.source.High)
	}
	p.places = []place{{node: n.id}}
	return p
}

func (m *Model) branchParameter(n *node, i int) Parameter {
	b := n.source.Branches[i]
	p := Parameter{
		Name: "p(" + n.next[i].path + ")", Text: b.Text, Value: float(n.p[i]), Low: math.NaN(), High: math.NaN(), Probability: true,
		places: []place{{node: n.id, branch: i}},
	}
	if n.counts != nil {
		total := 0.0
		for _, c := range n.counts {
			total += c
		}
		// One branch of a Dirichlet against all others is a Beta.
		post := stat.BetaPosterior(0, 0, n.counts[i], total-n.counts[i], 0.95)
		p.Low, p.High = post.Low, post.High
	}
	return p
}

// textOf is the text of the branch or option that leads to n.
func (m *Model) textOf(n *node) string {
	for _, parent := range m.nodes {
		for i, child := range parent.next {
			if child != n {
				continue
			}
			if parent.source.Kind == Chance {
				return parent.source.Branches[i].Text
			}
			return parent.source.Options[i].Text
		}
	}
	return ""
}
