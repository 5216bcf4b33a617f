package sheet

import (
	"bytes"
	"strings"
)

// separators are the characters between cells that spreadsheets write, the
// likeliest first.
const separators = ",;\t|"

var byteOrderMark = []byte("\ufeff")

// dialect settles separator and decimal sign, and stands at the head line.
func (r *Reader) dialect() bool {
	if bytes.HasPrefix(r.src.Data, byteOrderMark) {
		r.at = len(byteOrderMark)
	}
	r.skipEmptyLines()
	told := r.sepLine()
	switch {
	case r.options.Separator != 0:
	case told != 0:
		r.options.Separator = told
	default:
		r.options.Separator = r.guessSeparator()
	}
	if r.options.Separator == 0 {
		return r.at >= len(r.src.Data) // an empty file is reported as one
	}
	if r.options.Separator != ',' {
		r.options.DecimalComma = r.options.DecimalComma || r.hasDecimalComma()
		r.noteDialect()
	}
	return true
}

func (r *Reader) skipEmptyLines() {
	for r.at < len(r.src.Data) && (r.src.Data[r.at] == '\n' || r.src.Data[r.at] == '\r') {
		if r.src.Data[r.at] == '\n' {
			r.line++
		}
		r.at++
	}
}

// headLine is the text of the line at r.at and the offset of the line after it.
func (r *Reader) headLine() (text []byte, next int) {
	data := r.src.Data
	end := len(data)
	if i := bytes.IndexByte(data[r.at:], '\n'); i >= 0 {
		end = r.at + i
	}
	return data[r.at:trimReturn(data, r.at, end)], min(end+1, len(data))
}

// sepLine passes a first line such as sep=; and gives the separator it names.
func (r *Reader) sepLine() byte {
	text, next := r.headLine()
	line := strings.Trim(string(text), `"`)
	if len(line) < 4 || !strings.EqualFold(line[:4], "sep=") {
		return 0
	}
	if len(line) != 5 || strings.IndexByte(separators, line[4]) < 0 {
		return 0
	}
	r.at = next
	r.line++
	return line[4]
}

// guessSeparator takes the separator that the head line holds most often
// outside quotation marks. Two that are equally frequent, or none, are reported.
func (r *Reader) guessSeparator() byte {
	text, _ := r.headLine()
	if len(bytes.TrimSpace(text)) == 0 {
		return 0
	}
	counts := map[byte]int{}
	quoted := false
	for _, c := range text {
		if c == '"' {
			quoted = !quoted
		} else if !quoted && strings.IndexByte(separators, c) >= 0 {
			counts[c]++
		}
	}
	best, second := byte(0), 0
	for i := range len(separators) {
		if c := separators[i]; counts[c] > counts[best] {
			best, second = c, counts[best]
		} else {
			second = max(second, counts[c])
		}
	}
	span := r.src.SpanAt(r.at, len(text))
	switch {
	case counts[best] == 0:
		r.bag.Error("separator", span, "no separator (comma, semicolon or tab) was found between the names of the columns; put a line such as sep=; before this one to say which it is")
		return 0
	case counts[best] == second:
		r.bag.Error("separator", span, "two separators are equally frequent between the names of the columns; put a line such as sep=; before this one to say which it is")
		return 0
	}
	return best
}

// noteDialect says what was found where it is not the usual.
func (r *Reader) noteDialect() {
	name := map[byte]string{';': "separator ;", '\t': "separator tab", '|': "separator |"}[r.options.Separator]
	if name == "" {
		name = "separator " + string(rune(r.options.Separator))
	}
	decimals := "decimal point"
	if r.options.DecimalComma {
		decimals = "decimal comma"
	}
	text, _ := r.headLine()
	r.bag.Note("separator", r.src.SpanAt(r.at, len(text)), "read with %s and %s", name, decimals)
}

// hasDecimalComma reports whether a cell of the file is a number with a comma
// in it.
func (r *Reader) hasDecimalComma() bool {
	data := r.src.Data
	edge := func(i int) bool {
		return i < 0 || i >= len(data) || data[i] == r.options.Separator || strings.IndexByte("\n\r\"", data[i]) >= 0
	}
	for at := r.at; ; at++ {
		i := bytes.IndexByte(data[at:], ',')
		if i < 0 {
			return false
		}
		at += i
		from, to := at-1, at+1
		for from >= 0 && isDigit(data[from]) {
			from--
		}
		if from >= 0 && from < at-1 && (data[from] == '-' || data[from] == '+') {
			from--
		}
		for to < len(data) && isDigit(data[to]) {
			to++
		}
		if at > 0 && isDigit(data[at-1]) && to > at+1 && edge(from) && edge(to) {
			return true
		}
	}
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
