package epub

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"

	"golang.org/x/net/html"
)

// escape makes a text safe in XML, in content and in double-quoted attributes.
func escape(s string) string {
	if !strings.ContainsFunc(s, func(r rune) bool { return r < ' ' || strings.ContainsRune(`&<>"'`, r) || r >= 0xd800 }) {
		return s
	}
	var out bytes.Buffer
	_ = xml.EscapeText(&out, []byte(s)) // a buffer does not fail
	// Line ends and tabs may stand as they are.
	return strings.NewReplacer("&#xA;", "\n", "&#x9;", "\t", "&#39;", "'").Replace(out.String())
}

// document writes a chapter as a whole XHTML document.
func (c *chapter) document(b Book) []byte {
	var out bytes.Buffer
	b.head(&out, c.title, c.path)
	for _, n := range c.body {
		writeNode(&out, n)
	}
	if b.Foot != "" {
		fmt.Fprintf(&out, "\n<footer class=\"Foot\"><p>%s</p></footer>\n", escape(b.Foot))
	}
	out.WriteString("</body>\n</html>\n")
	return out.Bytes()
}

// head writes a document as far as its own text: readers open a book at any
// chapter, so that the notices stand on each.
func (b Book) head(out *bytes.Buffer, title, path string) {
	fmt.Fprintf(out, `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE html>
<html xmlns="http://www.w3.org/1999/xhtml" xmlns:epub="http://www.idpf.org/2007/ops" lang="%[1]s" xml:lang="%[1]s" dir="%[2]s">
<head>
<meta charset="utf-8"/>
<title>%[3]s</title>
<link rel="stylesheet" type="text/css" href="%[4]s"/>
</head>
<body>
`, escape(b.Language), b.Direction, escape(title), relative(path, "style.css"))
	for _, notice := range b.Notices {
		fmt.Fprintf(out, "<p class=\"Notice\">%s</p>\n", escape(notice))
	}
}

// void are the elements that have no end tag in HTML; every other one gets one.
var void = map[string]bool{"area": true, "br": true, "col": true, "hr": true, "img": true, "wbr": true}

// writeNode writes a node as XML.
func writeNode(out *bytes.Buffer, n *html.Node) {
	switch n.Type {
	case html.TextNode:
		out.WriteString(escape(n.Data))
		return
	case html.ElementNode:
	default:
		return
	}
	out.WriteString("<" + n.Data)
	if n.Data == "svg" {
		out.WriteString(` xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"`)
	}
	for _, a := range n.Attr {
		key := a.Key
		switch {
		case key == "xmlns" || a.Namespace == "xmlns":
			continue
		case a.Namespace != "":
			key = a.Namespace + ":" + key
		case key == "lang":
			fmt.Fprintf(out, ` xml:lang="%s"`, escape(a.Val))
		}
		fmt.Fprintf(out, ` %s="%s"`, key, escape(a.Val))
	}
	if n.FirstChild == nil && (void[n.Data] || n.Namespace == "svg") {
		out.WriteString("/>")
		return
	}
	out.WriteString(">")
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		writeNode(out, c)
	}
	out.WriteString("</" + n.Data + ">")
}

// cover is the first page of the book.
func (b Book) cover() []byte {
	var out bytes.Buffer
	b.head(&out, b.Title, "cover.xhtml")
	fmt.Fprintf(&out, "<section class=\"Cover\" epub:type=\"cover\">\n<h1>%s</h1>\n", escape(b.Title))
	for _, line := range []string{b.Subtitle, b.Edition} {
		if line != "" {
			fmt.Fprintf(&out, "<p class=\"Cover-line\">%s</p>\n", escape(line))
		}
	}
	for _, note := range b.Notes {
		fmt.Fprintf(&out, "<p>%s</p>\n", escape(note))
	}
	out.WriteString("</section>\n</body>\n</html>\n")
	return out.Bytes()
}

// nav is the contents. Answers are not in it: they follow their page.
func (b Book) nav(chapters []*chapter) []byte {
	var out bytes.Buffer
	b.head(&out, b.Words.Contents, "nav.xhtml")
	fmt.Fprintf(&out, "<nav epub:type=\"toc\" id=\"toc\">\n<h1>%s</h1>\n<ol>\n<li><a href=\"cover.xhtml\">%s</a></li>\n", escape(b.Words.Contents), escape(b.Words.Cover))
	body := ""
	for i, part := range b.Parts {
		var pages []*chapter
		for _, c := range chapters {
			if c.part == i && !c.answers {
				pages = append(pages, c)
			}
		}
		if len(pages) == 0 {
			continue
		}
		if body == "" {
			body = pages[0].path
		}
		if len(pages) == 1 {
			fmt.Fprintf(&out, "<li><a href=\"%s\">%s</a></li>\n", escape(pages[0].path), escape(pages[0].title))
			continue
		}
		fmt.Fprintf(&out, "<li><span>%s</span>\n<ol>\n", escape(part.Title))
		for _, c := range pages {
			fmt.Fprintf(&out, "<li><a href=\"%s\">%s</a></li>\n", escape(c.path), escape(c.title))
		}
		out.WriteString("</ol></li>\n")
	}
	out.WriteString("</ol>\n</nav>\n")
	fmt.Fprintf(&out, "<nav epub:type=\"landmarks\" hidden=\"hidden\">\n<ol>\n<li><a epub:type=\"cover\" href=\"cover.xhtml\">%s</a></li>\n<li><a epub:type=\"toc\" href=\"#toc\">%s</a></li>\n",
		escape(b.Words.Cover), escape(b.Words.Contents))
	if body != "" {
		fmt.Fprintf(&out, "<li><a epub:type=\"bodymatter\" href=\"%s\">%s</a></li>\n", escape(body), escape(b.Title))
	}
	out.WriteString("</ol>\n</nav>\n</body>\n</html>\n")
	return out.Bytes()
}
