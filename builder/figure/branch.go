package figure

// branch is a part of a tree as the layout sees it: the line that leads to a node, its
// words, and the branches that go on from there. Decision trees and chains share it.
type branch struct {
	label string   // above the line
	notes []string // below it, in small text
	tail  string   // beside the node of an end
	node  nodeKind
	line  stroke
	prune bool // crossed with two strokes: not chosen
	href  string
	kids  []*branch

	x, y       Px // of the node, once placed
	upper      []string
	lower      []string
	tails      []string
	above, own Px // words above the line; height of all its words
	height     Px // of the branch with all that goes on from it
}

// nodeKind is the sign of a node: squares decide, circles leave it to chance, triangles end
// (the convention of decision analysis).
type nodeKind int

const (
	squareNode nodeKind = iota
	circleNode
	triangleNode
	diamondNode
	dotNode
	openTriangleNode
)

const (
	nodeR      Px = 6
	minColumn  Px = 124 // narrower columns change the tree into an outline
	tailColumn Px = 150
	outlineIn  Px = 15 // indent of an outline by level
	siblingGap Px = 6  // below each branch
)

// depth gives the number of levels below a branch.
func (b *branch) depth() int {
	d := 0
	for _, k := range b.kids {
		d = max(d, k.depth()+1)
	}
	return d
}

// hasTails reports whether any end has words beside it.
func (b *branch) hasTails() bool {
	if b.tail != "" {
		return true
	}
	for _, k := range b.kids {
		if k.hasTails() {
			return true
		}
	}
	return false
}

// drawTree draws the branches from y down and gives the lower edge: in columns where they
// are wide enough for words, else as an outline.
func drawTree(d *Drawing, root *branch, y Px) Px {
	tail := Px(nodeR + 4)
	if root.hasTails() {
		tail = min(tailColumn, d.Width/4)
	}
	levels := root.depth()
	column := (d.Width - 2*margin - 2*nodeR - tail) / Px(max(1, levels))
	if column < minColumn {
		return outline(d, root, y)
	}
	column = min(column, 260)
	t := treeLayout{d, column, tail}
	for _, k := range root.kids {
		t.measure(k)
	}
	root.height = stackHeight(root.kids)
	root.x, root.y = margin+nodeR, y+root.height/2
	t.place(root, y)
	t.lines(root)
	t.words(root)
	return y + root.height
}

// stackHeight adds the heights of branches.
func stackHeight(kids []*branch) Px {
	h := Px(0)
	for _, k := range kids {
		h += k.height
	}
	return max(h, 2*nodeR+4)
}

// treeLayout holds what all branches share.
type treeLayout struct {
	d      *Drawing
	column Px
	tail   Px
}

// measure breaks the words into lines and adds up heights from the ends inwards.
func (t treeLayout) measure(b *branch) {
	room := t.column - 2*nodeR - 24
	b.upper = wrap(b.label, textSize, room, 4)
	b.lower = nil
	for _, n := range b.notes {
		b.lower = append(b.lower, wrap(n, smallSize, room, 2)...)
	}
	thick := b.line.width / 2
	b.above = max(Px(len(b.upper))*lineHeight+3+thick, nodeR+3)
	below := max(Px(len(b.lower))*lineHeight+3+thick, nodeR+3) + siblingGap
	if b.tail != "" {
		b.tails = wrap(b.tail, smallSize, t.tail-10, 5)
		half := Px(len(b.tails))*lineHeight/2 + 3
		b.above, below = max(b.above, half), max(below, half)
	}
	b.own = b.above + below
	for _, k := range b.kids {
		t.measure(k)
	}
	b.height = b.own
	if len(b.kids) > 0 {
		b.height = max(b.own, stackHeight(b.kids))
	}
}

// place gives each branch its band: those of one node stand one below the other, each
// node level with the middle of what goes on from it, as far as its own words allow.
func (t treeLayout) place(b *branch, top Px) {
	at := top + max(0, b.height-stackHeight(b.kids))/2
	for _, k := range b.kids {
		k.x = b.x + t.column
		t.place(k, at)
		lo, hi := at+k.above, at+k.height-(k.own-k.above)
		mid := at + k.height/2
		if n := len(k.kids); n > 0 {
			mid = (k.kids[0].y + k.kids[n-1].y) / 2
		}
		k.y = max(lo, min(mid, hi))
		at += k.height
	}
}

