package figure

// lane is one line of a figure whose rows share an axis: words, a mark to scale, numbers.
type lane struct {
	head  bool   // a heading over the lanes that follow; it has no mark
	label string // at the left
	value string // at the right
	href  string
	mark  func(x scale, y Px) // draws the mark on the middle line y
}

// stretch is how much wider the label is set than plain text: headings are bold.
func (l lane) stretch() Px {
	if l.head {
		return boldExtra
	}
	return 1
}

// lanePlot lays lanes out. Where the drawing is wide, words, marks and numbers stand in
// columns; where it is narrow, words and numbers stand above their mark.
type lanePlot struct {
	d        *Drawing
	from, to float64
	ticks    []float64
	tick     func(float64) string
	axis     string    // what the axis shows, written below it
	refs     []float64 // upright reference lines
	lanes    []lane
}

const (
	margin   Px = 8
	laneGap  Px = 6
	markLine Px = 18 // height of a mark's line in a narrow drawing
	stacked  Px = 480
)

// draw lays the lanes out from y down and gives the lower edge.
func (p lanePlot) draw(y Px) Px {
	if p.d.Width < stacked {
		return p.narrow(y)
	}
	return p.wide(y)
}

// wide draws three columns.
func (p lanePlot) wide(y Px) Px {
	labelW, valueW := Px(0), Px(0)
	for _, l := range p.lanes {
		if !l.head {
			labelW = max(labelW, textWidth(l.label, textSize))
			valueW = max(valueW, textWidth(l.value, smallSize))
		}
	}
	labelW = min(labelW, p.d.Width*0.34)
	valueW = min(valueW, p.d.Width*0.34)
	x := scale{p.from, p.to, margin + labelW + 16, p.d.Width - margin - valueW - 16}
	top := y
	rows := make([]Px, len(p.lanes)+1)
	labels := make([][]string, len(p.lanes))
	values := make([][]string, len(p.lanes))
	for i, l := range p.lanes {
		if l.head && i > 0 {
			y += laneGap
		}
		rows[i] = y
		w := labelW
		if l.head {
			w = p.d.Width - 2*margin
		}
		labels[i] = wrap(l.label, textSize, w/l.stretch(), 3)
		values[i] = wrap(l.value, smallSize, valueW, 3)
		y += Px(max(1, len(labels[i]), len(values[i])))*lineHeight + laneGap
	}
	rows[len(p.lanes)] = y
	p.grid(x, top, y)
	for i, l := range p.lanes {
		p.d.open("figure-lane", l.href, "")
		p.d.sayBlock(Point{margin, rows[i] + textSize}, labels[i], textSize, start, Ink, l.head)
		p.d.sayBlock(Point{p.d.Width - margin, rows[i] + textSize}, values[i], smallSize, end, Ink, false)
		if l.mark != nil {
			l.mark(x, rows[i]+lineHeight/2+1)
		}
		p.d.close()
	}
	return p.foot(x, y)
}

// narrow stacks words and numbers over each mark.
func (p lanePlot) narrow(y Px) Px {
	x := scale{p.from, p.to, margin + 6, p.d.Width - margin - 6}
	room := p.d.Width - 2*margin
	type placed struct {
		y      Px
		labels []string
		values []string
		beside bool
		markY  Px
	}
	rows := make([]placed, len(p.lanes))
	for i, l := range p.lanes {
		if l.head && i > 0 {
			y += laneGap
		}
		r := placed{y: y}
		r.beside = l.value != "" && textWidth(l.label, textSize)+textWidth(l.value, smallSize)+12 <= room
		r.labels = wrap(l.label, textSize, room/l.stretch(), 3)
		r.values = wrap(l.value, smallSize, room, 2)
		y += Px(len(r.labels)) * lineHeight
		if !r.beside {
			y += Px(len(r.values)) * lineHeight
		}
		if l.mark != nil {
			r.markY = y + markLine/2
			y += markLine
		}
		y += laneGap
		rows[i] = r
	}
	for i, l := range p.lanes {
		r := rows[i]
		if l.mark != nil {
			p.grid(x, r.markY-markLine/2, r.markY+markLine/2)
		}
		p.d.open("figure-lane", l.href, "")
		p.d.sayBlock(Point{margin, r.y + textSize}, r.labels, textSize, start, Ink, l.head)
		at, e := Point{margin, r.y + textSize + Px(len(r.labels))*lineHeight}, start
		if r.beside {
			at, e = Point{p.d.Width - margin, r.y + textSize}, end
		}
		p.d.sayBlock(at, r.values, smallSize, e, Ink, false)
		if l.mark != nil {
			l.mark(x, r.markY)
		}
		p.d.close()
	}
	return p.foot(x, y)
}

// grid draws the faint upright lines and the reference lines.
func (p lanePlot) grid(x scale, top, bottom Px) {
	p.d.lines(gridLine, uprights(x, p.ticks, top, bottom)...)
	p.d.lines(stroke{Ink, 1.2, "6 3"}, uprights(x, p.refs, top, bottom)...)
}

// uprights gives the ends of upright lines at some values.
func uprights(x scale, values []float64, top, bottom Px) []Point {
	ends := make([]Point, 0, 2*len(values))
	for _, v := range values {
		ends = append(ends, Point{x.at(v), top}, Point{x.at(v), bottom})
	}
	return ends
}

// foot draws the axis with its numbers and its name.
func (p lanePlot) foot(x scale, y Px) Px {
	p.d.line(Point{x.a, y}, Point{x.b, y}, axisLine)
	y = p.d.numbers(x, p.ticks, p.tick, y)
	if p.axis == "" {
		return y
	}
	for _, line := range wrap(p.axis, smallSize, p.d.Width-2*margin, 2) {
		half := textWidth(line, smallSize) / 2
		c := max(margin+half, min((x.a+x.b)/2, p.d.Width-margin-half))
		p.d.say(Point{c, y + textSize}, line, smallSize, middle, Soft)
		y += lineHeight
	}
	return y + 2
}

// numbers writes the numbers below an axis, leaving out those that would touch the one
// before or leave the frame.
func (d *Drawing) numbers(x scale, ticks []float64, text func(float64) string, y Px) Px {
	d.lines(axisLine, uprights(x, ticks, y, y+4)...)
	last := Px(-1000)
	for _, t := range ticks {
		s := text(t)
		half := textWidth(s, smallSize) / 2
		c := max(half+1, min(x.at(t), d.Width-half-1))
		if c-half < last+6 {
			continue
		}
		d.say(Point{c, y + 4 + textSize}, s, smallSize, middle, Soft)
		last = c + half
	}
	return y + 4 + lineHeight + 2
}

// sayBlock writes lines downwards, bold or not.
func (d *Drawing) sayBlock(at Point, lines []string, size Px, e anchor, p Paint, bold bool) {
	for i, l := range lines {
		d.add(&text{at: Point{at.X, at.Y + Px(i)*lineHeight}, s: l, size: size, end: e, paint: p, halo: true, bold: bold})
	}
}
