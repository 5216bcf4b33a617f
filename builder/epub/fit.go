package epub

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// fit takes out of a page what a book can't use: scripts and what only they
// move, the wide one of two drawings, and attributes that steer a browser.
func (b Book) fit(n *html.Node) {
	for child := n.FirstChild; child != nil; {
		next := child.NextSibling
		narrow := narrowTwin(child)
		if narrow != nil {
			takeName(child, narrow)
		}
		if child.Type == html.CommentNode || useless[child.DataAtom] || narrow != nil {
			n.RemoveChild(child)
		} else {
			b.fit(child)
		}
		child = next
	}
	if n.Type != html.ElementNode {
		return
	}
	kept := n.Attr[:0]
	for _, a := range n.Attr {
		switch {
		case a.Key == showsNothingNew: // for uncover, which takes it off
			kept = append(kept, a)
		case strings.HasPrefix(a.Key, "on"), strings.HasPrefix(a.Key, "data-"), steering[a.Key]:
		case a.Key == "role" && (a.Val == "region" || a.Val == "note"):
		case n.Data == "svg" && (a.Key == "display" || a.Key == "role" && a.Val == "group"):
		default:
			kept = append(kept, a)
		}
	}
	n.Attr = kept
	if n.Data == "svg" {
		ground(n, b.Paper)
	}
	// A name for a thing that has no role is not allowed.
	if (n.DataAtom == atom.Div || n.DataAtom == atom.P) && attr(n, "role") == "" {
		n.Attr = without(n.Attr, "aria-label", "aria-labelledby")
	}
}

// useless are elements that do nothing in a book.
var useless = map[atom.Atom]bool{
	atom.Script: true, atom.Noscript: true, atom.Template: true, atom.Button: true, atom.Form: true, atom.Input: true,
	atom.Select: true, atom.Textarea: true, atom.Label: true, atom.Output: true, atom.Dialog: true, atom.Canvas: true, atom.Iframe: true,
}

var steering = map[string]bool{"tabindex": true, "contenteditable": true, "loading": true, "srcset": true, "sizes": true, "decoding": true, "style": true}

// narrowTwin is the drawing that a page shows on narrow screens in place of this
// one, if this one is the wide of two.
func narrowTwin(n *html.Node) *html.Node {
	if n.Data != "svg" || !strings.Contains(attr(n, "class"), "figure-wide") {
		return nil
	}
	next := n.NextSibling
	for next != nil && next.Type == html.TextNode {
		next = next.NextSibling
	}
	if next == nil || next.Data != "svg" || !strings.Contains(attr(next, "class"), "figure-narrow") {
		return nil
	}
	return next
}

// takeName moves the title and the description, which only the wide one of two
// drawings holds, to the narrow one.
func takeName(wide, narrow *html.Node) {
	at := narrow.FirstChild
	for _, child := range children(wide) {
		if child.Data == "title" || child.Data == "desc" {
			wide.RemoveChild(child)
			narrow.InsertBefore(child, at)
		}
	}
}

// ground lays white behind a drawing, so that its fixed colours are legible
// whatever the reader's are.
func ground(svg *html.Node, paper string) {
	if paper == "" {
		return
	}
	rect := &html.Node{Type: html.ElementNode, Data: "rect", Namespace: "svg", Attr: []html.Attribute{
		{Key: "width", Val: "100%"}, {Key: "height", Val: "100%"}, {Key: "fill", Val: paper}, {Key: "stroke", Val: "none"}, {Key: "style", Val: "fill: " + paper + "; stroke: none"},
	}}
	at := svg.FirstChild
	for at != nil && (at.Type == html.TextNode || at.Data == "title" || at.Data == "desc") {
		at = at.NextSibling
	}
	svg.InsertBefore(rect, at)
}

func without(attrs []html.Attribute, keys ...string) []html.Attribute {
	kept := attrs[:0]
	for _, a := range attrs {
		drop := false
		for _, k := range keys {
			drop = drop || a.Key == k
		}
		if !drop {
			kept = append(kept, a)
		}
	}
	return kept
}
