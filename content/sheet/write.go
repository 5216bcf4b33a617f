package sheet

import (
	"encoding/csv"
	"io"
	"strings"
)

// Writer writes tables that a spreadsheet shows and does not run: a text that
// begins with a sign of a formula (= + - @, tab or carriage return) gets an
// apostrophe before it, which the Reader takes off again. A cell that is wholly
// a number is written as it is. Separator is the comma, line ends are \n.
type Writer struct {
	out *csv.Writer
	row []string
}

// NewWriter writes to w; call Flush at the end.
func NewWriter(w io.Writer) *Writer { return &Writer{out: csv.NewWriter(w)} }

// Write writes one row. Line ends within cells become \n.
func (w *Writer) Write(cells ...string) error {
	w.row = w.row[:0]
	for _, cell := range cells {
		w.row = append(w.row, guard(cell))
	}
	return w.out.Write(w.row)
}

// Flush writes what is held back and returns the first fault of writing.
func (w *Writer) Flush() error {
	w.out.Flush()
	return w.out.Error()
}

// formulaSigns begin what a spreadsheet would run, or would pass over to find
// such a sign. Their wide forms are folded to them by some.
const formulaSigns = "=+-@\t\n＝＋－＠"

// guard makes a cell harmless.
func guard(cell string) string {
	cell = strings.ReplaceAll(strings.ReplaceAll(cell, "\r\n", "\n"), "\r", "\n")
	if !startsFormula(cell) || pointForm.MatchString(cell) || commaForm.MatchString(cell) {
		return cell
	}
	return "'" + cell
}

// guarded reports whether a cell is one that guard made harmless.
func guarded(cell string) bool { return cell[0] == '\'' && startsFormula(cell[1:]) }

// startsFormula looks past apostrophes, so that a text which begins with some
// before a sign survives being written and read.
func startsFormula(cell string) bool {
	rest := strings.TrimLeft(cell, "'")
	for _, sign := range formulaSigns {
		if strings.HasPrefix(rest, string(sign)) {
			return true
		}
	}
	return false
}
