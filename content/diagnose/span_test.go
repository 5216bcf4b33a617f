package diagnose_test

import (
	"testing"

	"caseleaf/content/diagnose"
)

// A place is packed into one number: what fits comes back, what does not is held at
// the largest, and nothing spills from one part into another.
func TestSpanIsPacked(t *testing.T) {
	s := diagnose.NewSource("a", []byte("x"))
	for _, c := range []struct{ line, column, length, wantLine, wantColumn, wantLength int }{
		{1, 1, 0, 1, 1, 0},
		{4_194_305, 1_048_575, 1_048_575, 4_194_305, 1_048_575, 1_048_575},
		{1 << 30, 1 << 30, 1 << 30, 16_777_215, 1_048_575, 1_048_575},
		{-1, -1, -1, 0, 0, 0},
	} {
		p := s.Span(c.line, c.column, c.length)
		if p.Line() != c.wantLine || p.Column() != c.wantColumn || p.Length() != c.wantLength {
			t.Errorf("%+v: got %d:%d, %d long", c, p.Line(), p.Column(), p.Length())
		}
	}
	if p := s.Span(7, 8, 9).WithLength(3); p.Line() != 7 || p.Column() != 8 || p.Length() != 3 || p.Source != s {
		t.Errorf("with another length: %d:%d, %d long", p.Line(), p.Column(), p.Length())
	}
}
