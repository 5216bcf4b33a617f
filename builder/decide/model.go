package decide

import (
	"errors"
	"fmt"
	"math/big"
)

// Model is a checked tree with its probabilities resolved.
type Model struct {
	goal  Goal
	root  *node
	nodes []*node // every node, parents first
}

// node is a resolved Node; id is its place in Model.nodes and last that of the
// last node below it.
type node struct {
	id     int
	last   int
	source *Node
	path   string // option and branch ids from the root, for messages and names
	next   []*node
	p      []*big.Rat // Chance: exact, summing to 1
	counts []float64  // Chance with priors: parameters of the Beta or Dirichlet
}

// Errors that Compile wraps.
var (
	// ErrSum: the fixed probabilities of a node do not make 1.
	ErrSum = errors.New("probabilities do not sum to 1")
	// ErrShape: the tree is not a tree of the described form.
	ErrShape = errors.New("not a decision tree")
)

// Compile checks a tree and resolves its probabilities. A prior's expected
// probability is (prior + seen)/Σ(prior + seen). The error names the first
// fault: [ErrSum] with the sum found, or [ErrShape].
func Compile(t *Tree) (*Model, error) {
	if t == nil || t.Root == nil || t.Root.Kind != Decision {
		return nil, fmt.Errorf("%w: the root must be a decision", ErrShape)
	}
	m := &Model{goal: t.Goal}
	root, err := m.compile(t.Root, "")
	if err != nil {
		return nil, err
	}
	m.root = root
	return m, nil
}

func (m *Model) compile(source *Node, path string) (*node, error) {
	if source == nil {
		return nil, fmt.Errorf("%w: nothing follows %q", ErrShape, path)
	}
	n := &node{id: len(m.nodes), source: source, path: path}
	m.nodes = append(m.nodes, n)
	var err error
	switch source.Kind {
	case End:
		if source.Value == nil {
			err = fmt.Errorf("%w: the end at %q has no value", ErrShape, path)
		}
	case Decision:
		err = m.options(n)
	case Chance:
		if n.p, n.counts, err = resolve(source.Branches, path); err == nil {
			for _, b := range source.Branches {
				if err = m.follow(n, b.ID, b.Then); err != nil {
					break
				}
			}
		}
	default:
		err = fmt.Errorf("%w: unknown kind of node at %q", ErrShape, path)
	}
	n.last = len(m.nodes) - 1
	return n, err
}

// options compiles what follows each option of a decision.
func (m *Model) options(n *node) error {
	if len(n.source.Options) == 0 {
		return fmt.Errorf("%w: the decision at %q has no options", ErrShape, n.path)
	}
	seen := map[string]bool{}
	for _, o := range n.source.Options {
		if seen[o.ID] {
			return fmt.Errorf("%w: two options %q at %q", ErrShape, o.ID, n.path)
		}
		seen[o.ID] = true
		if err := m.follow(n, o.ID, o.Then); err != nil {
			return err
		}
	}
	return nil
}

func (m *Model) follow(n *node, id string, then *Node) error {
	path := id
	if n.path != "" {
		path = n.path + " / " + id
	}
	child, err := m.compile(then, path)
	if err != nil {
		return err
	}
	n.next = append(n.next, child)
	return nil
}

// resolve turns the stated weights of a chance node into probabilities and,
// where they are priors, the parameters of their distribution.
func resolve(branches []Branch, path string) (p []*big.Rat, counts []float64, err error) {
	if len(branches) == 0 {
		return nil, nil, fmt.Errorf("%w: the chance node at %q has no branches", ErrShape, path)
	}
	sum, priors, rest := new(big.Rat), 0, -1
	for i, b := range branches {
		w := new(big.Rat)
		switch {
		case b.P.Basis == Rest && rest >= 0:
			return nil, nil, fmt.Errorf("%w: two branches at %q are the rest", ErrShape, path)
		case b.P.Basis == Rest:
			rest = i
		case b.P.Value == nil || b.P.Value.Sign() < 0 || b.P.Basis == Prior && b.P.Value.Sign() == 0:
			return nil, nil, fmt.Errorf("%w: branch %q at %q has no usable probability", ErrShape, b.ID, path)
		case b.P.Basis == Prior:
			priors++
			w.Add(b.P.Value, new(big.Rat).SetInt64(int64(max(0, b.P.Seen))))
		default:
			w.Set(b.P.Value)
		}
		p = append(p, w)
		sum.Add(sum, w)
	}
	if priors > 0 {
		if priors < len(branches) {
			return nil, nil, fmt.Errorf("%w: the branches at %q mix priors and probabilities", ErrShape, path)
		}
		for i, w := range p {
			counts = append(counts, float(w))
			p[i] = new(big.Rat).Quo(w, sum)
		}
		return p, counts, nil
	}
	one := big.NewRat(1, 1)
	if rest >= 0 && sum.Cmp(one) <= 0 {
		p[rest].Sub(one, sum)
	} else if sum.Cmp(one) != 0 {
		return nil, nil, fmt.Errorf("%w: %s", ErrSum, sum.RatString())
	}
	return p, nil, nil
}

// better says whether value a is preferred to b.
func (m *Model) better(a, b *big.Rat) bool {
	if m.goal == Least {
		return a.Cmp(b) < 0
	}
	return a.Cmp(b) > 0
}

// OptionIDs gives the options of the root in the order stated, which is the
// order of every list of options in this package.
func (m *Model) OptionIDs() []string {
	ids := make([]string, len(m.root.source.Options))
	for i, o := range m.root.source.Options {
		ids[i] = o.ID
	}
	return ids
}
