package figure

// plot is a figure with two axes: a frame, two scales, and a placer for labels inside it.
type plot struct {
	d      *Drawing
	x, y   scale // y.a is the lower edge
	placer placer
}

// axisNumbers are the ticks of one axis and how to write them.
type axisNumbers struct {
	from, to float64
	ticks    []float64
	text     func(float64) string
	name     string
}

// newPlot draws the frame, the grid and both axes. The name of the upright axis stands above
// it, upright, so that nobody must turn the page.
func newPlot(d *Drawing, x, y axisNumbers, top, height Px) *plot {
	left := margin
	for _, t := range y.ticks {
		left = max(left, margin+textWidth(y.text(t), smallSize)+8)
	}
	lines := wrap(y.name, smallSize, d.Width-2*margin, 2)
	d.sayBlock(Point{margin, top + textSize}, lines, smallSize, start, Soft, false)
	top += Px(len(lines))*lineHeight + 10
	p := &plot{d: d, x: scale{x.from, x.to, left, d.Width - margin - 10}, y: scale{y.from, y.to, top + height, top}}
	grid := uprights(p.x, x.ticks, top, top+height)
	for _, t := range y.ticks {
		grid = append(grid, Point{left, p.y.at(t)}, Point{p.x.b, p.y.at(t)})
	}
	d.lines(gridLine, grid...)
	for _, t := range y.ticks {
		at := p.y.at(t)
		d.say(Point{left - 6, at + 4}, y.text(t), smallSize, end, Soft)
	}
	d.line(Point{left, top + height}, Point{p.x.b, top + height}, axisLine)
	d.line(Point{left, top}, Point{left, top + height}, axisLine)
	bottom := d.numbers(p.x, x.ticks, x.text, top+height)
	for _, line := range wrap(x.name, smallSize, d.Width-2*margin, 2) {
		half := textWidth(line, smallSize) / 2
		c := max(margin+half, min((p.x.a+p.x.b)/2, d.Width-margin-half))
		d.say(Point{c, bottom + textSize}, line, smallSize, middle, Soft)
		bottom += lineHeight
	}
	d.Height = bottom + 6
	p.placer.frame = Box{left + 1, top + 1, p.x.b - left - 2, height - 2}
	return p
}

// at gives the place of a pair of values.
func (p *plot) at(x, y float64) Point { return Point{p.x.at(x), p.y.at(y)} }

// label puts a text near a point where there is room, with a thin line to it where it had to
// go far. It reports whether there was room.
func (p *plot) label(c Point, s string, paint Paint) bool {
	t, ok := p.placer.near(c, s, smallSize, paint, 8, 16, 28, 44)
	if !ok {
		return false
	}
	b := t.box()
	near := Point{max(b.X, min(c.X, b.Right())), max(b.Y, min(c.Y, b.Bottom()))}
	if dx, dy := near.X-c.X, near.Y-c.Y; dx*dx+dy*dy > 12*12 {
		p.d.line(c, near, stroke{Faint, 0.8, ""})
	}
	p.d.add(&t)
	return true
}
