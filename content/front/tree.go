package front

import (
	"strconv"

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
}

func (c *checker) walk(n *yaml.Node, depth int) {
	if depth > maxDepth {
		c.ok = false
		c.bag.Error("too-deep", spanOf(c.src, n), "more than %d levels inside one another", maxDepth)
		return
	}
	if n.Anchor != "" || n.Kind == yaml.AliasNode {
		c.ok = false
		c.bag.Error("anchor", spanOf(c.src, n), "anchors (&name) and aliases (*name) are not allowed in a bank; write the text out, or put it in straight quotes if it begins with & or *")
		return
	}
	if n.Kind == yaml.MappingNode {
		c.duplicates(n)
	}
	for _, child := range n.Content {
		if !c.ok {
			return
		}
		c.walk(child, depth+1)
	}
}

// duplicates reports every key given twice in a mapping, with both places.
func (c *checker) duplicates(n *yaml.Node) {
	first := make(map[string]*yaml.Node, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if key.Kind != yaml.ScalarNode {
			continue
		}
		earlier, twice := first[key.Value]
		if !twice {
			first[key.Value] = key
			continue
		}
		c.bag.Error("duplicate-key", spanOf(c.src, key), "%q is given twice, at line %d and at line %d; neither is chosen: keep one",
			key.Value, earlier.Line, key.Line).Also(spanOf(c.src, earlier), "the first is here")
	}
}

// spanOf is the place of a node: its text on its first line.
func spanOf(src *diagnose.Source, n *yaml.Node) diagnose.Span {
	return src.Span(n.Line, n.Column, len([]rune(n.Value)))
}

// kindWords says what a node is in words.
func kindWords(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Kind == yaml.ScalarNode && n.Value == "":
		return "nothing"
	}
	return "a text"
}
