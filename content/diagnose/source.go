package diagnose

import (
	"bytes"
	"strings"
	"unicode/utf8"
	"unsafe"
)

// Source is one file of a bank: its slash-separated path inside the bank and
// its bytes as read.
type Source struct {
	Name   string
	Data   []byte
	text   string  // the same bytes
	starts []int32 // byte offset at which each line begins
}

// NewSource keeps data (which must not change afterwards: texts that are read
// from it share its bytes; at most 2 GiB) and finds its lines. Lines end at \n; a
// \r before it is no part of the line.
func NewSource(name string, data []byte) *Source {
	s := &Source{Name: name, Data: data, text: unsafe.String(unsafe.SliceData(data), len(data))}
	s.starts = make([]int32, 1, bytes.Count(data, lineEnd)+1)
	for at := 0; ; {
		i := bytes.IndexByte(data[at:], '\n')
		if i < 0 {
			return s
		}
		at += i + 1
		s.starts = append(s.starts, int32(at))
	}
}

var lineEnd = []byte("\n")

// Text returns the bytes from one offset to another; it makes no copy of them.
func (s *Source) Text(from, to int) string { return s.text[from:to] }

// Lines returns how many lines the file has; an empty file has one.
func (s *Source) Lines() int { return len(s.starts) }

// Line returns line n (from 1) without its line end, or "" outside the file.
func (s *Source) Line(n int) string {
	if n < 1 || n > len(s.starts) {
		return ""
	}
	end := len(s.text)
	if n < len(s.starts) {
		end = int(s.starts[n]) - 1
	}
	return strings.TrimSuffix(s.text[s.starts[n-1]:end], "\r")
}

// Offset returns the byte offset of a line and column (both from 1, the
// column in characters), held inside the file.
func (s *Source) Offset(line, column int) int {
	line = min(max(line, 1), len(s.starts))
	at := int(s.starts[line-1])
	for ; column > 1 && at < len(s.Data) && s.Data[at] != '\n'; column-- {
		_, size := utf8.DecodeRune(s.Data[at:])
		at += size
	}
	return at
}

// SpanAt returns the span of length bytes from a byte offset, cut at the end
// of its first line.
func (s *Source) SpanAt(offset, length int) Span {
	offset = min(max(offset, 0), len(s.Data))
	line := s.lineOf(offset)
	start := int(s.starts[line-1])
	text := s.Line(line)
	from := min(offset-start, len(text))
	to := min(from+max(length, 0), len(text))
	return s.Span(line, utf8.RuneCountInString(text[:from])+1, utf8.RuneCountInString(text[from:to]))
}

func (s *Source) lineOf(offset int) int {
	low, high := 0, len(s.starts)
	for high-low > 1 {
		mid := (low + high) / 2
		if int(s.starts[mid]) <= offset {
			low = mid
		} else {
			high = mid
		}
	}
	return low + 1
}

// Span returns a place in the file; line and column count from 1, length
// counts characters.
func (s *Source) Span(line, column, length int) Span {
	return Span{s, within(line, lineBits)<<(2*columnBits) | within(column, columnBits)<<columnBits | within(length, columnBits)}
}

// Span is a place in a file: a stretch of characters on one line. The zero Span
// belongs to no file and is printed without a place.
//
// Every value of a bank has one, so it is kept small: places past line 16,777,215
// or column 1,048,575 are told as those.
type Span struct {
	Source *Source
	place  uint64 // line, column and length
}

const (
	lineBits   = 24
	columnBits = 20
)

// within is n, held within what some bits can say.
func within(n, bits int) uint64 { return uint64(min(max(n, 0), 1<<bits-1)) }

// Line counts from 1; 0 where the span is a whole file, or none.
func (p Span) Line() int { return int(p.place >> (2 * columnBits)) }

// Column counts characters from 1.
func (p Span) Column() int { return int(p.place >> columnBits & (1<<columnBits - 1)) }

// Length counts characters.
func (p Span) Length() int { return int(p.place & (1<<columnBits - 1)) }

// WithLength is the span with another length.
func (p Span) WithLength(length int) Span { return p.Source.Span(p.Line(), p.Column(), length) }

// File returns the path of the span's file inside the bank, or "".
func (p Span) File() string {
	if p.Source == nil {
		return ""
	}
	return p.Source.Name
}
