package privacy

import (
	"bytes"
	"sort"
)

// stitched is text gathered from pieces of a file, with the way back. Pieces
// that belong to one run of text are joined, others stand on lines of their
// own, so that a name split over two elements is found and two captions do not
// make one.
type stitched struct {
	text  []byte
	parts []part
}

// part says that the text from at on came from source byte from on.
type part struct{ at, from int }

// add appends a piece that stood at source byte from.
func (s *stitched) add(piece []byte, from int) {
	s.parts = append(s.parts, part{len(s.text), from})
	s.text = append(s.text, piece...)
}

// addMarkup is add for a piece of markup. Quotes are decoded here, since a
// sentence of a page is then the same as in a list of strings or in its source,
// and need not be scanned again; the scanner decodes all other references.
func (s *stitched) addMarkup(piece []byte, from int) {
	for k := 0; k < len(piece); {
		n := bytes.IndexByte(piece[k:], '&')
		if n < 0 {
			break
		}
		k += n
		sign, size := quoteAt(piece[k:])
		if size == 0 {
			k++
			continue
		}
		s.add(piece[:k], from)
		s.add([]byte{sign}, from+k)
		piece, from, k = piece[k+size:], from+k+size, 0
	}
	s.add(piece, from)
}

// quoteAt reads the reference to a quote at the start of a piece of markup; its
// size is 0 for another.
func quoteAt(piece []byte) (sign byte, size int) {
	switch {
	case bytes.HasPrefix(piece, []byte("&#39;")):
		return '\'', 5
	case bytes.HasPrefix(piece, []byte("&#34;")):
		return '"', 5
	case bytes.HasPrefix(piece, []byte("&quot;")):
		return '"', 6
	}
	return 0, 0
}

// clear makes room for the next text.
func (s *stitched) clear() { s.text, s.parts = s.text[:0], s.parts[:0] }

// apart ends a run of text.
func (s *stitched) apart() {
	if n := len(s.text); n > 0 && (n < 2 || s.text[n-1] != '\n' || s.text[n-2] != '\n') {
		s.text = append(s.text, '\n', '\n')
	}
}

// source is the source offset of text byte i.
func (s *stitched) source(i int) int {
	k := sort.Search(len(s.parts), func(k int) bool { return s.parts[k].at > i }) - 1
	if k < 0 {
		return 0
	}
	return s.parts[k].from + i - s.parts[k].at
}

// scan scans what was gathered; the findings' offsets are those of the source.
func (s *stitched) scan(sc *Scanner, zone Zone) []Finding {
	found := sc.Scan(zone, string(s.text))
	for i := range found {
		start := s.source(found[i].Start)
		end := s.source(found[i].End-1) + 1
		found[i].Start, found[i].End = start, max(end, start+1)
	}
	return found
}
