// Package sheet reads tables as spreadsheets write them, cell by cell with
// their places, and writes tables that a spreadsheet can't be made to run.
package sheet

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"

	"caseleaf/content/diagnose"
)

// Column is one column of a table's head line.
type Column struct {
	Name string
	Span diagnose.Span
}

// Reader reads a table row by row.
type Reader struct {
	src  *diagnose.Source
	bag  *diagnose.Bag
	csv  *csv.Reader
	head []Column
}

// NewReader reads the head line of a table.
func NewReader(src *diagnose.Source, bag *diagnose.Bag) *Reader {
	c := csv.NewReader(bytes.NewReader(src.Data))
	c.ReuseRecord = true
	c.FieldsPerRecord = -1
	r := &Reader{src: src, bag: bag, csv: c}
	if row, ok := r.Next(); ok {
		for i := range row.cells {
			r.head = append(r.head, Column{string([]byte(row.Cell(i))), row.Span(i)})
		}
	}
	return r
}

// Head returns the columns of the table.
func (r *Reader) Head() []Column { return r.head }

// Row is one row, valid until the next call of Next.
type Row struct {
	reader *Reader
	cells  []string
}

// Next returns the next row; faults of form are reported and passed over.
func (r *Reader) Next() (Row, bool) {
	for {
		cells, err := r.csv.Read()
		if errors.Is(err, io.EOF) {
			return Row{}, false
		}
		if err == nil {
			return Row{r, cells}, true
		}
		var parse *csv.ParseError
		if !errors.As(err, &parse) {
			return Row{}, false
		}
		r.bag.Error("bad-table", r.src.Span(parse.Line, 1, 1), "%s", parse.Err)
	}
}

// Cell returns the text of a cell, or "" past the end of a short row.
func (r Row) Cell(i int) string {
	if i < 0 || i >= len(r.cells) {
		return ""
	}
	return r.cells[i]
}

// Line returns the line of the file that the row begins on.
func (r Row) Line() int {
	line, _ := r.reader.csv.FieldPos(0)
	return line
}

// Span returns the place of a cell.
func (r Row) Span(i int) diagnose.Span {
	if i < 0 || i >= len(r.cells) {
		return r.reader.src.Span(r.Line(), 1, 1)
	}
	line, column := r.reader.csv.FieldPos(i)
	return r.reader.src.Span(line, column, max(1, len(r.cells[i])))
}

var isoDate = regexp.MustCompile(`^(\d{4})-(\d{2})(-\d{2})?$`)

// Quarter coarsens a date to its quarter, such as 2026-Q1.
func Quarter(date string) (string, error) {
	m := isoDate.FindStringSubmatch(date)
	if m == nil {
		return "", fmt.Errorf("expected a date such as 2026-03-05")
	}
	month, _ := strconv.Atoi(m[2])
	if month < 1 || month > 12 {
		return "", fmt.Errorf("expected a date such as 2026-03-05")
	}
	return fmt.Sprintf("%s-Q%d", m[1], (month+2)/3), nil
}
