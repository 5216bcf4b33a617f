package figure

import (
	"math"
	"strconv"
)

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

// num writes a length with at most two decimals, without trailing zeros or negative zero.
func num(v Px) string { return string(appendNum(nil, v)) }

// appendNum is num to the end of a slice.
func appendNum(b []byte, v Px) []byte {
	r := math.Round(float64(v) * 100)
	if r == 0 || math.IsNaN(r) || math.IsInf(r, 0) {
		return append(b, '0')
	}
	if math.Abs(r) > 1e12 {
		return strconv.AppendFloat(b, r/100, 'f', -1, 64)
	}
	n := int64(r)
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	if n < 100_000 { // nearly all lengths; AppendInt is slower
		if n >= 10_000 {
			b = append(b, byte('0'+n/10_000))
		}
		if n >= 1_000 {
			b = append(b, byte('0'+n/1_000%10))
		}
		b = append(b, byte('0'+n/100%10))
	} else {
		b = strconv.AppendInt(b, n/100, 10)
	}
	switch f := n % 100; {
	case f == 0:
	case f%10 == 0:
		b = append(b, '.', byte('0'+f/10))
	default:
		b = append(b, '.', byte('0'+f/10), byte('0'+f%10))
	}
	return b
}
