package figure

import "fmt"

// Tree is a decision tree: squares decide, circles leave it to chance, triangles end.
type Tree struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Value           string // what the end values mean, in words
	Root            *TreeNode
}

// TreeKind is the kind of a node.
type TreeKind int

// The kinds of nodes.
const (
	DecisionNode TreeKind = iota
	ChanceNode
	EndNode
)

// TreeNode is a node with the branches that leave it. Worth is its expected value, or an
// end's own value, as printed; Label names an end.
type TreeNode struct {
	Kind     TreeKind
	Label    string
	Worth    string
	Branches []TreeBranch
}

// TreeBranch leads to a node. Probability and Count are empty where there are none; of the
// branches of a decision those that are not Preferred are crossed.
type TreeBranch struct {
	Label       string
	Probability string // "0.82"
	Count       string // "4 of 7 cases"
	Preferred   bool
	Href        string
	To          *TreeNode
}

// maxTreeDepth guards against a tree that contains itself.
const maxTreeDepth = 40

// Draw lays the tree out, in columns or as an outline.
func (t Tree) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: t.IDPrefix, Title: t.Title}
	root := &branch{node: squareNode}
	if t.Root != nil {
		root = branchOf(t.Words, t.Root, 0)
	}
	y := drawTree(d, root, 6)
	d.Height = legend(d, treeLegend(t.Words), margin, y+8) + 4
	return d
}

// branchOf turns a node into what the layout draws.
func branchOf(w Words, n *TreeNode, depth int) *branch {
	b := &branch{node: [...]nodeKind{squareNode, circleNode, triangleNode}[n.Kind]}
	if n.Kind == EndNode || depth >= maxTreeDepth {
		b.tail = joinWith(": ", n.Worth, n.Label)
		return b
	}
	for _, x := range n.Branches {
		if x.To == nil {
			continue
		}
		k := branchOf(w, x.To, depth+1)
		k.label, k.href = x.Label, x.Href
		k.notes = branchNotes(w, x)
		k.line = stroke{Ink, 1.2, ""}
		if n.Kind == DecisionNode {
			k.prune = !x.Preferred
			if x.Preferred {
				k.line.width = 3.2
			}
		}
		b.kids = append(b.kids, k)
	}
	return b
}

// branchNotes gives what stands below a branch.
func branchNotes(w Words, x TreeBranch) []string {
	var out []string
	line := x.Count
	if x.Probability != "" {
		line = say(w, "draw-p", x.Probability)
		if x.Count != "" {
			line = say(w, "draw-joined", line, x.Count)
		}
	}
	if line != "" {
		out = append(out, line)
	}
	if x.To.Kind != EndNode && x.To.Worth != "" {
		out = append(out, say(w, "draw-expected", x.To.Worth))
	}
	return out
}

// treeLegend explains the signs.
func treeLegend(w Words) []key {
	node := func(k nodeKind) func(*Drawing, Point) { return func(d *Drawing, c Point) { drawNode(d, c, k) } }
	return []key{
		{say(w, "draw-kind-decision"), 13, node(squareNode)}, {say(w, "draw-chance"), 13, node(circleNode)}, {say(w, "draw-end"), 13, node(triangleNode)},
		{say(w, "draw-preferred"), 22, func(d *Drawing, c Point) {
			d.line(Point{c.X - 11, c.Y}, Point{c.X + 11, c.Y}, stroke{Ink, 3.2, ""})
		}},
		{say(w, "draw-not-preferred"), 22, func(d *Drawing, c Point) {
			d.line(Point{c.X - 11, c.Y}, Point{c.X + 11, c.Y}, stroke{Ink, 1.2, ""})
			for _, dx := range []Px{-2, 3} {
				d.line(Point{c.X + dx - 2, c.Y + 6}, Point{c.X + dx + 2, c.Y - 6}, inkLine)
			}
		}},
	}
}

// ends counts the ends below a node.
func ends(n *TreeNode, depth int) int {
	if n == nil || depth > maxTreeDepth {
		return 0
	}
	if n.Kind == EndNode {
		return 1
	}
	total := 0
	for _, b := range n.Branches {
		total += ends(b.To, depth+1)
	}
	return total
}

// Ends counts the ends of the tree.
func (t Tree) Ends() int { return ends(t.Root, 0) }

// Parts splits a tree of more than most ends into one tree for each branch of its root, to
// be printed on pages of their own; a smaller tree is returned as it is.
func (t Tree) Parts(most int) []Tree {
	if t.Root == nil || t.Ends() <= most || len(t.Root.Branches) < 2 {
		return []Tree{t}
	}
	var out []Tree
	for i, b := range t.Root.Branches {
		part := t
		part.IDPrefix = fmt.Sprintf("%s-part-%d", t.IDPrefix, i+1)
		part.Title = t.Title + ": " + b.Label
		part.Root = &TreeNode{Kind: t.Root.Kind, Worth: t.Root.Worth, Branches: []TreeBranch{b}}
		out = append(out, part)
	}
	return out
}

// Caption says what is compared and what the values mean.
func (t Tree) Caption() string {
	options := 0
	if t.Root != nil {
		options = len(t.Root.Branches)
	}
	out := sentence(t.Finding) + say(t.Words, "draw-tree-caption", say(t.Words, "draw-n-options", options), say(t.Words, "draw-n-ends", t.Ends()))
	if t.Value != "" {
		out += " " + sentence(say(t.Words, "draw-values", t.Value))
	} else {
		out += " "
	}
	return out + say(t.Words, "draw-not-advice")
}

// Table lists the ways from the first choice to each end.
func (t Tree) Table() Table {
	out := Table{Headers: heads(t.Words, "draw-head-way", "draw-head-probabilities", "draw-head-value")}
	leads := say(t.Words, "draw-leads-to")
	var walk func(n *TreeNode, way, chance string, depth int)
	walk = func(n *TreeNode, way, chance string, depth int) {
		if n == nil || depth > maxTreeDepth {
			return
		}
		if n.Kind == EndNode {
			out.Rows = append(out.Rows, []string{joinWith(leads, way, n.Label), chance, n.Worth})
			return
		}
		for _, b := range n.Branches {
			walk(b.To, joinWith(leads, way, b.Label), joinWith(" × ", chance, b.Probability), depth+1)
		}
	}
	walk(t.Root, "", "", 0)
	return out
}

// joinWith joins two texts unless one is empty.
func joinWith(sep, a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + sep + b
}
