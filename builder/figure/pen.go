package figure

import (
	"math"
	"strconv"
)

// pen writes the way of a path in relative steps. It counts in tenths from the rounded place
// it stands at, so that steps add up to no error.
type pen struct {
	x, y         int64
	fromX, fromY int64 // where the part began, to which closing returns
	last         byte  // the last command
	begun        bool
}

// tenths rounds a length; what is no number is 0.
func tenths(v Px) int64 {
	r := math.Round(float64(v) * 10)
	if !(math.Abs(r) < 1e12) {
		return 0
	}
	return int64(r)
}

// move begins a part of the path.
func (p *pen) move(b []byte, to Point) []byte {
	x, y := tenths(to.X), tenths(to.Y)
	if !p.begun {
		b = pair(append(b, 'M'), x, y)
	} else {
		b = pair(append(b, 'm'), x-p.x, y-p.y)
	}
	p.x, p.y, p.fromX, p.fromY, p.last, p.begun = x, y, x, y, 'm', true
	return b
}

// line goes straight on.
func (p *pen) line(b []byte, to Point) []byte {
	x, y := tenths(to.X), tenths(to.Y)
	dx, dy := x-p.x, y-p.y
	p.x, p.y = x, y
	switch {
	case dy == 0:
		return appendTenths(p.command(b, 'h', dx), dx)
	case dx == 0:
		return appendTenths(p.command(b, 'v', dy), dy)
	}
	b = p.command(b, 'l', dx)
	return pair(b, dx, dy)
}

// command writes a command's letter, or, where it is the one before, what parts its number
// from the last.
func (p *pen) command(b []byte, op byte, next int64) []byte {
	if p.last != op {
		p.last = op
		return append(b, op)
	}
	if next >= 0 {
		return append(b, ' ')
	}
	return b
}

// closed goes back to where the part began.
func (p *pen) closed(b []byte) []byte {
	p.x, p.y, p.last = p.fromX, p.fromY, 'z'
	return append(b, 'z')
}

// step writes one command of a path.
func (p *pen) step(b []byte, s *step) []byte {
	switch s.op {
	case 'M':
		return p.move(b, s.to)
	case 'L':
		return p.line(b, s.to)
	case 'Z':
		return p.closed(b)
	}
	r, x, y := tenths(s.r), tenths(s.to.X), tenths(s.to.Y)
	b = pair(append(b, 'a'), r, r)
	b = append(b, " 0 "...)
	b = append(b, bit(s.large), ' ', bit(s.sweep), ' ')
	b = pair(b, x-p.x, y-p.y)
	p.x, p.y, p.last = x, y, 'a'
	return b
}

func bit(on bool) byte {
	if on {
		return '1'
	}
	return '0'
}

// pair writes two numbers.
func pair(b []byte, x, y int64) []byte {
	b = appendTenths(b, x)
	if y >= 0 {
		b = append(b, ' ')
	}
	return appendTenths(b, y)
}

// appendTenths writes tenths as a decimal number, without a nought before the point.
func appendTenths(b []byte, n int64) []byte {
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	whole := n / 10
	switch {
	case whole >= 1000:
		b = strconv.AppendInt(b, whole, 10)
	case whole >= 100:
		b = append(b, byte('0'+whole/100), byte('0'+whole/10%10), byte('0'+whole%10))
	case whole >= 10:
		b = append(b, byte('0'+whole/10), byte('0'+whole%10))
	case whole > 0 || n == 0:
		b = append(b, byte('0'+whole))
	}
	if f := n % 10; f > 0 {
		b = append(b, '.', byte('0'+f))
	}
	return b
}
