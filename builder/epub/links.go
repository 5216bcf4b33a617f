package epub

import (
	"net/url"
	"path"
	"slices"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// links knows where everything of the handout's pages stands in the book.
type links struct {
	page map[string]*chapter            // by path of the page in the handout
	id   map[string]map[string]*chapter // by path and id: the page, or its answers
	own  map[string]*chapter            // by path in the book
}

func newLinks(all []*chapter) links {
	l := links{map[string]*chapter{}, map[string]map[string]*chapter{}, map[string]*chapter{}}
	for _, c := range all {
		l.own[c.path] = c
		if !c.answers {
			l.page[c.page] = c
		}
		if l.id[c.page] == nil {
			l.id[c.page] = map[string]*chapter{}
		}
		for id := range c.ids {
			l.id[c.page][id] = c
		}
	}
	return l
}

// mend makes every address of a chapter lead to where its target is in the book.
// A link to what is not in it becomes plain text, a picture that is not in it its
// description.
func (l links) mend(c *chapter, pictures map[string][]byte) {
	for _, n := range c.body {
		walk(n, func(n *html.Node) {
			c.mendNames(n)
			switch n.Data {
			case "a":
				l.mendLink(c, n)
			case "img":
				src := path.Join(path.Dir(c.page), attr(n, "src"))
				if pictures[src] != nil {
					c.pictures[src] = true
					return
				}
				alt := attr(n, "alt")
				n.Data, n.DataAtom, n.Attr = "span", atom.Span, nil
				n.AppendChild(text(alt))
			}
		})
	}
}

// mendNames keeps of what names or describes an element what is in its own
// document; the rest went into another one.
func (c *chapter) mendNames(n *html.Node) {
	kept := n.Attr[:0]
	for _, a := range n.Attr {
		if a.Key == "aria-labelledby" || a.Key == "aria-describedby" {
			ids := slices.DeleteFunc(strings.Fields(a.Val), func(id string) bool { return !c.ids[id] })
			if a.Val = strings.Join(ids, " "); a.Val == "" {
				continue
			}
		}
		kept = append(kept, a)
	}
	n.Attr = kept
}

func (l links) mendLink(c *chapter, n *html.Node) {
	for i, a := range n.Attr {
		if a.Key != "href" {
			continue
		}
		to, ok := l.target(c, a.Val)
		if !ok {
			break
		}
		n.Attr[i].Val = to
		if n.Namespace == "svg" { // readers of EPUB know links in drawings by this name only
			n.Attr[i].Namespace = "xlink"
			n.Attr = append(n.Attr, html.Attribute{Namespace: "xlink", Key: "title", Val: drawnWords(n)})
		}
		n.Attr = without(n.Attr, "rel", "aria-current", "download", "target")
		return
	}
	if attr(n, "href") == "" && n.Namespace != "svg" {
		return // an anchor, not a link
	}
	n.Data, n.DataAtom = "span", atom.Span
	if n.Namespace == "svg" {
		n.Data, n.DataAtom = "g", 0
	}
	n.Attr = without(n.Attr, "href", "rel", "aria-current", "download", "target")
}

// drawnWords is the text of a part of a drawing: its title, or else the lines in
// it, which stand apart.
func drawnWords(n *html.Node) string {
	if title := find(n, func(n *html.Node) bool { return n.Data == "title" }); title != nil {
		return words(title)
	}
	var lines []string
	for _, child := range children(n) {
		if line := words(child); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, " ")
}

// target is an address as the book has it.
func (l links) target(c *chapter, address string) (string, bool) {
	u, err := url.Parse(address)
	if err != nil {
		return "", false
	}
	if u.Scheme == "https" {
		return address, true
	}
	if u.Scheme != "" || u.Host != "" {
		return "", false
	}
	if strings.HasSuffix(u.Path, ".xhtml") { // made here
		return address, true
	}
	page := c.page
	if u.Path != "" {
		page = path.Join(path.Dir(c.page), u.Path)
	}
	to, ok := l.page[page]
	if !ok {
		return "", false
	}
	fragment := ""
	if holder := l.id[page][u.Fragment]; holder != nil {
		to, fragment = holder, "#"+fragmentOf(u)
	}
	return relative(c.path, to.path) + fragment, true
}

// fragmentOf is an address's fragment as the id has it, which all readers find,
// unless only the escaped form can stand in an address.
func fragmentOf(u *url.URL) string {
	if strings.ContainsAny(u.Fragment, "%#<>\"`^{}|\\ \t\n") {
		return u.EscapedFragment()
	}
	return u.Fragment
}

// relative leads from one file of the book to another.
func relative(from, to string) string {
	if path.Dir(from) == path.Dir(to) {
		return path.Base(to)
	}
	return strings.Repeat("../", strings.Count(from, "/")) + to
}
