package decide

import (
	"math/big"
	"strconv"
)

// Goal says which end of the scale of values is wanted.
type Goal int

const (
	// Most: the larger expected value is preferred (the usual scale, 0 to 100).
	Most Goal = iota
	// Least: the smaller one is, as for costs.
	Least
)

// Tree is a decision as its author states it. The root is a decision.
type Tree struct {
	Goal Goal
	Root *Node
}

// Kind is what a node is.
type Kind int

// The kinds of node: a square, a circle and a triangle in a drawing.
const (
	Decision Kind = iota
	Chance
	End
)

// Node is one node; which fields count depends on its Kind.
type Node struct {
	Kind     Kind
	Question string   // Decision
	Options  []Option // Decision, at least one
	Branches []Branch // Chance, at least one
	Value    *big.Rat // End
	// Low and High are the range within which the author would put an end's
	// value; nil when none is stated.
	Low, High *big.Rat
}

// Option is one choice at a decision. IDs are unique within their node.
type Option struct {
	ID, Text string
	Then     *Node
}

// Branch is one outcome at a chance node.
type Branch struct {
	ID, Text string
	P        Weight
	// Shared names a probability that stands at several nodes: branches with
	// the same name move together in a sensitivity analysis.
	Shared string
	Then   *Node
}

// Basis is what a branch's probability rests on.
type Basis int

const (
	// Fixed: a probability from 0 to 1.
	Fixed Basis = iota
	// Prior: a pseudo-count above 0, to which the branch's own count in the
	// cases is added; all branches of the node have one (Beta for two branches,
	// Dirichlet for more).
	Prior
	// Rest: what the fixed branches of the node leave; once a node.
	Rest
)

// Weight is a branch's probability as stated.
type Weight struct {
	Basis Basis
	Value *big.Rat // the probability or the pseudo-count; nil for Rest
	Seen  int      // how often the branch was taken in the cases; counts for Prior only
}

// Number is the exact rational of a decimal as an author wrote it: 0.15 is
// 3/20, not the nearest binary fraction. NaN and infinities give nil.
func Number(v float64) *big.Rat {
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(v, 'g', -1, 64))
	if !ok {
		return nil
	}
	return r
}

// float is the nearest float64.
func float(r *big.Rat) float64 {
	f, _ := r.Float64()
	return f
}
