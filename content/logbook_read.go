package content

import (
	"slices"
	"strings"

	"caseleaf/content/diagnose"
	"caseleaf/content/sheet"
	"caseleaf/content/term"
)

// logbookReader reads logbook.csv row by row. A cell's text is understood once;
// the same text later costs one look-up.
type logbookReader struct {
	reader
	bank   *Bank
	book   *Logbook
	strata []string
	all    *diagnose.Bag // of the bank
	faulty int           // rows with a fault of a cell
	last   diagnose.Span // the last of them
}

// maxFaulty is how many rows with faults are reported one by one, so that a
// column of a million faults stays a list that can be read.
const maxFaulty = 100

// bound is a column of the file joined to what it means. The texts met are kept
// in a map; a small table before it, by length and letters, holds the first of
// each kind and spares most look-ups, which are what reading costs.
type bound struct {
	*logbookColumn
	at     int
	seen   map[string]uint16
	common [32]struct {
		text string
		code uint16
	}
}

// code returns the code of a cell's text, where it was met before.
func (b *bound) code(cell string) (uint16, bool) {
	if cell == "" {
		return 0, !b.required
	}
	slot := &b.common[(len(cell)*5+int(cell[len(cell)-1])+int(cell[len(cell)/2]))%len(b.common)]
	if slot.text == cell {
		return slot.code, true
	}
	code, ok := b.seen[cell]
	if ok && slot.text == "" {
		slot.text, slot.code = strings.Clone(cell), code
	}
	return code, ok
}

// readLogbook reads logbook.csv, where there is one.
func (l *loader) readLogbook() {
	src, ok := l.file(logbookName)
	if !ok {
		return
	}
	r := &logbookReader{reader: *l.reader(src), bank: l.bank, book: newLogbook(src), all: l.bag}
	for _, s := range l.bank.Settings.Strata {
		r.strata = append(r.strata, s.ID.Value)
	}
	l.bank.Logbook = r.book
	r.book.rows = make([]packedRow, 0, src.Lines())
	table := sheet.NewReader(src, l.bag)
	columns, complications, ok := r.bind(table.Head())
	if !ok {
		return
	}
	for row, more := table.Next(); more; row, more = table.Next() {
		r.row(row, columns, complications)
	}
	r.book.LeftOut += table.LeftOut()
	r.sum()
}

// sum says how many rows are left out, where there are any.
func (r *logbookReader) sum() {
	if r.faulty > maxFaulty {
		r.all.Error("bad-value", r.last, "%d more rows with faults are left out up to here", r.faulty-maxFaulty)
	}
	if n := r.book.LeftOut; n > 0 {
		r.all.Note("rows-left-out", r.src.Span(1, 1, 0), "%d operations are counted; %d rows with faults are left out of every rate", r.book.Len(), n)
	}
}

const logbookName = "logbook.csv"

// bind joins the head of the file to the columns known; others are passed over
// with one warning and never kept.
func (r *logbookReader) bind(head []sheet.Column) (columns []bound, complications int, ok bool) {
	complications = -1
	var unknown []string
	var at diagnose.Span
	for i, c := range head {
		name := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(c.Name), " ", "_"))
		known := slices.IndexFunc(logbookColumns, func(k logbookColumn) bool { return k.key == name })
		switch {
		case name == complicationsColumn:
			complications = i
		case known >= 0:
			columns = append(columns, bound{logbookColumn: &logbookColumns[known], at: i, seen: map[string]uint16{}})
		default:
			if unknown == nil {
				at = c.Span
			}
			unknown = append(unknown, quoteShort(c.Name))
		}
	}
	if unknown != nil {
		r.bag.Warn("unknown-column", at, "the logbook has no column %s; what stands there is passed over and never published", listWords(unknown))
	}
	return columns, complications, r.needColumns(columns, complications)
}

