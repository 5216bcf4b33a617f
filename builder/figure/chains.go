package figure

import (
	"slices"
	"strconv"
	"strings"
)

// Chains shows how events, findings and decisions followed one another over all cases with
// the same first event: a tree of ways, each line as thick as its count, the most trodden
// first.
type Chains struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Paths           []ChainPath
}

// ChainPath is one case's way, or several cases' with the same way.
type ChainPath struct {
	Count int // cases; at least 1
	Links []ChainLink
}

// ChainLink is one event, finding or decision of a way.
type ChainLink struct {
	Kind  ChainKind
	Label string
	Href  string
}

// ChainKind is what a link is.
type ChainKind int

// The kinds of links.
const (
	ChainEvent ChainKind = iota
	ChainFinding
	ChainDecision
)

// chainNode is a link with all ways that go on from it.
type chainNode struct {
	link  ChainLink
	count int
	ends  int // cases whose way ends here
	kids  []*chainNode
}

// merge joins the ways that begin alike.
func (c Chains) merge() *chainNode {
	root := &chainNode{}
	for _, p := range c.Paths {
		n := max(1, p.Count)
		at := root
		at.count += n
		for _, l := range p.Links {
			at = at.next(l)
			at.count += n
		}
		at.ends += n
	}
	root.sort()
	return root
}

// next finds or adds a link.
func (n *chainNode) next(l ChainLink) *chainNode {
	for _, k := range n.kids {
		if k.link.Kind == l.Kind && k.link.Label == l.Label {
			return k
		}
	}
	k := &chainNode{link: l}
	n.kids = append(n.kids, k)
	return k
}

// sort puts the most trodden ways first, ties by name.
func (n *chainNode) sort() {
	slices.SortStableFunc(n.kids, func(a, b *chainNode) int {
		if a.count != b.count {
			return b.count - a.count
		}
		return strings.Compare(a.link.Label, b.link.Label)
	})
	for _, k := range n.kids {
		k.sort()
	}
}

// Draw lays the ways out.
func (c Chains) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: c.IDPrefix, Title: c.Title}
	merged := c.merge()
	root := &branch{node: dotNode}
	for _, k := range merged.kids {
		root.kids = append(root.kids, k.branch(c.Words, merged.count))
	}
	y := drawTree(d, root, 6)
	node := func(k nodeKind) func(*Drawing, Point) { return func(d *Drawing, at Point) { drawNode(d, at, k) } }
	keys := []key{{say(c.Words, "draw-kind-event"), 10, node(dotNode)}, {say(c.Words, "draw-kind-finding"), 11, node(openTriangleNode)}, {say(c.Words, "draw-kind-decision"), 13, node(diamondNode)},
		{say(c.Words, "draw-thicker"), 22, func(d *Drawing, at Point) {
			d.line(Point{at.X - 11, at.Y}, Point{at.X, at.Y}, stroke{Faint, 2, ""})
			d.line(Point{at.X, at.Y}, Point{at.X + 11, at.Y}, stroke{Faint, 8, ""})
		}}}
	d.Height = legend(d, keys, margin, y+8) + 4
	return d
}

// branch turns a link into what the layout draws.
func (n *chainNode) branch(w Words, total int) *branch {
	b := &branch{label: n.link.Label, href: n.link.Href, node: [...]nodeKind{dotNode, openTriangleNode, diamondNode}[n.link.Kind],
		line: stroke{Faint, 1.5 + 9*Px(n.count)/Px(total), ""}, notes: []string{say(w, "draw-n-cases", n.count)}}
	if n.ends > 0 && len(n.kids) > 0 {
		b.notes[0] = say(w, "draw-joined", b.notes[0], say(w, "draw-no-further", n.ends))
	}
	for _, k := range n.kids {
		b.kids = append(b.kids, k.branch(w, total))
	}
	return b
}

// Caption counts cases and ways.
func (c Chains) Caption() string {
	total := 0
	for _, p := range c.Paths {
		total += max(1, p.Count)
	}
	return sentence(c.Finding) + say(c.Words, "draw-counts-caption", say(c.Words, "draw-n-ways", len(c.Paths)), say(c.Words, "draw-n-cases", total))
}

// Table lists the ways, the most trodden first.
func (c Chains) Table() Table {
	t := Table{Headers: heads(c.Words, "draw-head-way", "draw-head-cases")}
	var walk func(n *chainNode, way string)
	walk = func(n *chainNode, way string) {
		way = joinWith(say(c.Words, "draw-leads-to"), way, n.link.Label)
		if n.ends > 0 && way != "" {
			t.Rows = append(t.Rows, []string{way, strconv.Itoa(n.ends)})
		}
		for _, k := range n.kids {
			walk(k, way)
		}
	}
	walk(c.merge(), "")
	return t
}
