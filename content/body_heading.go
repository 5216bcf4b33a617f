package content

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"
	"golang.org/x/text/unicode/norm"
)

// Heading is one heading of a narrative.
type Heading struct {
	Node  *ast.Heading
	Level int
	ID    string // unique in the narrative, letters of every alphabet kept
	Text  string
}

// headings lists a narrative's headings. Ids are the letters and digits of the
// text in lower case, joined by hyphens; a repeated one gets a number.
func headings(b *Body) []Heading {
	var list []Heading
	taken := map[string]bool{}
	_ = ast.Walk(b.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		text := PlainText(h, b.Markdown)
		id := slug(text)
		for i := 2; taken[id]; i++ {
			id = fmt.Sprintf("%s-%d", slug(text), i)
		}
		taken[id] = true
		list = append(list, Heading{Node: h, Level: h.Level, ID: id, Text: text})
		return ast.WalkSkipChildren, nil
	})
	return list
}

// PlainText is what a reader sees of a node, without the addresses in it.
func PlainText(n ast.Node, source []byte) string {
	var out strings.Builder
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Text:
			out.Write(n.Segment.Value(source))
			if n.SoftLineBreak() || n.HardLineBreak() {
				out.WriteByte(' ')
			}
		case *ast.String:
			out.Write(n.Value)
		case *ast.AutoLink:
			out.Write(n.Label(source))
		}
		return ast.WalkContinue, nil
	})
	return out.String()
}

// slug makes an id from text; text without a letter or digit becomes section.
func slug(text string) string {
	words := strings.FieldsFunc(strings.ToLower(norm.NFC.String(text)), func(r rune) bool {
		return !unicode.In(r, unicode.L, unicode.M, unicode.N)
	})
	if len(words) == 0 {
		return "section"
	}
	return strings.Join(words, "-")
}

// headingKey is what two ways of naming a heading have in common.
func headingKey(s string) string { return strings.ReplaceAll(slug(s), "-", "") }