func (r *logbookReader) needColumns(columns []bound, complications int) bool {
	has := func(key string) bool {
		return slices.ContainsFunc(columns, func(b bound) bool { return b.key == key })
	}
	ok := true
	need := func(there bool, key, doc string) {
		if !there {
			r.bag.Error("missing-key", r.src.Span(1, 1, 1), "the logbook needs a column %q: %s", key, doc)
			ok = false
		}
	}
	need(has("period") || has("date"), "period", "year or quarter, such as 2026-Q1")
	need(has("technique"), "technique", "term: technique or procedure")
	need(complications >= 0, complicationsColumn, "space-separated terms, empty for none")
	return ok
}

// row reads one row; a row with a fault is left out and counted.
func (r *logbookReader) row(row sheet.Row, columns []bound, complications int) {
	var codes rowCodes
	codes.line = uint32(row.Line())
	ok := true
	for i := range columns {
		c := &columns[i]
		code, known := c.code(row.Cell(c.at))
		if !known {
			code, known = r.cell(row, c)
			ok = ok && known
		}
		c.put(&codes, code)
	}
	set, known := r.complications(row, complications)
	codes.set = set
	if ok && known && r.settlePeriod(&codes, row, columns) {
		r.book.rows = append(r.book.rows, codes.packedRow)
	} else {
		r.book.LeftOut++
		r.faulty++
		r.last = row.Span(0)
		if r.faulty >= maxFaulty {
			r.bag = diagnose.NewBag() // what is found in further rows is only counted
		}
	}
}

// cell understands a cell whose text was not met before.
func (r *logbookReader) cell(row sheet.Row, c *bound) (uint16, bool) {
	text := strings.TrimSpace(row.Decimal(c.at))
	switch {
	case text == "" && c.required:
		r.bag.Error("missing-key", row.Span(c.at), "the column %q is empty: %s", c.key, c.doc)
		return 0, false
	case text == "":
		return 0, true
	case !c.whole && r.damaged(row, c.at):
		return 0, false
	}
	code, ok := c.parse(r, text, row.Span(c.at))
	if ok {
		c.seen[strings.Clone(row.Cell(c.at))] = code
	}
	return code, ok
}

// damaged reports a cell that a spreadsheet has made something else of.
func (r *logbookReader) damaged(row sheet.Row, at int) bool {
	if r.bag != r.all {
		return sheet.Damage(row.Cell(at)) != ""
	}
	return row.Damaged(at)
}

// settlePeriod takes the quarter of the date where no period is given, and
// holds one to the other where both are.
func (r *logbookReader) settlePeriod(codes *rowCodes, row sheet.Row, columns []bound) bool {
	period, dated := r.book.names[codes.period], r.book.names[codes.dated]
	switch {
	case period == "" && dated == "":
		r.bag.Error("missing-key", row.Span(r.periodAt(columns)), "the row has no period: a year or quarter, such as 2026-Q1")
		return false
	case period == "":
		codes.period = codes.dated
	case dated != "" && !strings.HasPrefix(dated, period):
		r.bag.Error("bad-value", row.Span(r.periodAt(columns)), "the period is %s, but the date of this row falls into %s", period, dated)
		return false
	}
	return true
}

// periodAt returns the column that says when: period, or date without one.
func (r *logbookReader) periodAt(columns []bound) int {
	for _, key := range []string{"period", "date"} {
		for i := range columns {
			if columns[i].key == key {
				return columns[i].at
			}
		}
	}
	return 0
}

// complications reads the cell of space-separated terms.
func (r *logbookReader) complications(row sheet.Row, at int) (uint32, bool) {
	cell := row.Cell(at)
	if code, ok := r.book.setOf[cell]; ok {
		return code, true
	}
	if r.damaged(row, at) {
		return 0, false
	}
	span := row.Span(at)
	var ids []string
	ok := true
	for _, id := range strings.Fields(cell) {
		if !r.checkTerm(id, span, term.Complication) {
			ok = false
		}
		if slices.Contains(ids, id) {
			r.bag.Error("duplicate-id", span, "%q stands twice in one operation", id)
			ok = false
		}
		ids = append(ids, id)
	}
	if !ok {
		return 0, false
	}
	code := uint32(len(r.book.sets))
	for i := range ids {
		ids[i] = strings.Clone(ids[i])
	}
	r.book.sets = append(r.book.sets, ids)
	r.book.setOf[strings.Clone(cell)] = code
	return code, true
}
