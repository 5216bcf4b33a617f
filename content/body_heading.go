package content

import (
	"fmt"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
	"golang.org/x/text/unicode/norm"
)

// Heading is one heading of a narrative.
type Heading struct {
	Level int
	ID    string // unique in the narrative, letters of every alphabet kept
	Text  string
}

// headingIndex finds a narrative's headings. It is made when one is looked for:
// few are.
type headingIndex struct {
	list []Heading
	once sync.Once

	exact  map[string]bool
	byText map[string]string // id by slug of the text, the first of each
	byKey  map[string]string // id by what loose ways of writing it share
}

func (x *headingIndex) make() {
	x.exact, x.byText, x.byKey = map[string]bool{}, map[string]string{}, map[string]string{}
	for _, h := range x.list {
		x.exact[h.ID] = true
		setFirst(x.byText, slug(h.Text), h.ID)
		setFirst(x.byKey, headingKey(h.ID), h.ID)
		setFirst(x.byKey, headingKey(h.Text), h.ID)
	}
}

// headings lists a narrative's headings. Ids are the letters and digits of the
// text in lower case, joined by hyphens; a repeated one gets a number.
func headings(b *Body) []Heading {
	var list []Heading
	var taken map[string]bool
	var next map[string]int
	_ = ast.Walk(b.root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering {
			if n.Type() == ast.TypeInline {
				return ast.WalkSkipChildren, nil
			}
			return ast.WalkContinue, nil
		}
		if taken == nil {
			taken, next = map[string]bool{}, map[string]int{}
		}
		text := PlainText(h, b.Markdown)
		plain := slug(text)
		id := plain
		for i := max(2, next[plain]); taken[id]; i++ {
			id = fmt.Sprintf("%s-%d", plain, i)
			next[plain] = i + 1
		}
		list = append(list, Heading{Level: h.Level, ID: id, Text: text})
		taken[id] = true
		return ast.WalkSkipChildren, nil
	})
	return list
}

func setFirst(m map[string]string, key, value string) {
	if _, taken := m[key]; !taken {
		m[key] = value
	}
}

// findHeading returns the id of the heading that a fragment names: by its id,
// by its text, or by a way of writing either that other programs have.
func (b *Body) findHeading(fragment string) (id string, ok bool) {
	if len(b.Headings) == 0 {
		return "", false
	}
	b.headings.once.Do(b.headings.make)
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
	if made, ok := asciiSlug(text); ok {
		return made
	}
	words := strings.FieldsFunc(strings.ToLower(norm.NFC.String(text)), func(r rune) bool {
		return !unicode.In(r, unicode.L, unicode.M, unicode.N)
	})
	if len(words) == 0 {
		return "section"
	}
	return strings.Join(words, "-")
}

// asciiSlug is the slug of a text of ASCII letters and signs alone.
func asciiSlug(text string) (made string, ok bool) {
	var out strings.Builder
	out.Grow(len(text))
	gap := false
	for i := range len(text) {
		c := text[i]
		switch {
		case c >= utf8.RuneSelf:
			return "", false
		case c >= 'A' && c <= 'Z':
			c += 'a' - 'A'
		case c < '0' || c > '9' && c < 'a' || c > 'z':
			gap = true
			continue
		}
		if gap && out.Len() > 0 {
			out.WriteByte('-')
		}
		gap = false
		out.WriteByte(c)
	}
	if out.Len() == 0 {
		return "section", true
	}
	return out.String(), true
}

// headingKey is what two ways of naming a heading have in common.
func headingKey(s string) string { return strings.ReplaceAll(slug(s), "-", "") }
