package prose

import (
	"fmt"

	"github.com/yuin/goldmark/ast"
	extension "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/util"
)

// table wraps a table so that a wide one scrolls by itself.
func (p *pass) table(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		fmt.Fprintf(w, "<div class=\"Table-scroll\" tabindex=\"0\" role=\"group\" aria-label=\"%s\">\n<table class=\"Table\">\n", p.options.say("prose-table", "Table"))
	} else {
		_, _ = w.WriteString("</tbody>\n</table>\n</div>\n")
	}
	return ast.WalkContinue, nil
}

func (p *pass) tableHeader(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, _ = w.WriteString("<thead>\n<tr>")
	} else {
		_, _ = w.WriteString("</tr>\n</thead>\n<tbody>\n")
	}
	return ast.WalkContinue, nil
}

func (p *pass) tableRow(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		_, _ = w.WriteString("<tr>")
	} else {
		_, _ = w.WriteString("</tr>\n")
	}
	return ast.WalkContinue, nil
}

func (p *pass) tableCell(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	tag, attributes := "td", ""
	if n.Parent().Kind() == extension.KindTableHeader {
		tag, attributes = "th", ` scope="col"`
	}
	if !entering {
		fmt.Fprintf(w, "</%s>", tag)
		return ast.WalkContinue, nil
	}
	switch n.(*extension.TableCell).Alignment {
	case extension.AlignRight:
		attributes += ` class="is-right"`
	case extension.AlignCenter:
		attributes += ` class="is-centred"`
	}
	fmt.Fprintf(w, "<%s%s>", tag, attributes)
	return ast.WalkContinue, nil
}
