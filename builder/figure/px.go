package figure

// Px is a length in user units of the drawing; one is a CSS pixel at the drawn width.
type Px float64

// Point is a place in the drawing, from the upper left corner.
type Point struct{ X, Y Px }

// Box is an upright rectangle: its upper left corner and its size.
type Box struct{ X, Y, W, H Px }

// Right gives the right edge.
func (b Box) Right() Px { return b.X + b.W }

// Bottom gives the lower edge.
func (b Box) Bottom() Px { return b.Y + b.H }

// Overlaps reports whether two boxes share area; touching edges don't.
func (b Box) Overlaps(c Box) bool {
	return b.X < c.Right() && c.X < b.Right() && b.Y < c.Bottom() && c.Y < b.Bottom()
}

// Within reports whether the box lies inside the other, edges included.
func (b Box) Within(c Box) bool {
	return b.X >= c.X && b.Y >= c.Y && b.Right() <= c.Right() && b.Bottom() <= c.Bottom()
}

// appendNum writes a length in tenths.
func appendNum(b []byte, v Px) []byte { return appendTenths(b, tenths(v)) }
