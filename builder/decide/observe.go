package decide

import (
	"math/big"

	"caseleaf/content"
)

// Observed is what cases met at a shared decision.
type Observed struct {
	// Met is how many moments of the cases name the decision.
	Met int
	// Chosen counts them by the option chosen; options nobody chose are 0.
	Chosen map[string]int
	// Followed counts moments by option and by the branch that came of it.
	Followed map[string]map[string]int
	// Unplaced counts moments whose option or branch the tree does not have, or
	// whose branch lies under another option.
	Unplaced int
}

// Observe turns an author's decision into a tree whose chance branches carry
// how often the given cases took them. A branch that a case names as what came of
// its choice counts, and so does every branch on the way to it. A node whose
// branches have neither probabilities nor priors is left to the cases, from one
// pseudo-count a branch (Bayes and Laplace's flat prior).
//
// Cases are chosen because they teach: the counts show what was seen, and move a
// stated prior a little; they are no rates. What the tree lacks shows as an error
// of [Compile].
func Observe(d *content.Decision, cases []*content.Case) (*Tree, Observed) {
	seen := Observed{Chosen: map[string]int{}, Followed: map[string]map[string]int{}}
	took := map[*content.Branch]int{}
	for i := range d.Options {
		seen.Chosen[d.Options[i].ID.Value] = 0
	}
	for _, c := range cases {
		for _, e := range c.Decisions() {
			if e.Decision.Point.Known() && e.Decision.Point.Value == d.ID.Value {
				seen.Met++
				seen.count(d, e.Decision, took)
			}
		}
	}
	return &Tree{Root: &Node{
		Kind: Decision, Question: d.Question.Value, Options: options(d.Options, took),
	}}, seen
}

// count places one moment in the tree.
func (o *Observed) count(d *content.Decision, at *content.DecisionPoint, took map[*content.Branch]int) {
	chosen, ok := at.Chosen.Get()
	if !ok {
		return
	}
	if _, known := o.Chosen[chosen]; !known {
		o.Unplaced++
		return
	}
	o.Chosen[chosen]++
	came, ok := at.CameOf.Get()
	if !ok {
		return
	}
	for i := range d.Options {
		if d.Options[i].ID.Value != chosen {
			continue
		}
		way := wayTo(&d.Options[i].Then, came)
		if way == nil {
			o.Unplaced++
		}
		for _, b := range way {
			took[b]++
		}
		if way != nil {
			if o.Followed[chosen] == nil {
				o.Followed[chosen] = map[string]int{}
			}
			o.Followed[chosen][came]++
		}
	}
}

// wayTo gives the chance branches from n to the named one, nil when it is not
// below n.
func wayTo(n *content.Node, branch string) []*content.Branch {
	for i := range n.Chance {
		b := &n.Chance[i]
		if b.ID.Known() && b.ID.Value == branch {
			return []*content.Branch{b}
		}
		if way := wayTo(&b.Then, branch); way != nil {
			return append([]*content.Branch{b}, way...)
		}
	}
	if n.Decide != nil {
		for i := range n.Decide.Options {
			if way := wayTo(&n.Decide.Options[i].Then, branch); way != nil {
				return way
			}
		}
	}
	return nil
}

func options(given []content.TreeOption, took map[*content.Branch]int) []Option {
	var out []Option
	for i := range given {
		out = append(out, Option{ID: given[i].ID.Value, Text: given[i].Text.Value, Then: nodeOf(&given[i].Then, took)})
	}
	return out
}

// nodeOf is nil for a node that the author left empty.
func nodeOf(n *content.Node, took map[*content.Branch]int) *Node {
	switch {
	case n.End.Known():
		e := &Node{Kind: End, Value: Number(n.End.Value)}
		if r, ok := n.Range.Get(); ok {
			e.Low, e.High = Number(r[0]), Number(r[1])
		}
		return e
	case n.Decide != nil:
		return &Node{Kind: Decision, Question: n.Decide.Question.Value, Options: options(n.Decide.Options, took)}
	case len(n.Chance) == 0:
		return nil
	}
	out := &Node{Kind: Chance}
	toCases := leftToCases(n.Chance)
	for i := range n.Chance {
		b := &n.Chance[i]
		w := weightOf(b)
		if toCases {
			w = Weight{Basis: Prior, Value: big.NewRat(1, 1)}
		}
		w.Seen = took[b]
		out.Branches = append(out.Branches, Branch{ID: b.ID.Value, Text: b.Text.Value, P: w, Then: nodeOf(&b.Then, took)})
	}
	return out
}

// leftToCases says that no branch has a probability or a prior.
func leftToCases(branches []content.Branch) bool {
	for i := range branches {
		if branches[i].P.Known() || branches[i].Prior.Known() {
			return false
		}
	}
	return true
}

// weightOf is the branch's stated weight; without one its value is nil.
func weightOf(b *content.Branch) Weight {
	if p, ok := b.P.Get(); ok {
		if p.Rest {
			return Weight{Basis: Rest}
		}
		return Weight{Value: Number(p.Value)}
	}
	if prior, ok := b.Prior.Get(); ok {
		return Weight{Basis: Prior, Value: Number(prior)}
	}
	return Weight{}
}
