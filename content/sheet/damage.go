package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"caseleaf/content/diagnose"
)

// Forms that a spreadsheet leaves in a cell that was something else.
var (
	errorForm    = regexp.MustCompile(`^#[\p{Lu}/0]+[!?]?$`)
	exponentForm = regexp.MustCompile(`^[+-]?\d+([.,]\d+)?[Ee][+-]\d+$`)
	monthForm    = regexp.MustCompile(`(?i)^(\d{1,2}[-. /]{1,2})?([\p{L}]{3,4})\.?([-. /]\d{1,4})?$`)
	dateForm     = regexp.MustCompile(`^(\d{4}-\d{1,2}-\d{1,2}|\d{1,2}([./-])\d{1,2}[./-](\d{4}|\d{2}))( \d{1,2}:\d{2}(:\d{2})?)?$`)
	serialForm   = regexp.MustCompile(`^[2-7]\d{4}([.,]0+)?$`)
)

// months are the short names that spreadsheets set to English, German, French,
// Spanish, Italian and Dutch write.
var months = strings.Fields("jan feb mar apr may jun jul aug sep sept oct nov dec mär mrz mai okt dez " +
	"janv févr mars avr juin juil août déc ene abr ago dic gen mag giu lug set ott mrt mei")

// asText tells how to keep a spreadsheet from doing it again.
const asText = "import the file again with this column set to text, and type the value anew"

// Damage says in words what a spreadsheet has probably made of a cell, or ""
// when the cell is whole. What the cell held before is never guessed: 10-Dec may
// have been 12/10 or 10/12. A column of dates is not for this function, since
// every good cell of it looks damaged; see [Quarter].
func Damage(cell string) string {
	cell = strings.TrimSpace(cell)
	if len(cell) < 2 || len(cell) > 24 {
		return ""
	}
	switch {
	case strings.Trim(cell, "#") == "":
		return fmt.Sprintf("%s: the column was too narrow when a spreadsheet wrote the file, and the value is lost; widen the column and write the file again", cell)
	case errorForm.MatchString(cell):
		return fmt.Sprintf("%s is an error of a spreadsheet's formula, no value; put the value itself there", cell)
	case exponentForm.MatchString(cell):
		return fmt.Sprintf("a spreadsheet has probably turned this into a number (%s); %s", cell, asText)
	case isMonth(cell), dateForm.MatchString(cell):
		return fmt.Sprintf("a spreadsheet has probably turned this into a date (%s); %s", cell, asText)
	case serialForm.MatchString(cell):
		return fmt.Sprintf("a spreadsheet has probably turned this into a date, written as a number (%s); %s", cell, asText)
	}
	return ""
}

// Damaged reports cell i, by column name and text, when a spreadsheet has made
// something else of it; see [Damage].
func (w Row) Damaged(i int) bool {
	words := Damage(w.Cell(i))
	if words == "" {
		return false
	}
	w.reader.bag.Error("spreadsheet-damage", w.Span(i), "column %s: %s", w.reader.head[i].Name, words)
	return true
}

// isMonth reports a month's short name with a day or year: Jun-24, 10-Dec.
func isMonth(cell string) bool {
	m := monthForm.FindStringSubmatch(cell)
	return m != nil && slices.Contains(months, strings.ToLower(m[2])) && (m[1] != "" || m[3] != "")
}

// trick counts the cells of a column in which a spreadsheet was kept from
// changing a text.
type trick struct {
	first string
	span  diagnose.Span
	count int
}

// unwrap takes off what keeps a spreadsheet from changing or running a cell:
// ="6/18" and '6/6, reported once a column, and the apostrophe that [Writer]
// puts before a formula, which is no one's business.
func (r *Reader) unwrap() {
	for i, cell := range r.record.cells {
		if len(cell) < 2 {
			continue
		}
		switch cell[0] {
		case '=':
			if len(cell) >= 3 && cell[1] == '"' && strings.IndexByte(cell[2:], '"') == len(cell)-3 {
				r.countTrick(i, cell)
				r.record.cells[i] = cell[2 : len(cell)-1]
			}
		case '\'':
			if guarded(cell) {
				r.record.cells[i] = cell[1:]
			} else if isDigit(cell[1]) && strings.IndexByte(cell[1:], '\'') < 0 {
				r.countTrick(i, cell)
				r.record.cells[i] = cell[1:]
			}
		}
	}
}

func (r *Reader) countTrick(i int, cell string) {
	t := r.tricks[i]
	if t == nil {
		t = &trick{first: strings.Clone(cell), span: Row{r, r.record.line}.Span(i)}
		r.tricks[i] = t
	}
	t.count++
}

// reportTricks reports, at the end of the table, what was unwrapped.
func (r *Reader) reportTricks() {
	for _, t := range r.tricks {
		more := ""
		if t.count > 1 {
			more = fmt.Sprintf(" (%d cells of this column)", t.count)
		}
		r.bag.Warn("spreadsheet-text", t.span, "%s is how a spreadsheet is told to keep text; it is read without the signs around it%s", t.first, more)
	}
	clear(r.tricks)
}
