package content

import (
	"fmt"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
	"golang.org/x/text/unicode/norm"
)

// Heading is one heading of a narrative.
type Heading struct {
	Node  *ast.Heading
	Level int
	ID    string // unique in the narrative, letters of every alphabet kept
	Text  string
}

// headingIndex finds a narrative's headings.
type headingIndex struct {
	ids    map[*ast.Heading]string
	exact  map[string]bool
	byText map[string]string // id by slug of the text, the first of each
	byKey  map[string]string // id by what loose ways of writing it share
}

// headings lists a narrative's headings. Ids are the letters and digits of the
// text in lower case, joined by hyphens; a repeated one gets a number.
func headings(b *Body) ([]Heading, headingIndex) {
	var list []Heading
	index := headingIndex{map[*ast.Heading]string{}, map[string]bool{}, map[string]string{}, map[string]string{}}
	next := map[string]int{}
	_ = ast.Walk(b.Root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		text := PlainText(h, b.Markdown)
		plain := slug(text)
		id := plain
		for i := max(2, next[plain]); index.exact[id]; i++ {
			id = fmt.Sprintf("%s-%d", plain, i)
			next[plain] = i + 1
		}
		list = append(list, Heading{Node: h, Level: h.Level, ID: id, Text: text})
		index.ids[h], index.exact[id] = id, true
		setFirst(index.byText, plain, id)
		setFirst(index.byKey, headingKey(id), id)
		setFirst(index.byKey, headingKey(text), id)
		return ast.WalkSkipChildren, nil
	})
	return list, index
}

func setFirst(m map[string]string, key, value string) {
	if _, taken := m[key]; !taken {
		m[key] = value
	}
}

// HeadingID returns the id of a heading of the narrative.
func (b *Body) HeadingID(h *ast.Heading) string { return b.headings.ids[h] }

// findHeading returns the id of the heading that a fragment names: by its id,
// by its text, or by a way of writing either that other programs have.
func (b *Body) findHeading(fragment string) (id string, ok bool) {
	if b.headings.exact[fragment] {
		return fragment, true
	}
	if id, ok = b.headings.byText[slug(fragment)]; ok {
		return id, true
	}
	id, ok = b.headings.byKey[headingKey(fragment)]
	return id, ok
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
			if text := n.Segment.Value(source); n.IsRaw() || n.Parent().Kind() == ast.KindCodeSpan {
				out.Write(text)
			} else {
				out.WriteString(Unescape(text))
			}
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

// Unescape resolves the backslashes and entities of Markdown: of text, of an
// address, or of the title of a link.
func Unescape(text []byte) string {
	return string(util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(text))))
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
