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

// apostrophe is how templates write the sign.
var apostrophe = []byte("&#39;")

// addMarkup is add for a piece of markup. Apostrophes are decoded here, since a
// sentence of a page is then the same as in a list of strings, and need not be
// scanned again; the scanner decodes all other references.
func (s *stitched) addMarkup(piece []byte, from int) {
	for {
		k := bytes.Index(piece, apostrophe)
		if k < 0 {
			s.add(piece, from)
			return
		}
		s.add(piece[:k], from)
		s.add([]byte{'\''}, from+k)
		piece, from = piece[k+len(apostrophe):], from+k+len(apostrophe)
	}
}

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
