package prose

import (
	"fmt"

	"github.com/yuin/goldmark/ast"
	extension "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/util"
)

// Footnotes carry the narrative's prefix in every id, so that the notes of two
// narratives on one page never meet. The underscore, which no id of a heading
// holds, keeps a heading called Note 1 apart from the note.

func (p *pass) callID(index, call int) string {
	if call == 0 {
		return fmt.Sprintf("%scall_%d", p.options.Prefix, index)
	}
	return fmt.Sprintf("%scall_%d_%d", p.options.Prefix, index, call+1)
}

func (p *pass) noteID(index int) string { return fmt.Sprintf("%snote_%d", p.options.Prefix, index) }

func (p *pass) footnoteLink(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		f := n.(*extension.FootnoteLink)
		fmt.Fprintf(w, `<sup id="%s"><a href="#%s" role="doc-noteref" aria-label="%s">%d</a></sup>`,
			escape(p.callID(f.Index, f.RefIndex)), escape(p.noteID(f.Index)), p.options.say("prose-note", "Note %d", f.Index), f.Index)
	}
	return ast.WalkContinue, nil
}

func (p *pass) footnoteBacklink(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		f := n.(*extension.FootnoteBacklink)
		fmt.Fprintf(w, ` <a href="#%s" role="doc-backlink" aria-label="%s">↩</a>`, escape(p.callID(f.Index, f.RefIndex)), p.options.say("prose-back", "Back to the text"))
	}
	return ast.WalkContinue, nil
}

func (p *pass) footnote(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		fmt.Fprintf(w, `<li id="%s">`, escape(p.noteID(n.(*extension.Footnote).Index)))
	} else {
		_, _ = w.WriteString("</li>\n")
	}
	return ast.WalkContinue, nil
}

func (p *pass) footnoteList(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		fmt.Fprintf(w, "<section class=\"Notes\" role=\"doc-endnotes\" aria-label=\"%s\">\n<ol>\n", p.options.say("prose-notes", "Notes"))
	} else {
		_, _ = w.WriteString("</ol>\n</section>\n")
	}
	return ast.WalkContinue, nil
}
