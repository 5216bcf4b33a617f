package figure

// anchor is the end of a text that stands at its point.
type anchor int

const (
	start anchor = iota
	middle
	end
)

// stroke is how a line is drawn. The zero value draws none.
type stroke struct {
	paint Paint
	width Px
	dash  string // "4 3", or none
}

// fill is how an area is filled. The zero value leaves it empty.
type fill struct {
	paint Paint
}

// mark is one element of a drawing. Marks are data: the SVG and the record are both
// written from them.
type mark interface {
	svg(w *svgWriter)
	record(w *recorder)
}

// segment is one straight line.
type segment struct {
	a, b Point
	s    stroke
}

// rect is an upright rectangle.
type rect struct {
	box Box
	f   fill
	s   stroke
}

// disc is a circle.
type disc struct {
	c Point
	r Px
	f fill
	s stroke
}

// path is a line or area through points and arcs.
type path struct {
	d []step
	f fill
	s stroke
}

// step is one command of a path: M, L, A (r, large, sweep, to) or Z.
type step struct {
	op           byte
	to           Point
	r            Px
	large, sweep bool
}

// text is one line of text; at is on its baseline.
type text struct {
	at    Point
	s     string
	size  Px
	end   anchor
	paint Paint
	halo  bool // a rim of paper, where lines pass behind
	bold  bool
}

// group is a set of marks that belong together; with href it is a link.
type group struct {
	class string
	href  string
	title string
	marks []mark
}

// Heights of a line of text, in parts of its size: no common sans-serif face passes them,
// accents on capitals included.
const (
	ascent  = 1.0
	descent = 0.25
)

// boldExtra is how much wider bold text is, at the most.
const boldExtra = 1.16

// box gives the area the text may cover.
func (t text) box() Box {
	w := textWidth(t.s, t.size)
	if t.bold {
		w *= boldExtra
	}
	x := t.at.X
	switch t.end {
	case middle:
		x -= w / 2
	case end:
		x -= w
	}
	return Box{x, t.at.Y - ascent*t.size, w, (ascent + descent) * t.size}
}
