package tally

import (
	"encoding/csv"
	"io"
	"iter"
	"reflect"
	"strconv"
	"strings"
)

// Table is one list of a result as rows and columns.
type Table struct {
	// Name is the list's JSON key and the stem of its file name.
	Name string
	// Logbook tells the tables of the consecutive logbook, which have rates,
	// from those of the chosen cases, which have none.
	Logbook bool
	// Columns are JSON keys, those of an inner object joined by "_".
	Columns []string
	// Rows are made as they are asked for, Len of them: tables of every choice of
	// every case are long. A row is good until the next is asked for.
	Rows iter.Seq[[]Cell]
	Len  int
}

// Cell is one field of a table. An undefined number is an empty text.
type Cell struct {
	Text string
	// Number says that Text is a number, so that it is never taken for a formula.
	Number bool
}

// Tables gives every list of the result, empty ones too, in the order of the
// JSON form. The moments of the delays are a table of their own.
func (r *Result) Tables() []Table {
	var moments []momentRow
	for _, d := range r.Delays {
		for _, m := range d.Each {
			moments = append(moments, momentRow{d.Complication, m})
		}
	}
	n := r.Source.Threshold
	return []Table{
		tableOf("complications", true, r.Complications, n),
		tableOf("overall", true, r.Overall, n),
		tableOf("stratified", true, r.Stratified, n),
		tableOf("limits", true, r.Limits, n),
		tableOf("limits_by_complication", true, r.LimitsByComplication, n),
		tableOf("by_stratum", true, r.ByStratum, n),
		tableOf("by_grade", true, r.ByGrade, n),
		tableOf("by_period", true, r.ByPeriod, n),
		tableOf("delays", false, r.Delays, n),
		tableOf("moments", false, moments, n),
		tableOf("durations", false, r.Durations, n),
		tableOf("onsets", false, r.Onsets, n),
		tableOf("choices", false, r.Choices, n),
		tableOf("decisions", false, r.Decisions, n),
		tableOf("acuity", false, r.Acuity, n),
	}
}

// momentRow is one event of one complication.
type momentRow struct {
	Complication string `json:"complication"`
	Moment
}

// tableOf flattens rows of one struct type; threshold says how a small count is
// printed.
func tableOf[T any](name string, logbook bool, rows []T, threshold int) Table {
	return Table{
		Name: name, Logbook: logbook, Columns: columnsOf(reflect.TypeFor[T](), ""), Len: len(rows),
		Rows: func(yield func([]Cell) bool) {
			var cells []Cell
			for i := range rows {
				cells = appendCells(cells[:0], reflect.ValueOf(&rows[i]).Elem(), threshold)
				if !yield(cells) {
					return
				}
			}
		},
	}
}

// Without is the table without some of its columns.
func (t Table) Without(leave func(column string) bool) Table {
	var kept []int
	out := t
	out.Columns = nil
	for i, column := range t.Columns {
		if !leave(column) {
			kept, out.Columns = append(kept, i), append(out.Columns, column)
		}
	}
	out.Rows = func(yield func([]Cell) bool) {
		cells := make([]Cell, len(kept))
		for row := range t.Rows {
			for to, from := range kept {
				cells[to] = row[from]
			}
			if !yield(cells) {
				return
			}
		}
	}
	return out
}

// inner says whether a field holds an object of its own.
func inner(t reflect.Type) bool {
	return t.Kind() == reflect.Struct && t != reflect.TypeFor[Count]()
}

func columnsOf(t reflect.Type, prefix string) []string {
	var out []string
	for f := range fieldsOf(t) {
		key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		under := prefix + key + "_"
		if f.Anonymous {
			under = prefix
		}
		switch ft := plain(f.Type); {
		case inner(ft):
			out = append(out, columnsOf(ft, under)...)
		default:
			out = append(out, prefix+key)
		}
	}
	return out
}

// fieldsOf yields the fields that a table shows: all but lists.
func fieldsOf(t reflect.Type) func(func(reflect.StructField) bool) {
	return func(yield func(reflect.StructField) bool) {
		for i := range t.NumField() {
			if f := t.Field(i); f.Type.Kind() != reflect.Slice && !yield(f) {
				return
			}
		}
	}
}

func plain(t reflect.Type) reflect.Type {
	if t.Kind() == reflect.Pointer {
		return t.Elem()
	}
	return t
}

// appendCells appends the cells of a row.
func appendCells(out []Cell, row reflect.Value, threshold int) []Cell {
	for f := range fieldsOf(row.Type()) {
		v := row.FieldByIndex(f.Index)
		if f.Type.Kind() == reflect.Pointer {
			if v.IsNil() {
				out = append(out, make([]Cell, emptyCells(f.Type.Elem()))...)
				continue
			}
			v = v.Elem()
		}
		if inner(v.Type()) {
			out = appendCells(out, v, threshold)
			continue
		}
		out = append(out, cellOf(v.Interface(), threshold))
	}
	return out
}

// emptyCells is how many columns an absent value leaves empty.
func emptyCells(t reflect.Type) int {
	if inner(t) {
		return len(columnsOf(t, ""))
	}
	return 1
}

func cellOf(v any, threshold int) Cell {
	switch v := v.(type) {
	case Number:
		return Cell{v.Text(), v.Defined()}
	case Count:
		return Cell{v.Text(threshold), v.Hidden == Shown}
	case Word:
		return Cell{Text: string(v)}
	case string:
		return Cell{Text: v}
	case int:
		return Cell{strconv.Itoa(v), true}
	case bool:
		return Cell{Text: strconv.FormatBool(v)}
	}
	return Cell{}
}

// WriteCSV writes the table as RFC 4180: comma, CRLF, quotes where needed. A text
// that a spreadsheet could take for a formula, one that begins with =, +, -, @, a
// tab or a line end, gets an apostrophe before it; numbers stay as they are.
func (t Table) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write(t.Columns); err != nil {
		return err
	}
	record := make([]string, len(t.Columns))
	for row := range t.Rows {
		for i, c := range row {
			record[i] = c.safe()
		}
		if err := out.Write(record); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// safe is the cell's text with no formula in it.
func (c Cell) safe() string {
	if c.Number || c.Text == "" || !strings.ContainsAny(c.Text[:1], "=+-@\t\r\n") {
		return c.Text
	}
	if _, err := strconv.ParseFloat(c.Text, 64); err == nil {
		return c.Text
	}
	return "'" + c.Text
}
