package prose

import (
	"caseleaf/content"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// element writes an element of running text that the author wrote as HTML.
// Package content admits only a handful of names, and no attribute.
func (p *pass) element(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	e := n.(*content.Element)
	switch {
	case entering:
		_, _ = w.WriteString("<" + e.Name + ">")
	case !e.Void():
		_, _ = w.WriteString("</" + e.Name + ">")
	}
	return ast.WalkContinue, nil
}

// nothing writes nothing of a node: HTML that content did not admit.
func (p *pass) nothing(util.BufWriter, []byte, ast.Node, bool) (ast.WalkStatus, error) {
	return ast.WalkSkipChildren, nil
}
