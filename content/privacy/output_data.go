package privacy

import (
	"bytes"
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// scanStrings scans the quoted strings of JSON, JavaScript or CSS, and the
// comments. Escapes are decoded; from is where data stand in the file.
func (o *Output) scanStrings(data []byte, from int, script bool) []Finding {
	var found []Finding
	var s stitched
	for i := 0; i < len(data); {
		if !codeBytes[data[i]] {
			i++
			continue
		}
		s.clear()
		switch c := data[i]; {
		case c == '"' || c == '\'' || c == '`' && script:
			next := s.quoted(data, i, from)
			if next < 0 { // an apostrophe in a comment or a regular expression
				i++
				continue
			}
			found = append(found, o.plainBlock(&s)...)
			i = next
		case script && c == '/' && i+1 < len(data) && data[i+1] == '/' && (i == 0 || data[i-1] <= ' ' || data[i-1] == ';'):
			end := bytes.IndexByte(data[i:], '\n')
			if end < 0 {
				end = len(data) - i
			}
			s.add(data[i+2:i+end], from+i+2)
			found = append(found, o.plainBlock(&s)...)
			i += end
		case c == '/' && i+1 < len(data) && data[i+1] == '*':
			end := bytes.Index(data[i+2:], []byte("*/"))
			if end < 0 {
				end = len(data) - i - 2
			}
			s.add(data[i+2:i+2+end], from+i+2)
			found = append(found, o.plainBlock(&s)...)
			i = min(len(data), i+2+end+2)
		default:
			i++
		}
	}
	if !script { // names of fonts are names
		found = slices.DeleteFunc(found, func(f Finding) bool { return f.Rule == ruleTable[namePair].ID || f.Rule == ruleTable[nameGiven].ID })
	}
	return found
}

// codeBytes begin a string or a comment.
var codeBytes = [256]bool{'"': true, '\'': true, '`': true, '/': true}

// quoted adds the string whose quote stands at i. It returns the offset after
// the closing quote, or -1 where the line or the data end first.
func (s *stitched) quoted(data []byte, i, from int) int {
	quote, plain := data[i], i+1
	n := bytes.IndexByte(data[plain:], quote)
	if n < 0 {
		return -1
	}
	if piece := data[plain : plain+n]; bytes.IndexByte(piece, '\\') < 0 {
		if quote != '`' && bytes.IndexByte(piece, '\n') >= 0 {
			return -1
		}
		s.add(piece, from+plain)
		return plain + n + 1
	}
	for k := i + 1; k < len(data); k++ {
		switch c := data[k]; {
		case c == quote:
			s.add(data[plain:k], from+plain)
			return k + 1
		case c == '\n' && quote != '`':
			return -1
		case c == '\\' && k+1 < len(data):
			s.add(data[plain:k], from+plain)
			piece, size := unescape(data[k:])
			s.add(piece, from+k)
			k += size - 1
			plain = k + 1
		}
	}
	return -1
}

// unescape decodes the escape at the start of b and returns its length.
func unescape(b []byte) ([]byte, int) {
	switch b[1] {
	case 'n', 'r':
		return []byte("\n"), 2
	case 't', 'b', 'f', 'v':
		return []byte(" "), 2
	case 'u', 'x':
		n := 6
		if b[1] == 'x' {
			n = 4
		}
		if len(b) >= n {
			if v, err := strconv.ParseUint(string(b[2:n]), 16, 32); err == nil {
				return utf8.AppendRune(nil, rune(v)), n
			}
		}
	}
	return b[1:2], 2
}

// scanTable scans the cells of a CSV file. Quarters and seasons are let stand:
// published tables are for periods, under the small-count rule.
func (o *Output) scanTable(data []byte) []Finding {
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.LazyQuotes, r.ReuseRecord = -1, true, true
	if line, _, _ := bytes.Cut(data, []byte("\n")); bytes.Count(line, []byte(";")) > bytes.Count(line, []byte(",")) {
		r.Comma = ';'
	}
	starts := lineStarts(data)
	var found []Finding
	var s stitched
	for {
		at := int(r.InputOffset())
		record, err := r.Read()
		if err == io.EOF {
			return found
		}
		if err != nil { // what cannot be read as cells is read as text
			s.clear()
			s.add(data[at:], at)
			return append(found, o.plainBlock(&s)...)
		}
		for i, cell := range record {
			if len(cell) < 3 {
				continue
			}
			line, column := r.FieldPos(i)
			at := min(starts[min(line, len(starts))-1]+column-1, len(data)-1)
			if data[at] == '"' {
				at++
			}
			s.clear()
			s.add([]byte(strings.ToValidUTF8(cell, "?")), at)
			for _, f := range o.plainBlock(&s) {
				if f.Rule != ruleTable[dateSeason].ID {
					f.End = min(f.End, len(data))
					f.Start = min(f.Start, f.End-1)
					found = append(found, f)
				}
			}
		}
	}
}

// calendarTimes are the properties of a calendar whose values are times of a
// course, which is no patient's.
var calendarTimes = wordSet("dtstart dtend dtstamp duration trigger created rdate exdate rrule tzoffsetfrom tzoffsetto last-modified")

// scanCalendar scans an iCalendar file but for the times of its events. Lines
// that the format folds are read as one.
func (o *Output) scanCalendar(data []byte) []Finding {
	var s stitched
	for at := 0; at < len(data); {
		end := at
		for end < len(data) && (data[end] != '\n' || end+1 < len(data) && (data[end+1] == ' ' || data[end+1] == '\t')) {
			end++
		}
		name := data[at:end]
		if k := bytes.IndexAny(name, ":;"); k >= 0 {
			name = name[:k]
		}
		if !calendarTimes[strings.ToLower(string(name))] {
			from := at
			for k := at; k <= end; k++ { // unfold
				if k == end || data[k] == '\n' {
					s.add(bytes.TrimSuffix(data[from:k], []byte("\r")), from)
					from = min(k+2, end)
				}
			}
			s.apart()
		}
		at = end + 1
	}
	return o.plainBlock(&s)
}

func lineStarts(data []byte) []int {
	starts := []int{0}
	for i, c := range data {
		if c == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}
