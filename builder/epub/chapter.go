package epub

import (
	"bytes"
	"fmt"
	"path"
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// chapter is one document of the book on its way: a page, or what waits behind
// the covers of the page before it.
type chapter struct {
	path     string // below the book's folder
	page     string // path of the page in the handout
	part     int    // place in the book's parts; answers have none of their own
	answers  bool
	title    string
	body     []*html.Node
	ids      map[string]bool
	drawn    bool            // holds an SVG drawing
	pictures map[string]bool // paths of those it shows
}

// chapters makes all documents in reading order.
func (b Book) chapters() ([]*chapter, error) {
	var all []*chapter
	for i, part := range b.Parts {
		for _, p := range part.Pages {
			c, answers, err := b.chapter(p, i)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", p.Path, err)
			}
			all = append(all, c)
			if answers != nil {
				all = append(all, answers)
			}
		}
	}
	for _, c := range all {
		c.note()
	}
	links := newLinks(all)
	for _, c := range all {
		links.mend(c, b.Pictures)
	}
	return all, nil
}

// chapter takes a page apart: its main part, and apart from it what waits behind
// covers.
func (b Book) chapter(p Page, part int) (c, answers *chapter, err error) {
	root, err := html.Parse(bytes.NewReader(p.HTML))
	if err != nil {
		return nil, nil, err
	}
	main := find(root, func(n *html.Node) bool { return n.DataAtom == atom.Main })
	if main == nil {
		return nil, nil, fmt.Errorf("the page has no main part")
	}
	stem := strings.TrimSuffix(p.Path, path.Ext(p.Path))
	c = &chapter{path: stem + ".xhtml", page: p.Path, part: part, title: b.Title}
	if h := find(main, func(n *html.Node) bool { return n.DataAtom == atom.H1 }); h != nil {
		c.title = words(h)
	}
	b.fit(main)
	answers = &chapter{path: stem + "-answers.xhtml", page: p.Path, part: part, answers: true, title: b.Words.Answers + ": " + c.title}
	b.uncover(main, c, answers)
	c.body = children(main)
	if len(answers.body) == 0 {
		return c, nil, nil
	}
	head := element(atom.H1)
	head.AppendChild(text(answers.title))
	answers.body = append([]*html.Node{head}, answers.body...)
	return c, answers, nil
}

// note lists a chapter's ids and whether it holds drawings.
func (c *chapter) note() {
	c.ids, c.pictures = map[string]bool{}, map[string]bool{}
	for _, n := range c.body {
		walk(n, func(n *html.Node) {
			if id := attr(n, "id"); id != "" {
				c.ids[id] = true
			}
			c.drawn = c.drawn || n.Data == "svg"
		})
	}
}

// showsNothingNew marks a cover over what the page says in another form, such as
// the numbers of a figure: whoever sees it too soon is spoilt nothing.
const showsNothingNew = "data-same"

// uncover puts what waits behind covers into the answers and a link in its
// place. Of covers within covers only the outer one is one in the book. A cover
// that hides nothing from the reader, or that the page has open, stays.
func (b Book) uncover(n *html.Node, c, answers *chapter) {
	for child := n.FirstChild; child != nil; {
		next := child.NextSibling
		switch {
		case child.DataAtom == atom.Details && (has(child, "open") || has(child, showsNothingNew)):
			child.Attr = without(child.Attr, showsNothingNew)
		case child.DataAtom == atom.Details:
			b.move(child, c, answers)
		default:
			b.uncover(child, c, answers)
		}
		child = next
	}
}

func (b Book) move(details *html.Node, c, answers *chapter) {
	number := len(answers.body) + 1
	ask, answer := fmt.Sprintf("ask-%d", number), fmt.Sprintf("answer-%d", number)
	section := element(atom.Section, "id", answer, "class", "Answer")
	if id := attr(details, "id"); id != "" {
		section.AppendChild(element(atom.Span, "id", id))
	}
	summary := ""
	for _, child := range children(details) {
		details.RemoveChild(child)
		if child.DataAtom == atom.Summary {
			summary = words(child)
			continue
		}
		section.AppendChild(child)
	}
	walk(section, func(n *html.Node) { // covers within covers stand open
		if n.DataAtom == atom.Details || n.DataAtom == atom.Summary {
			n.Data, n.DataAtom, n.Attr = "div", atom.Div, without(n.Attr, showsNothingNew, "open")
		}
	})
	head := element(atom.H2)
	head.AppendChild(text(summary))
	if question := above(details); question != "" {
		about := element(atom.P, "class", "Answer-question")
		about.AppendChild(text(question))
		section.InsertBefore(about, section.FirstChild)
	}
	section.InsertBefore(head, section.FirstChild)
	back := element(atom.P, "class", "Answer-back")
	back.AppendChild(link(path.Base(c.path)+"#"+ask, b.Words.Back))
	section.AppendChild(back)
	answers.body = append(answers.body, section)

	holder := element(atom.P, "class", "Ask", "id", ask)
	holder.AppendChild(link(path.Base(answers.path)+"#"+answer, summary))
	details.Parent.InsertBefore(holder, details)
	details.Parent.RemoveChild(details)
}

// above is the heading of the part of the page that a cover stands in.
func above(n *html.Node) string {
	for p := n.Parent; p != nil && p.DataAtom != atom.Main; p = p.Parent {
		if p.DataAtom != atom.Article && p.DataAtom != atom.Section {
			continue
		}
		if h := find(p, func(n *html.Node) bool { return n.DataAtom == atom.H2 || n.DataAtom == atom.H3 }); h != nil {
			return words(h)
		}
	}
	return ""
}
