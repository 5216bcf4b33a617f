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
	put      func(*rowCodes, uint16)
	whole    bool // a cell that a spreadsheet has changed is told by the parser itself
	parse    func(*logbookReader, string, diagnose.Span) (uint16, bool)
}

// rowCodes is a row while it is read: a date stands in for a period.
type rowCodes struct {
	packedRow
	dated uint16
}

var logbookColumns = []logbookColumn{
	{"period", "year or quarter, such as 2026-Q1", false, func(r *rowCodes, c uint16) { r.period = c }, true, (*logbookReader).period},
	{"date", "date of the operation; only its quarter is kept", false, func(r *rowCodes, c uint16) { r.dated = c }, true, (*logbookReader).date},
	{"technique", "term: technique or procedure", true, func(r *rowCodes, c uint16) { r.technique = c }, false, termCell(term.Technique, term.Procedure)},
	{"surgeon", "trainee, fellow or consultant", false, func(r *rowCodes, c uint16) { r.surgeon = c }, false, (*logbookReader).grade},
	{"risk", "stratum named in bank.yaml", false, func(r *rowCodes, c uint16) { r.risk = c }, false, (*logbookReader).risk},
	{"unit", "code of the unit", false, func(r *rowCodes, c uint16) { r.unit = c }, false, (*logbookReader).unit},
	{"step", "term: step in which the first complication began", false, func(r *rowCodes, c uint16) { r.step = c }, false, termCell(term.Step)},
	{"acuity_before", "acuity before the operation", false, func(r *rowCodes, c uint16) { r.before = c }, false, (*logbookReader).acuityCell},
	{"acuity_after", "acuity at follow-up", false, func(r *rowCodes, c uint16) { r.after = c }, false, (*logbookReader).acuityCell},
}

// complicationsColumn holds space-separated terms, so it is read by itself.
const complicationsColumn = "complications"

func (r *logbookReader) period(cell string, at diagnose.Span) (uint16, bool) {
	if _, err := parseQuarter(cell); err != nil {
		r.bag.Error("bad-value", at, "expected a year such as 2026 or a quarter such as 2026-Q1, found %s; anything finer can identify somebody", quoteShort(cell))
		return 0, false
	}
	return r.book.code(strings.Clone(cell)), r.room(at)
}

func (r *logbookReader) date(cell string, at diagnose.Span) (uint16, bool) {
	q, err := sheet.Quarter(cell)
	if err != nil {
		r.bag.Error("bad-value", at, "%s", err)
		return 0, false
	}
	return r.book.code(q), r.room(at)
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
