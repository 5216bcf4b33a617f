// Package sheet reads tables as authors and spreadsheets really write them, and
// writes tables that a spreadsheet cannot be made to run.
//
// Enter: a file in CSV, its bytes normalised by package front. Leave: rows of
// cells with their places, one at a time. Read [Reader] first.
//
//	table := sheet.NewReader(src, bag)
//	for row, more := table.Next(); more; row, more = table.Next() {
//		technique := row.Cell(1)
//	}
//
// What the reader settles by itself: the separator, from the head line or a
// line such as sep=; before it; a byte order mark; quoted heads; line breaks in
// cells; the tricks by which spreadsheets keep text as text (="6/18", '6/6).
// What it refuses, with line and column: rows with cells too many or too few,
// quotation marks without an end. What only the caller can judge, since it
// knows what a column holds: [Damage] says whether a spreadsheet has turned a
// cell into something else, [Number], [Minutes] and [Quarter] read values.
//
// encoding/csv reads the well-formed part of this; it stops at a lost quotation
// mark (or, told to be lazy, swallows the rows after it), keeps a mark in the
// first name and gives columns in bytes. A test holds this reader to its answers
// on every table that it accepts.
package sheet

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"caseleaf/content/diagnose"
)

// Column is one column of a table's head line.
type Column struct {
	Name string // as written, without blanks around it
	Span diagnose.Span
}

// Options settle by hand what the reader finds out otherwise; the zero value
// finds out.
type Options struct {
	// Separator is the character between cells, 0 to take it from the file.
	Separator byte
	// DecimalComma says that numbers are written 22,5. Without it they are when
	// the separator is no comma and the file holds such a number.
	DecimalComma bool
}

// Reader reads a table row by row. It is not safe for concurrent use.
type Reader struct {
	src     *diagnose.Source
	bag     *diagnose.Bag
	options Options
	head    []Column
	record  record
	at      int // offset of the next record
	line    int // line of the file it begins on
	leftOut int
	faults  int            // rows reported; past maxFaults they are only counted
	tricks  map[int]*trick // by column
	refused bool           // no separator could be told: there are no rows
}

// NewReader reads the head line of a table. When the table cannot be read at
// all that is reported, the head is empty and so are the rows.
func NewReader(src *diagnose.Source, bag *diagnose.Bag, options ...Options) *Reader {
	r := &Reader{src: src, bag: bag, line: 1, tricks: map[int]*trick{}}
	if len(options) > 0 {
		r.options = options[0]
	}
	if !r.dialect() {
		r.refused = true
		return r
	}
	if !r.scan() {
		r.bag.Error("bad-table", src.Span(1, 1, 0), "the table is empty: the first line must name the columns")
		return r
	}
	r.readHead()
	return r
}

func (r *Reader) readHead() {
	seen := map[string]int{}
	for i, cell := range r.record.cells {
		name := strings.TrimSpace(cell)
		span := Row{r, 0}.Span(i)
		if first, twice := seen[strings.ToLower(name)]; twice && name != "" {
			r.bag.Error("duplicate-column", span, "two columns are called %q; give each its own name", name).
				Also(r.head[first].Span, "the first is here")
		} else {
			seen[strings.ToLower(name)] = i
		}
		r.head = append(r.head, Column{strings.Clone(name), span})
	}
}

// Head returns the columns of the table, in order. Spreadsheets write empty
// columns at the end; their names are empty.
func (r *Reader) Head() []Column { return r.head }

// Separator returns the character between cells.
func (r *Reader) Separator() byte { return r.options.Separator }

// DecimalComma reports whether numbers of this file are written 22,5.
func (r *Reader) DecimalComma() bool { return r.options.DecimalComma }

// LeftOut counts the rows that were reported and passed over.
func (r *Reader) LeftOut() int { return r.leftOut }

// Next returns the next row; false after the last. Rows that are empty all the
// way are passed over; rows of a wrong form are reported, counted and passed
// over.
func (r *Reader) Next() (Row, bool) {
	if r.refused {
		return Row{}, false
	}
	for r.scan() {
		if r.record.faulty || !r.countsWell() {
			r.leftOut++
			continue
		}
		r.unwrap()
		return Row{r, r.record.line}, true
	}
	r.reportTricks()
	if r.faults > maxFaults {
		r.bag.Error("cell-count", r.src.Span(r.record.line, 1, 0), "%d more rows of a wrong form are left out up to here", r.faults-maxFaults)
		r.faults = 0
	}
	return Row{}, false
}

// maxFaults is how many rows of a wrong form are reported one by one.
const maxFaults = 100

func (r *Reader) fault(code diagnose.Code, span diagnose.Span, format string, args ...any) {
	if r.faults++; r.faults <= maxFaults {
		r.bag.Error(code, span, format, args...)
	}
}

// scan reads the next record that is not empty.
func (r *Reader) scan() bool {
	for r.at < len(r.src.Data) {
		r.read()
		if r.record.faulty || !r.record.empty() {
			return true
		}
	}
	return false
}

// countsWell reports a row whose cells are not as many as the head's. Empty
// cells past the last name are nothing.
func (r *Reader) countsWell() bool {
	have, want := len(r.record.cells), len(r.head)
	for have > want && r.record.cells[have-1] == "" {
		have--
	}
	if have == want {
		r.record.cells = r.record.cells[:have]
		return true
	}
	span := Row{r, r.record.line}.Span(min(have, want))
	if have > want {
		r.fault("cell-count", span, "this row has %d cells, the head names %d columns; a cell that holds %q needs quotation marks around it",
			have, want, r.options.Separator)
	} else {
		r.fault("cell-count", r.src.Span(r.record.line, 1, 0), "this row has %d cells, the head names %d columns; leave empty cells empty, but keep their separators (%q)",
			have, want, r.options.Separator)
	}
	return false
}

// Row is one row of a table. It is valid until the next call of Next.
type Row struct {
	reader *Reader
	line   int
}

// Len returns the number of cells, which is that of the columns.
func (w Row) Len() int { return len(w.reader.record.cells) }

// Line returns the line of the file that the row begins on.
func (w Row) Line() int { return w.line }

// Cell returns the text of cell i, from 0, or "" outside the row. It shares the
// row's memory: clone what is kept.
func (w Row) Cell(i int) string {
	if i < 0 || i >= len(w.reader.record.cells) {
		return ""
	}
	return w.reader.record.cells[i]
}

// Span returns the place of cell i in the file, quotation marks included;
// outside the row it is the row's beginning.
func (w Row) Span(i int) diagnose.Span {
	r := w.reader
	if i < 0 || i >= len(r.record.starts) {
		return r.src.SpanAt(r.record.from, 0)
	}
	from, to := r.record.starts[i], r.record.to
	if i+1 < len(r.record.starts) {
		to = r.record.starts[i+1] - 1
	}
	text := r.src.Data[from:to]
	if line := bytes.IndexByte(text, '\n'); line >= 0 {
		text = text[:line]
	}
	span := r.src.SpanAt(from, len(text))
	return span.WithLength(max(1, min(span.Length(), utf8.RuneCount(text))))
}
