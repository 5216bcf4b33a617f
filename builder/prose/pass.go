package prose

import (
	"fmt"
	"strings"

	"caseleaf/content"

	"github.com/yuin/goldmark/ast"
	extension "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/util"
)

// pass is the rendering of one narrative: the nodes that HTML's own renderer
// would get wrong.
type pass struct {
	story   content.Story
	options Options
}

// RegisterFuncs tells goldmark which nodes the pass renders itself.
func (p *pass) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(ast.KindHeading, p.heading)
	reg.Register(ast.KindLink, p.link)
	reg.Register(ast.KindAutoLink, p.autoLink)
	reg.Register(ast.KindImage, p.image)
	reg.Register(ast.KindFencedCodeBlock, p.code)
	reg.Register(content.KindElement, p.element)
	reg.Register(ast.KindRawHTML, p.nothing)
	reg.Register(ast.KindHTMLBlock, p.nothing)
	reg.Register(extension.KindTable, p.table)
	reg.Register(extension.KindTableHeader, p.tableHeader)
	reg.Register(extension.KindTableRow, p.tableRow)
	reg.Register(extension.KindTableCell, p.tableCell)
	reg.Register(extension.KindFootnoteLink, p.footnoteLink)
	reg.Register(extension.KindFootnoteBacklink, p.footnoteBacklink)
	reg.Register(extension.KindFootnote, p.footnote)
	reg.Register(extension.KindFootnoteList, p.footnoteList)
}

func (p *pass) heading(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	h := n.(*ast.Heading)
	level := min(6, h.Level+max(1, p.options.HeadingShift))
	if !entering {
		fmt.Fprintf(w, "</h%d>\n", level)
		return ast.WalkContinue, nil
	}
	fmt.Fprintf(w, `<h%d id="%s">`, level, escape(p.options.Prefix+p.story.HeadingID(h)))
	return ast.WalkContinue, nil
}

// href returns where a link may lead, or "".
func (p *pass) href(n ast.Node) string {
	target, ok := p.story.Targets[n]
	if !ok || target.Kind == content.Refused || p.options.Href == nil {
		return ""
	}
	return p.options.Href(target)
}

// link writes a link that can be followed, and of any other the text alone.
func (p *pass) link(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	href := p.href(n)
	if href == "" {
		return ast.WalkContinue, nil
	}
	if !entering {
		_, _ = w.WriteString("</a>")
		p.note(w, n, href)
		return ast.WalkContinue, nil
	}
	p.openLink(w, n, href)
	if title := n.(*ast.Link).Title; len(title) > 0 {
		fmt.Fprintf(w, ` title="%s"`, escape(content.Unescape(title)))
	}
	_ = w.WriteByte('>')
	return ast.WalkContinue, nil
}

// note writes the number of an outside address behind its link.
func (p *pass) note(w util.BufWriter, n ast.Node, href string) {
	if p.options.Note != nil && p.story.Targets[n].Kind == content.ToWeb {
		fmt.Fprintf(w, `<sup class="Address-call">[%d]</sup>`, p.options.Note(href))
	}
}

func (p *pass) openLink(w util.BufWriter, n ast.Node, href string) {
	fmt.Fprintf(w, `<a href="%s"`, escape(href))
	if p.story.Targets[n].Kind == content.ToWeb {
		_, _ = w.WriteString(` rel="noopener noreferrer"`)
	}
}

func (p *pass) autoLink(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	label := escape(string(n.(*ast.AutoLink).Label(source)))
	href := p.href(n)
	if href == "" {
		_, _ = w.WriteString(label)
		return ast.WalkContinue, nil
	}
	p.openLink(w, n, href)
	fmt.Fprintf(w, ">%s</a>", label)
	return ast.WalkContinue, nil
}

// image writes a picture of the bank; of any other its description stays.
func (p *pass) image(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	description := escape(strings.TrimSpace(content.PlainText(n, source)))
	src := p.href(n)
	if src == "" {
		_, _ = w.WriteString(description)
		return ast.WalkSkipChildren, nil
	}
	fmt.Fprintf(w, `<img src="%s" alt="%s" loading="lazy" decoding="async"`, escape(src), description)
	if p.options.Picture != nil {
		size := p.options.Picture(p.story.Targets[n])
		if size.Width > 0 && size.Height > 0 {
			fmt.Fprintf(w, ` width="%d" height="%d"`, size.Width, size.Height)
		}
		if size.Set != "" {
			fmt.Fprintf(w, ` srcset="%s" sizes="%s"`, escape(size.Set), escape(size.Sizes))
		}
	}
	if title := n.(*ast.Image).Title; len(title) > 0 {
		fmt.Fprintf(w, ` title="%s"`, escape(content.Unescape(title)))
	}
	_ = w.WriteByte('>')
	return ast.WalkSkipChildren, nil
}

func (p *pass) code(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	block := n.(*ast.FencedCodeBlock)
	var text strings.Builder
	for i := range block.Lines().Len() {
		line := block.Lines().At(i)
		text.Write(line.Value(source))
	}
	_, _ = w.WriteString(Highlight(text.String(), string(block.Language(source))))
	return ast.WalkSkipChildren, nil
}

func escape(s string) string { return string(util.EscapeHTML([]byte(s))) }
