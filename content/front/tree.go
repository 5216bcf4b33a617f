package front

import (
	"strconv"
	"strings"
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
	first := make(map[string]*yaml.Node, len(n.Content))
	for _, entry := range n.Content {
		var text strings.Builder
		writeNode(&text, entry)
		earlier, twice := first[text.String()]
		switch {
		case entry.Kind == yaml.ScalarNode && entry.Value == "":
		case !twice:
			first[text.String()] = entry
		default:
			if c.twice++; c.twice > maxFaults {
				return
			}
			c.bag.Warn("repeated-entry", spanOf(c.src, entry), "this entry is the same as the one at line %d; take one of them out", earlier.Line).
				Also(spanOf(c.src, earlier), "the first is here")
		}
	}
}

// writeNode writes kinds and values of a node, which two equal entries share.
func writeNode(b *strings.Builder, n *yaml.Node) {
	b.WriteByte('(')
	b.WriteByte('0' + byte(n.Kind))
	b.WriteString(strconv.Itoa(len(n.Value))) // so that no two values read alike
	b.WriteByte(' ')
	b.WriteString(n.Value)
	for _, c := range n.Content {
		writeNode(b, c)
	}
	b.WriteByte(')')
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
