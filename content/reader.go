package content

import (
	"strings"
	"unicode/utf8"

	"caseleaf/content/diagnose"
	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

// reader is what reading one file needs: its source, the vocabulary and the
// bag that faults go into.
type reader struct {
	src   *diagnose.Source
	vocab *term.Vocabulary
	bag   *diagnose.Bag
}

// span returns the place of a node: of a scalar its text, of a mapping or list
// its first line's beginning.
func (r *reader) span(n *yaml.Node) diagnose.Span {
	if n == nil {
		return diagnose.Span{Source: r.src}
	}
	length := 1
	if n.Kind == yaml.ScalarNode {
		length = scalarLength(r.src, n)
	}
	return r.src.Span(n.Line, n.Column, length)
}

// scalarLength counts the characters a scalar takes on its first line.
func scalarLength(src *diagnose.Source, n *yaml.Node) int {
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		return 1
	}
	length := utf8.RuneCountInString(n.Value)
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		length += 2
	}
	rest := utf8.RuneCountInString(src.Line(n.Line)) - n.Column + 1
	return max(1, min(length, rest))
}

// unknownKey reports a key that its mapping doesn't have.
func (r *reader) unknownKey(key *yaml.Node, where string, keys []string) {
	d := r.bag.Error("unknown-key", r.span(key), "unknown key %q in %s", key.Value, where)
	if near, ok := term.Nearest(key.Value, keys); ok {
		d.Suggest(near)
		return
	}
	d.Message += "; it knows " + listWords(keys)
}

// bad reports a value that isn't of its form.
func (r *reader) bad(code diagnose.Code, n *yaml.Node, format string, args ...any) *diagnose.Diagnostic {
	return r.bag.Error(code, r.span(n), format, args...)
}

// scalar returns the text of a scalar node, or reports what stands there
// instead.
func (r *reader) scalar(n *yaml.Node, expect string) (string, bool) {
	if n.Kind != yaml.ScalarNode {
		r.bad("wrong-kind", n, "expected %s, found %s", expect, kindWord(n))
		return "", false
	}
	return n.Value, true
}

func kindWord(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "keys and values"
	case yaml.SequenceNode:
		return "a list"
	}
	if isEmpty(n) {
		return "nothing"
	}
	return "the text " + quoteShort(n.Value)
}

// quoteShort quotes a value for a message, cut where it is long.
func quoteShort(s string) string {
	const longest = 40
	s = strings.Join(strings.Fields(s), " ")
	if utf8.RuneCountInString(s) > longest {
		s = string([]rune(s)[:longest]) + "…"
	}
	return `"` + s + `"`
}

// isEmpty reports whether an author left the value out.
func isEmpty(n *yaml.Node) bool {
	if n == nil {
		return true
	}
	switch n.Kind {
	case yaml.ScalarNode:
		return n.Tag == "!!null" || strings.TrimSpace(n.Value) == ""
	case yaml.SequenceNode, yaml.MappingNode:
		return len(n.Content) == 0
	}
	return false
}

// child returns the value of a key, or nil.
func child(n *yaml.Node, key string) *yaml.Node {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

// keyOr returns the node of a key, or the mapping's first key, where a
// missing one is reported.
func keyOr(n *yaml.Node, key string) *yaml.Node {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i]
		}
	}
	return first(n)
}

func first(n *yaml.Node) *yaml.Node {
	if len(n.Content) > 0 && n.Kind == yaml.MappingNode {
		return n.Content[0]
	}
	return n
}

// listWords joins words for a message: a, b and c.
func listWords(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
