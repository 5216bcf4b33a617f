package figure

// placer puts labels where there is room: it knows what is taken and tries places around a
// point in order. It places; the figure draws.
type placer struct {
	frame Box
	taken []Box
}

// block takes a place for a mark or a line, which labels then keep off.
func (p *placer) block(b Box) { p.taken = append(p.taken, b) }

// blockLine takes the box around the last stretch of a line.
func (p *placer) blockLine(points []Point) {
	n := len(points)
	if n < 2 {
		return
	}
	a, b := points[n-2], points[n-1]
	p.block(Box{min(a.X, b.X), min(a.Y, b.Y) - 1, max(a.X, b.X) - min(a.X, b.X), max(a.Y, b.Y) - min(a.Y, b.Y) + 2})
}

// free reports whether a box lies in the frame and touches nothing taken.
func (p *placer) free(b Box) bool {
	if !b.Within(p.frame) {
		return false
	}
	for _, t := range p.taken {
		if b.Overlaps(t) {
			return false
		}
	}
	return true
}

// near finds a place for one line of text around a point, at the given distances from it,
// nearest first, and takes it. It is false where none is free.
func (p *placer) near(c Point, s string, size Px, paint Paint, distances ...Px) (text, bool) {
	for _, r := range distances {
		for _, t := range around(c, s, size, paint, r) {
			if p.free(t.box()) {
				p.block(t.box())
				return t, true
			}
		}
	}
	return text{}, false
}

// around gives the eight places about a point: beside it, above and below, and askew.
func around(c Point, s string, size Px, paint Paint, r Px) []text {
	mid := c.Y + size*0.35
	up, down := c.Y-r-size*descent, c.Y+r+size*ascent
	diag := r * 0.7
	place := func(x, y Px, e anchor) text {
		return text{at: Point{x, y}, s: s, size: size, end: e, paint: paint, halo: true}
	}
	return []text{
		place(c.X+r, mid, start), place(c.X-r, mid, end),
		place(c.X, up, middle), place(c.X, down, middle),
		place(c.X+diag, c.Y-diag-size*descent, start), place(c.X+diag, c.Y+diag+size*ascent*0.8, start),
		place(c.X-diag, c.Y-diag-size*descent, end), place(c.X-diag, c.Y+diag+size*ascent*0.8, end),
	}
}

// spread moves labels of the given heights apart along a line, keeping their order, so that
// none overlap and all lie between low and high, as near to where they want to be as they
// can in the sense of least squares: overlapping neighbours join in a block that stands at
// the mean of their wishes. wants are the wished middles, in rising order; the middles are
// returned. Where the labels don't fit, they are packed from low on.
func spread(wants, heights []Px, low, high Px) []Px {
	type block struct {
		first, n  int
		sum, size Px // of the wished upper edges, each less the heights before it; of the heights
	}
	var blocks []block
	top := func(b block) Px {
		at := b.sum / Px(b.n)
		return max(low, min(at, high-b.size))
	}
	for i, w := range wants {
		blocks = append(blocks, block{i, 1, w - heights[i]/2, heights[i]})
		for len(blocks) > 1 {
			a, b := blocks[len(blocks)-2], blocks[len(blocks)-1]
			if top(a)+a.size <= top(b) {
				break
			}
			joined := block{a.first, a.n + b.n, a.sum + b.sum - Px(b.n)*a.size, a.size + b.size}
			blocks = append(blocks[:len(blocks)-2], joined)
		}
	}
	out := make([]Px, len(wants))
	for _, b := range blocks {
		at := top(b)
		for i := b.first; i < b.first+b.n; i++ {
			out[i] = at + heights[i]/2
			at += heights[i]
		}
	}
	return out
}
