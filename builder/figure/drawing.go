package figure

// Text sizes. A narrow drawing is 300 wide, so that on the smallest phone, 320 CSS pixels
// with its margins, small text is still about 10 pixels high.
const (
	textSize  Px = 12
	smallSize Px = 11
	// lineHeight of either size, a little more than ascent and descent.
	lineHeight Px = 16
)

// Widths a figure is drawn at. Wide fills a laptop's column and a printed page; narrow a
// phone's.
const (
	Wide   Px = 680
	Narrow Px = 300
)

// Drawing is a finished layout: marks in order, back to front.
type Drawing struct {
	Width, Height Px
	IDPrefix      string // unique in the page; letters, digits and hyphens
	Title, Desc   string // for those who do not see it; SVG and Alone fill in Desc, the caption
	marks         []mark
	stack         []*group
}

// add appends a mark to the open group, or to the drawing.
func (d *Drawing) add(m mark) {
	if n := len(d.stack); n > 0 {
		d.stack[n-1].marks = append(d.stack[n-1].marks, m)
		return
	}
	d.marks = append(d.marks, m)
}

// open begins a group; href makes it a link, title names it to a pointer.
func (d *Drawing) open(class, href, title string) {
	d.stack = append(d.stack, &group{class: class, href: href, title: title, marks: make([]mark, 0, 6)})
}

// close ends the group that was opened last.
func (d *Drawing) close() {
	n := len(d.stack)
	g := d.stack[n-1]
	d.stack = d.stack[:n-1]
	if len(g.marks) > 0 {
		d.add(g)
	}
}

func (d *Drawing) line(a, b Point, s stroke)             { d.add(&segment{a, b, s}) }
func (d *Drawing) rect(b Box, f Paint, s stroke)         { d.add(&rect{b, fill{f}, s}) }
func (d *Drawing) disc(c Point, r Px, f Paint, s stroke) { d.add(&disc{c, r, fill{f}, s}) }

// lines draws separate straight lines, each from one point to the next, as one mark.
func (d *Drawing) lines(s stroke, ends ...Point) {
	if len(ends) < 2 {
		return
	}
	out := make([]step, len(ends))
	for i, p := range ends {
		out[i] = step{op: "ML"[i%2], to: p}
	}
	d.add(&path{d: out, s: s})
}

// polyline draws through points.
func (d *Drawing) polyline(s stroke, points ...Point) {
	if len(points) > 1 {
		d.add(&path{d: steps(points), s: s})
	}
}

// polygon fills and outlines a closed shape.
func (d *Drawing) polygon(f Paint, s stroke, points ...Point) {
	if len(points) > 2 {
		d.add(&path{d: append(steps(points), step{op: 'Z'}), f: fill{f}, s: s})
	}
}

// steps moves to the first point and draws lines to the others.
func steps(points []Point) []step {
	out := make([]step, len(points))
	for i, p := range points {
		out[i] = step{op: 'L', to: p}
	}
	out[0].op = 'M'
	return out
}

// say writes one line of text and returns the area it may cover.
func (d *Drawing) say(at Point, s string, size Px, e anchor, p Paint) Box {
	t := text{at: at, s: s, size: size, end: e, paint: p}
	d.add(&t)
	return t.box()
}

// sayOver is say for text with lines behind it.
func (d *Drawing) sayOver(at Point, s string, size Px, e anchor, p Paint) Box {
	t := text{at: at, s: s, size: size, end: e, paint: p, halo: true}
	d.add(&t)
	return t.box()
}

// sayLines writes lines downwards from the first baseline.
func (d *Drawing) sayLines(at Point, lines []string, size Px, e anchor, p Paint) {
	for i, l := range lines {
		d.sayOver(Point{at.X, at.Y + Px(i)*lineHeight}, l, size, e, p)
	}
}

// texts lists every text of the drawing in order.
func (d *Drawing) texts() []text {
	var out []text
	var walk func([]mark)
	walk = func(ms []mark) {
		for _, m := range ms {
			switch m := m.(type) {
			case *text:
				out = append(out, *m)
			case *group:
				walk(m.marks)
			}
		}
	}
	walk(d.marks)
	return out
}

// linked reports whether any mark is a link.
func (d *Drawing) linked() bool {
	for _, m := range d.marks {
		if g, ok := m.(*group); ok && g.anyHref() {
			return true
		}
	}
	return false
}

// anyHref looks for a link in the group and below.
func (g *group) anyHref() bool {
	if g.href != "" {
		return true
	}
	for _, m := range g.marks {
		if sub, ok := m.(*group); ok && sub.anyHref() {
			return true
		}
	}
	return false
}