// lines draws the lines from a node to the next ones, thin ones last.
func (t treeLayout) lines(b *branch) {
	for _, k := range b.kids {
		elbow := Point{b.x + nodeR + 14, k.y}
		t.d.polyline(k.line, Point{b.x + nodeR, b.y}, elbow, Point{k.x - nodeR, k.y})
		if k.prune {
			for _, dx := range []Px{0, 5} {
				x := k.x - nodeR - 14 + dx
				t.d.line(Point{x - 2, k.y + 6}, Point{x + 2, k.y - 6}, inkLine)
			}
		}
		t.lines(k)
	}
}

// words draws the nodes and writes the words over the lines.
func (t treeLayout) words(b *branch) {
	t.d.open("figure-node", b.href, "")
	drawNode(t.d, Point{b.x, b.y}, b.node)
	left := b.x - t.column + nodeR + 20
	thick := b.line.width / 2
	first := b.y - thick - Px(len(b.upper))*lineHeight - 3 + textSize
	t.d.sayBlock(Point{left, first}, b.upper, textSize, start, Ink, false)
	t.d.sayBlock(Point{left, b.y + thick + 1 + textSize}, b.lower, smallSize, start, Soft, false)
	if len(b.tails) > 0 {
		first := b.y - Px(len(b.tails))*lineHeight/2 + textSize
		t.d.sayBlock(Point{b.x + nodeR + 6, first}, b.tails, smallSize, start, Ink, false)
	}
	t.d.close()
	for _, k := range b.kids {
		t.words(k)
	}
}

// outline draws the tree as indented lines, each branch under the one before.
func outline(d *Drawing, root *branch, y Px) Px {
	drawNode(d, Point{margin + nodeR, y + nodeR + 2}, root.node)
	root.x, root.y = margin+nodeR, y+nodeR+2
	return outlineBelow(d, root, root.y+nodeR+6, 1)
}

// outlineBelow draws what goes on from a node at the given level.
func outlineBelow(d *Drawing, b *branch, y Px, level int) Px {
	x := margin + nodeR + Px(min(level, 8))*outlineIn
	for _, k := range b.kids {
		k.x, k.y = x, y+nodeR+2
		thin := k.line
		thin.width = 1.2
		d.line(Point{b.x, b.y + nodeR}, Point{b.x, k.y}, thin)
		k.line.width = min(k.line.width, 7)
		d.line(Point{b.x, k.y}, Point{k.x - nodeR, k.y}, k.line)
		if k.prune {
			for _, dx := range []Px{-4, -1} {
				d.line(Point{b.x + 4 + dx + 2, k.y + 5}, Point{b.x + 4 + dx + 5, k.y - 5}, inkLine)
			}
		}
		d.open("figure-node", k.href, "")
		drawNode(d, Point{k.x, k.y}, k.node)
		room := d.Width - margin - k.x - nodeR - 6
		at := Point{k.x + nodeR + 6, y + textSize}
		lines := wrap(k.label, textSize, room, 4)
		d.sayBlock(at, lines, textSize, start, Ink, false)
		at.Y += Px(len(lines)) * lineHeight
		for _, n := range append(k.notes, k.tail) {
			if n == "" {
				continue
			}
			small := wrap(n, smallSize, room, 3)
			d.sayBlock(at, small, smallSize, start, Soft, false)
			at.Y += Px(len(small)) * lineHeight
		}
		d.close()
		y = outlineBelow(d, k, max(at.Y-textSize+4, k.y+nodeR+6), level+1)
	}
	return y
}

// drawNode draws the sign of a node.
func drawNode(d *Drawing, c Point, k nodeKind) {
	line := stroke{Ink, 1.2, ""}
	switch k {
	case squareNode:
		d.rect(Box{c.X - nodeR + 0.5, c.Y - nodeR + 0.5, 2*nodeR - 1, 2*nodeR - 1}, Paper, line)
	case circleNode:
		d.disc(c, nodeR, Paper, line)
	case triangleNode:
		d.polygon(Paper, line, Point{c.X - nodeR, c.Y}, Point{c.X + nodeR, c.Y - nodeR}, Point{c.X + nodeR, c.Y + nodeR})
	case diamondNode:
		diamond(d, c)
	case openTriangleNode:
		triangle(d, c, false)
	default:
		d.disc(c, markR-0.8, Ink, stroke{})
	}
}
