package sheet

import (
	"bytes"
	"strings"
)

// record is the row read last; its slices are used again for the next.
type record struct {
	line     int      // line of the file it begins on
	from, to int      // offsets of its text, the line end left out
	starts   []int    // offset at which each cell begins
	cells    []string // texts of the cells
	faulty   bool     // it has a fault that was reported
}

func (c *record) empty() bool {
	for _, cell := range c.cells {
		if strings.TrimSpace(cell) != "" {
			return false
		}
	}
	return true
}

// read takes the record at r.at apart. A record without quotation marks is one
// line, and its cells share one string; that is the quick way, and nearly every
// row goes it.
func (r *Reader) read() {
	data := r.src.Data
	end := len(data)
	if i := bytes.IndexByte(data[r.at:], '\n'); i >= 0 {
		end = r.at + i
	}
	c := &r.record
	c.line, c.from, c.to, c.faulty = r.line, r.at, trimReturn(data, r.at, end), false
	c.starts, c.cells = c.starts[:0], c.cells[:0]
	if bytes.IndexByte(data[c.from:c.to], '"') >= 0 {
		r.readQuoted()
		return
	}
	text := string(data[c.from:c.to])
	for at := 0; ; {
		c.starts = append(c.starts, c.from+at)
		i := strings.IndexByte(text[at:], r.options.Separator)
		if i < 0 {
			c.cells = append(c.cells, text[at:])
			break
		}
		c.cells = append(c.cells, text[at:at+i])
		at += i + 1
	}
	r.at = end + 1
	r.line++
}

// trimReturn takes a carriage return off the end of a line, for files that were
// not normalised.
func trimReturn(data []byte, from, to int) int {
	if to > from && data[to-1] == '\r' {
		return to - 1
	}
	return to
}

// readQuoted takes apart a record that holds quotation marks.
func (r *Reader) readQuoted() {
	c := &r.record
	data := r.src.Data
	at := c.from
	for {
		c.starts = append(c.starts, at)
		next, ok := r.cell(at)
		if !ok {
			c.faulty = true
			r.skipLine(c.from)
			return
		}
		if next >= len(data) || data[next] == '\n' || data[next] == '\r' {
			c.to = next
			r.line += 1 + bytes.Count(data[c.from:next], []byte{'\n'})
			for next < len(data) && data[next] != '\n' {
				next++
			}
			r.at = next + 1
			return
		}
		at = next + 1
	}
}

// skipLine goes on with the line after the one at an offset: where a quotation
// mark has no end, the rows below are still rows.
func (r *Reader) skipLine(at int) {
	data := r.src.Data
	r.record.to = len(data)
	if i := bytes.IndexByte(data[at:], '\n'); i >= 0 {
		r.record.to = at + i
	}
	r.at = r.record.to + 1
	r.line++
}

// cell reads the cell at an offset and returns the offset of the separator or
// line end after it.
func (r *Reader) cell(at int) (next int, ok bool) {
	data := r.src.Data
	open := at
	for open < len(data) && data[open] == ' ' {
		open++
	}
	if open < len(data) && data[open] == '"' {
		return r.quotedCell(open)
	}
	next = at
	for next < len(data) && data[next] != r.options.Separator && data[next] != '\n' {
		next++
	}
	to := next
	if next == len(data) || data[next] == '\n' {
		to = trimReturn(data, at, next)
	}
	r.record.cells = append(r.record.cells, string(data[at:to]))
	return to, true
}

// longestCell is how many line breaks a quoted cell may hold; a quotation mark
// that was never closed would swallow the rows below it.
const longestCell = 200

// quotedCell reads a cell from its opening quotation mark.
func (r *Reader) quotedCell(open int) (next int, ok bool) {
	data := r.src.Data
	var text []byte
	doubled, breaks := false, 0
	for at := open + 1; at < len(data) && breaks <= longestCell; at++ {
		switch {
		case data[at] == '\n':
			breaks++
		case data[at] != '"':
		case at+1 < len(data) && data[at+1] == '"':
			doubled = true
			at++
		default:
			text = data[open+1 : at]
			next = at + 1
			for next < len(data) && data[next] == ' ' {
				next++
			}
			if next < len(data) && data[next] != r.options.Separator && data[next] != '\n' && data[next] != '\r' {
				return r.quoteFault(open, at)
			}
			cell := string(text)
			if doubled {
				cell = strings.ReplaceAll(cell, `""`, `"`)
			}
			r.record.cells = append(r.record.cells, cell)
			return next, true
		}
	}
	r.fault("cell-quotes", r.src.SpanAt(open, 1), "the quotation mark that opens this cell has no end; close it, or write the cell without quotation marks")
	return 0, false
}

// quoteFault reports text after the mark that closes a cell: on the same line a
// quotation mark inside the cell, further down the end of some other cell, so
// that this one has none.
func (r *Reader) quoteFault(open, closing int) (int, bool) {
	if bytes.IndexByte(r.src.Data[open:closing], '\n') >= 0 {
		r.fault("cell-quotes", r.src.SpanAt(open, 1), "the quotation mark that opens this cell has no end on its line, and the next one found is that of another cell; close it")
		return 0, false
	}
	r.fault("cell-quotes", r.src.SpanAt(closing, 1), "a quotation mark inside a cell in quotation marks must be doubled (\"\")")
	return 0, false
}
