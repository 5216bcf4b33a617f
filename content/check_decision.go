package content

import (
	"math"

	"caseleaf/content/diagnose"
	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

// reportUnknownID reports an id that is not among ids and offers the nearest.
func reportUnknownID(bag *diagnose.Bag, id Given[string], ids []string, what string) bool {
	for _, known := range ids {
		if known == id.Value {
			return true
		}
	}
	d := bag.Error("unknown-id", id.Span, "unknown %s %s", what, quoteShort(id.Value))
	if near, ok := term.Nearest(id.Value, ids); ok {
		d.Suggest(near)
	} else if len(ids) > 0 && len(ids) <= 12 {
		d.Message += "; known: " + listWords(ids)
	}
	return false
}

// checkNode holds a node to exactly one form, and the branches of a chance
// node to probabilities that can sum to one.
func checkNode(r *reader, n *yaml.Node, node *Node) {
	forms := 0
	for _, key := range []string{"end", "chance", "decide"} {
		if !isEmpty(child(n, key)) {
			forms++
		}
	}
	if forms != 1 {
		r.bad("entry-kind", first(n), "a node has exactly one of end, chance and decide; this one has %d", forms)
	}
	if node.Range.Known() && node.End.Known() && (node.End.Value < node.Range.Value[0] || node.End.Value > node.Range.Value[1]) {
		r.bag.Error("impossible-value", node.End.Span, "the value %g lies outside its range", node.End.Value).Also(node.Range.Span, "the range")
	}
	checkChance(r, node.Chance)
}

// sumSlack allows for probabilities written with few decimals.
const sumSlack = 1e-9

func checkChance(r *reader, branches []Branch) {
	var sum float64
	var fixed, priors, rests int
	for _, b := range branches {
		switch {
		case b.P.Known() && b.Prior.State != Absent:
			r.bag.Error("entry-kind", b.Prior.Span, "a branch has p or prior, not both")
		case b.P.Known() && b.P.Value.Rest:
			if rests++; rests == 2 {
				r.bag.Error("bad-value", b.P.Span, "rest can stand once at a node")
			}
		case b.P.Known():
			fixed++
			sum += b.P.Value.Value
		case b.Prior.Known():
			priors++
		}
	}
	switch {
	case len(branches) == 0:
	case fixed+rests > 0 && fixed+rests < len(branches):
		r.bag.Error("entry-kind", branches[0].Span, "the branches of a node all have p (or rest), or all have prior (or are left to the cases)")
	case rests > 0 && sum > 1+sumSlack, rests == 0 && fixed > 0 && math.Abs(sum-1) > sumSlack:
		r.bag.Error("impossible-value", branches[0].P.Span, "the probabilities at this node sum to %.6g, not 1", sum)
	}
}

// checkDecision holds the ids in a tree unique and its sources in range.
func checkDecision(r *reader, n *yaml.Node, d *Decision) {
	seen := map[string]diagnose.Span{}
	unique := func(id Given[string], what string) {
		if !id.Known() {
			return
		}
		if earlier, ok := seen[what+id.Value]; ok {
			r.bag.Error("duplicate-id", id.Span, "%s %q stands twice in this decision", what, id.Value).Also(earlier, "the first one")
			return
		}
		seen[what+id.Value] = id.Span
	}
	d.Walk(func(o *TreeOption) { unique(o.ID, "option ") }, func(b *Branch) {
		unique(b.ID, "branch ")
		if b.Source.Known() && b.Source.Value > len(d.Sources) {
			r.bag.Error("unknown-id", b.Source.Span, "source %d of %d", b.Source.Value, len(d.Sources))
		}
	})
}

// Walk visits every option and every branch of the tree, parents before
// children, in the order of the file.
func (d *Decision) Walk(option func(*TreeOption), branch func(*Branch)) {
	walkOptions(d.Options, option, branch)
}

func walkOptions(options []TreeOption, option func(*TreeOption), branch func(*Branch)) {
	for i := range options {
		option(&options[i])
		options[i].Then.walk(option, branch)
	}
}

func (n *Node) walk(option func(*TreeOption), branch func(*Branch)) {
	for i := range n.Chance {
		branch(&n.Chance[i])
		n.Chance[i].Then.walk(option, branch)
	}
	if n.Decide != nil {
		walkOptions(n.Decide.Options, option, branch)
	}
}
