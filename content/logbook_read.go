package content

import (
	"slices"
	"strings"

	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
	"caseleaf/content/sheet"
	"caseleaf/content/term"
)

// logbookColumn is one column of logbook.csv: what it holds and how a cell of
// it is turned into a code of the packed row.
type logbookColumn struct {
	key      string
	doc      string
	required bool
	put      func(*packedRow, uint16)
	parse    func(*logbookReader, string, diagnose.Span) (uint16, bool)
}

var logbookColumns = []logbookColumn{
	{"period", "year or quarter, such as 2026-Q1", true, func(r *packedRow, c uint16) { r.period = c }, (*logbookReader).period},
	{"date", "date of the operation; only its quarter is kept", false, func(r *packedRow, c uint16) { r.period = c }, (*logbookReader).date},
	{"technique", "term: technique or procedure", true, func(r *packedRow, c uint16) { r.technique = c }, termCell(term.Technique, term.Procedure)},
	{"surgeon", "trainee, fellow or consultant", false, func(r *packedRow, c uint16) { r.surgeon = c }, (*logbookReader).grade},
	{"risk", "stratum named in bank.yaml", false, func(r *packedRow, c uint16) { r.risk = c }, (*logbookReader).risk},
	{"unit", "code of the unit", false, func(r *packedRow, c uint16) { r.unit = c }, (*logbookReader).unit},
	{"step", "term: step in which the first complication began", false, func(r *packedRow, c uint16) { r.step = c }, termCell(term.Step)},
	{"acuity_before", "acuity before the operation", false, func(r *packedRow, c uint16) { r.before = c }, (*logbookReader).acuityCell},
	{"acuity_after", "acuity at follow-up", false, func(r *packedRow, c uint16) { r.after = c }, (*logbookReader).acuityCell},
}

// complicationsColumn holds space-separated terms, so it is read by itself.
const complicationsColumn = "complications"

// logbookReader reads logbook.csv row by row. A cell's text is understood once;
// the same text later costs one look-up.
type logbookReader struct {
	reader
	bank   *Bank
	book   *Logbook
	strata []string
}

// bound is a column of the file joined to what it means.
type bound struct {
	*logbookColumn
	at   int
	seen map[string]uint16
}

// readLogbook reads logbook.csv, where there is one.
func (l *loader) readLogbook() {
	src, ok := l.file(logbookName)
	if !ok {
		return
	}
	r := &logbookReader{reader: *l.reader(src), bank: l.bank, book: newLogbook(src)}
	for _, s := range l.bank.Settings.Strata {
		r.strata = append(r.strata, s.ID.Value)
	}
	l.bank.Logbook = r.book
	table := sheet.NewReader(src, l.bag)
	columns, complications, ok := r.bind(table.Head())
	if !ok {
		return
	}
	for row, more := table.Next(); more; row, more = table.Next() {
		r.row(row, columns, complications)
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
			columns = append(columns, bound{&logbookColumns[known], i, map[string]uint16{"": 0}})
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
	var packed packedRow
	packed.line = uint32(row.Line())
	ok := true
	for i := range columns {
		c := &columns[i]
		cell := row.Cell(c.at)
		code, known := c.seen[cell]
		if known && cell == "" && c.required {
			r.bag.Error("missing-key", row.Span(c.at), "the column %q is empty: %s", c.key, c.doc)
			ok = false
			continue
		}
		if !known {
			code, known = c.parse(r, strings.TrimSpace(cell), row.Span(c.at))
			if !known {
				ok = false
				continue
			}
			c.seen[strings.Clone(cell)] = code
		}
		if code != 0 || c.key != "date" {
			c.put(&packed, code)
		}
	}
	set, known := r.complications(row, complications)
	packed.set = set
	if !ok || !known {
		r.book.LeftOut++
		return
	}
	r.book.rows = append(r.book.rows, packed)
}

// complications reads the cell of space-separated terms.
func (r *logbookReader) complications(row sheet.Row, at int) (uint32, bool) {
	cell := row.Cell(at)
	if code, ok := r.book.setOf[cell]; ok {
		return code, true
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

func (r *logbookReader) period(cell string, at diagnose.Span) (uint16, bool) {
	if _, err := parseQuarter(cell); err != nil {
		r.bag.Error("bad-value", at, "expected a year such as 2026 or a quarter such as 2026-Q1, found %s; anything finer can identify somebody", quoteShort(cell))
		return 0, false
	}
	return r.book.code(strings.Clone(cell)), true
}

func (r *logbookReader) date(cell string, at diagnose.Span) (uint16, bool) {
	q, err := sheet.Quarter(cell)
	if err != nil {
		r.bag.Error("bad-value", at, "%s", err)
		return 0, false
	}
	return r.book.code(q), true
}

func (r *logbookReader) grade(cell string, at diagnose.Span) (uint16, bool) {
	var words []string
	for _, g := range Grades() {
		words = append(words, string(g))
	}
	return r.word(cell, at, words, "grade")
}

func (r *logbookReader) risk(cell string, at diagnose.Span) (uint16, bool) {
	return r.word(cell, at, r.strata, "stratum")
}

func (r *logbookReader) word(cell string, at diagnose.Span, words []string, what string) (uint16, bool) {
	if !reportUnknownID(r.bag, Given[string]{Value: cell, State: Known, Span: at}, words, what) {
		return 0, false
	}
	return r.book.code(strings.Clone(cell)), true
}

// unit takes a short code; words would name a place.
func (r *logbookReader) unit(cell string, at diagnose.Span) (uint16, bool) {
	if !idForm.MatchString(cell) || len(cell) > 12 {
		r.bag.Error("bad-value", at, "expected a short code for the unit such as A, found %s", quoteShort(cell))
		return 0, false
	}
	return r.book.code(strings.Clone(cell)), r.room(at)
}

// tableRoom is how many different codes or acuities a logbook may hold.
const tableRoom = 60000

// room reports a logbook with more different values than its tables hold.
func (r *logbookReader) room(at diagnose.Span) bool {
	if len(r.book.names) < tableRoom && len(r.book.acuity) < tableRoom {
		return true
	}
	r.bag.Error("too-large", at, "the logbook holds more than %d different values", tableRoom)
	return false
}

func (r *logbookReader) acuityCell(cell string, at diagnose.Span) (uint16, bool) {
	if cell == "" {
		return 0, true
	}
	a, err := measure.ParseAcuity(cell)
	if err != nil {
		r.bag.Error("bad-value", at, "%s", err)
		return 0, false
	}
	return r.book.acuityCode(a), r.room(at)
}

func termCell(kinds ...term.Kind) func(*logbookReader, string, diagnose.Span) (uint16, bool) {
	return func(r *logbookReader, cell string, at diagnose.Span) (uint16, bool) {
		if !r.checkTerm(cell, at, kinds...) {
			return 0, false
		}
		return r.book.code(strings.Clone(cell)), true
	}
}

func (r *logbookReader) checkTerm(id string, at diagnose.Span, kinds ...term.Kind) bool {
	if t, ok := r.vocab.Get(id); ok && slices.Contains(kinds, t.Kind) {
		return true
	}
	d := r.bag.Error("unknown-term", at, "unknown %s %s", kindLabel(kinds[0]), quoteShort(id))
	if near, ok := r.vocab.Suggest(id, kinds...); ok {
		d.Suggest(near)
	}
	return false
}
