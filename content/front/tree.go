package front

import (
	"hash/maphash"
	"slices"
	"strconv"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"caseleaf/content/diagnose"
)

func itoa(n int) string { return strconv.Itoa(n) }

// checkTree looks for what YAML allows and a bank does not. It reports false
// when the tree must not be used.
func checkTree(src *diagnose.Source, root *yaml.Node, bag *diagnose.Bag) bool {
	if root.Kind != yaml.MappingNode {
		bag.Error("not-a-mapping", spanOf(src, root), "expected lines of the form `key: value`, found %s", kindWords(root))
		return false
	}
	c := checker{src: src, bag: bag, ok: true}
	c.walk(root, 1)
	return c.ok
}

type checker struct {
	src *diagnose.Source
	bag *diagnose.Bag
	ok  bool

	twice int // keys reported as given twice
	room  firsts
}

func (c *checker) walk(n *yaml.Node, depth int) {
	if depth > maxDepth {
		c.refuse("too-deep", n, "more than %d lists and braces inside one another", maxDepth)
		return
	}
	// The scanner has found these where an author can write them; this holds
	// whatever it thinks.
	switch {
	case n.Anchor != "" || n.Kind == yaml.AliasNode:
		c.refuse("anchor", n, "anchors (&name) and aliases (*name) are not allowed in a bank, so nothing is expanded; write the text out")
	case n.Style&yaml.TaggedStyle != 0:
		c.refuse("tag", n, "a type (a word that begins with an exclamation mark) is not allowed in a bank; put the text in straight quotation marks")
	case n.Kind == yaml.MappingNode:
		c.keys(n)
	case n.Kind == yaml.SequenceNode:
		c.repeats(n)
	}
	for _, child := range n.Content {
		if !c.ok {
			return
		}
		c.walk(child, depth+1)
	}
}

// refuse reports a node that makes the whole tree unfit.
func (c *checker) refuse(code diagnose.Code, n *yaml.Node, format string, args ...any) {
	c.ok = false
	c.bag.Error(code, spanOf(c.src, n), format, args...)
}

// keys checks the keys of a mapping: plain words, none merged, none twice.
func (c *checker) keys(n *yaml.Node) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		switch key := n.Content[i]; {
		case key.Kind != yaml.ScalarNode:
			c.refuse("complex-key", key, "a key must be a plain word, not %s", kindWords(key))
		case key.Value == "<<" && key.Style == 0:
			c.refuse("merge-key", key, "<< copies keys from elsewhere, which is not allowed in a bank; write them out")
		}
	}
	c.duplicates(n)
}

// duplicates reports every key given twice in a mapping, with both places.
func (c *checker) duplicates(n *yaml.Node) {
	first := c.firsts(len(n.Content) / 2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if key.Kind != yaml.ScalarNode {
			continue
		}
		earlier := first.same(key)
		if earlier == nil {
			continue
		}
		if c.twice++; c.twice > maxFaults {
			return
		}
		c.bag.Error("duplicate-key", spanOf(c.src, key), "%q is given twice, at line %d and at line %d; neither is chosen: keep one",
			key.Value, earlier.Line, key.Line).Also(spanOf(c.src, earlier), "the first is here")
	}
}

// repeats warns of an entry that stands twice in one list, word for word: a line
// copied and forgotten. No list of a bank says anything by saying it twice.
func (c *checker) repeats(n *yaml.Node) {
	first := c.firsts(len(n.Content))
	for _, entry := range n.Content {
		if entry.Kind == yaml.ScalarNode && entry.Value == "" {
			continue
		}
		earlier := first.same(entry)
		if earlier == nil {
			continue
		}
		if c.twice++; c.twice > maxFaults {
			return
		}
		c.bag.Warn("repeated-entry", spanOf(c.src, entry), "this entry is the same as the one at line %d; take one of them out", earlier.Line).
			Also(spanOf(c.src, earlier), "the first is here")
	}
}

// firsts finds nodes that are alike: of a few by walking along their sums, of many
// by a table of those.
type firsts struct {
	nodes []*yaml.Node
	sums  []uint64
	table map[uint64]*yaml.Node
}

// firsts gives the room for the nodes of one list, until the next asks for it.
func (c *checker) firsts(n int) *firsts {
	const few = 16
	f := &c.room
	f.nodes, f.sums, f.table = f.nodes[:0], f.sums[:0], nil
	if n > few {
		f.table = make(map[uint64]*yaml.Node, n)
	}
	return f
}

// same gives the first node that was like this one, or nil where this is the first.
func (f *firsts) same(n *yaml.Node) *yaml.Node {
	sum := sumOf(n)
	if f.table != nil {
		earlier := f.table[sum]
		if earlier == nil {
			f.table[sum] = n
		}
		return ifSame(earlier, n)
	}
	if i := slices.Index(f.sums, sum); i >= 0 {
		return ifSame(f.nodes[i], n)
	}
	f.nodes, f.sums = append(f.nodes, n), append(f.sums, sum)
	return nil
}

func ifSame(earlier, n *yaml.Node) *yaml.Node {
	if earlier == nil || !sameNode(earlier, n) {
		return nil
	}
	return earlier
}

var sumSeed = maphash.MakeSeed()

// sumOf sums up kinds and values of a node.
func sumOf(n *yaml.Node) uint64 {
	sum := maphash.String(sumSeed, n.Value) + uint64(n.Kind)
	for _, c := range n.Content {
		sum = sum*0x9e3779b97f4a7c15 + sumOf(c)
	}
	return sum
}

// sameNode reports nodes of the same kinds and values.
func sameNode(a, b *yaml.Node) bool {
	return a.Kind == b.Kind && a.Value == b.Value && slices.EqualFunc(a.Content, b.Content, sameNode)
}

// spanOf is the place of a node: its text as far as its first line goes.
func spanOf(src *diagnose.Source, n *yaml.Node) diagnose.Span {
	rest := utf8.RuneCountInString(src.Line(n.Line)) - n.Column + 1
	return src.Span(n.Line, n.Column, max(0, min(utf8.RuneCountInString(n.Value), rest)))
}

// kindWords says what a node is in words.
func kindWords(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Kind == yaml.ScalarNode && n.Value == "":
		return "nothing"
	}
	if n.Kind == yaml.MappingNode {
		return "keys and values"
	}
	return "a text"
}
