package epub

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// element makes an element; pairs are its attributes.
func element(a atom.Atom, pairs ...string) *html.Node {
	n := &html.Node{Type: html.ElementNode, Data: a.String(), DataAtom: a}
	for i := 0; i+1 < len(pairs); i += 2 {
		n.Attr = append(n.Attr, html.Attribute{Key: pairs[i], Val: pairs[i+1]})
	}
	return n
}

func text(s string) *html.Node { return &html.Node{Type: html.TextNode, Data: s} }

func link(to, words string) *html.Node {
	a := element(atom.A, "href", to)
	a.AppendChild(text(words))
	return a
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func has(n *html.Node, key string) bool {
	for _, a := range n.Attr {
		if a.Key == key {
			return true
		}
	}
	return false
}

// walk visits a node and all below it.
func walk(n *html.Node, visit func(*html.Node)) {
	visit(n)
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		walk(c, visit)
	}
}

// find is the first node that is wanted, n itself included.
func find(n *html.Node, wanted func(*html.Node) bool) *html.Node {
	if wanted(n) {
		return n
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if found := find(c, wanted); found != nil {
			return found
		}
	}
	return nil
}

func children(n *html.Node) []*html.Node {
	var list []*html.Node
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		list = append(list, c)
	}
	return list
}

// words is the text of a node, its blanks made single.
func words(n *html.Node) string {
	var out strings.Builder
	walk(n, func(n *html.Node) {
		if n.Type == html.TextNode {
			out.WriteString(n.Data)
		}
	})
	return strings.Join(strings.Fields(out.String()), " ")
}
