package prose

import (
	"regexp"

	"github.com/microcosm-cc/bluemonday"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// rawInline passes an author's own HTML on to be cleaned.
func (p *pass) rawInline(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		p.raw = true
		segments := n.(*ast.RawHTML).Segments
		for i := range segments.Len() {
			segment := segments.At(i)
			_, _ = w.Write(segment.Value(source))
		}
	}
	return ast.WalkSkipChildren, nil
}

func (p *pass) rawBlock(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	block := n.(*ast.HTMLBlock)
	p.raw = true
	if !entering {
		if block.HasClosure() {
			_, _ = w.Write(block.ClosureLine.Value(source))
		}
		return ast.WalkContinue, nil
	}
	for i := range block.Lines().Len() {
		line := block.Lines().At(i)
		_, _ = w.Write(line.Value(source))
	}
	return ast.WalkContinue, nil
}

// policy is the allow-list that a narrative with raw HTML is cleaned by: what
// Markdown itself writes, and subscripts and the like. Comments go.
var policy = newPolicy()

func newPolicy() *bluemonday.Policy {
	p := bluemonday.NewPolicy()
	p.AllowElements("p", "br", "hr", "em", "strong", "sub", "sup", "kbd", "s", "del", "ins", "mark", "abbr", "small",
		"blockquote", "ul", "ol", "li", "dl", "dt", "dd", "pre", "code", "span", "div", "section", "figure", "figcaption",
		"table", "thead", "tbody", "tr", "th", "td", "h2", "h3", "h4", "h5", "h6")
	p.AllowAttrs("id").Matching(regexp.MustCompile(`^[\p{L}\p{N}\p{M}:._-]+$`)).OnElements("h2", "h3", "h4", "h5", "h6", "li", "sup")
	p.AllowAttrs("class").Matching(regexp.MustCompile(`^[A-Za-z0-9 _-]+$`)).OnElements("span", "pre", "code", "div", "section", "a", "td", "th")
	p.AllowAttrs("scope", "role", "aria-label", "tabindex", "title", "start", "rel").Matching(regexp.MustCompile(`^[^<>"]*$`)).Globally()
	p.AllowAttrs("href").OnElements("a")
	p.AllowAttrs("src", "alt", "loading", "decoding").OnElements("img")
	p.AllowURLSchemes("https", "http", "mailto")
	p.AllowRelativeURLs(true)
	p.RequireParseableURLs(true)
	return p
}
