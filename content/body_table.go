package content

import (
	"bytes"
	"regexp"

	"caseleaf/content/diagnose"

	"github.com/yuin/goldmark/ast"
	extension "github.com/yuin/goldmark/extension/ast"
	gtext "github.com/yuin/goldmark/text"
)

// table gives a table the cells past its head that goldmark drops, each with
// its text as typed, and reports the rows that have them.
func (f *markdownFaults) table(t *extension.Table) {
	head := t.FirstChild()
	columns, widest := head.ChildCount(), head.ChildCount()
	for row := head.NextSibling(); row != nil; row = row.NextSibling() {
		cells := f.cells(row.Pos())
		if len(cells) <= columns {
			continue
		}
		f.say(diagnose.Warning, "table-cells", cells[0].Start, cells[len(cells)-1].Stop-cells[0].Start,
			`the row has %d cells, the head has %d; write \| for a bar inside a cell`, len(cells), columns)
		for _, cell := range cells[columns:] {
			f.addCell(row, cell)
		}
		widest = max(widest, len(cells))
	}
	for head.ChildCount() < widest {
		head.AppendChild(head, extension.NewTableCell())
	}
}

func (f *markdownFaults) addCell(row ast.Node, text gtext.Segment) {
	cell := extension.NewTableCell()
	cell.SetPos(text.Start)
	shown := ast.NewTextSegment(text)
	cell.AppendChild(cell, shown)
	row.AppendChild(row, cell)
}

// cells takes apart the row that begins at an offset: a bar ends a cell unless
// a backslash stands before it, in code as well.
func (f *markdownFaults) cells(at int) []gtext.Segment {
	end := len(f.source)
	if i := bytes.IndexByte(f.source[at:], '\n'); i >= 0 {
		end = at + i
	}
	line := f.trimmed(at, end)
	if line.Len() > 0 && f.source[line.Start] == '|' {
		line.Start++
	}
	if line.Len() > 0 && f.source[line.Stop-1] == '|' && (line.Len() == 1 || f.source[line.Stop-2] != '\\') {
		line.Stop--
	}
	var cells []gtext.Segment
	from := line.Start
	for i := line.Start; i <= line.Stop; i++ {
		if i == line.Stop || f.source[i] == '|' && (i == line.Start || f.source[i-1] != '\\') {
			cells = append(cells, f.trimmed(from, i))
			from = i + 1
		}
	}
	return cells
}

// trimmed is a stretch of the source without the blanks at its ends.
func (f *markdownFaults) trimmed(from, to int) gtext.Segment {
	s := gtext.NewSegment(from, to)
	s = s.TrimLeftSpace(f.source)
	return s.TrimRightSpace(f.source)
}

var tableRule = regexp.MustCompile(`^\s*(\|\s*:?-+:?\s*(\|\s*:?-+:?\s*)*\|?|:?-+:?\s*(\|\s*:?-+:?\s*)+\|?)\s*$`)

// almostTable reports a table that was not read as one, since the line under
// its head has another number of cells.
func (f *markdownFaults) almostTable(p *ast.Paragraph) {
	for i := 1; i < p.Lines().Len(); i++ {
		line := p.Lines().At(i)
		if !tableRule.Match(line.Value(f.source)) {
			continue
		}
		head := p.Lines().At(i - 1)
		f.say(diagnose.Warning, "table-cells", line.Start, line.Len()-1, "this looks like a table, but the head has %d cells and the line under it %d, so it is shown as typed",
			len(f.cells(head.Start)), len(f.cells(line.Start)))
	}
}
