package figure

import (
	"math"

	"caseleaf/builder/bidi"
)

// Marks as SVG. Straight shapes are written as paths with relative steps, in tenths of a unit:
// that is the shortest, and a tenth of a pixel is not seen. Shapes that follow one another and
// look alike are one path, unless they could cover one another.

// marks writes marks in order.
func (w *svgWriter) marks(list []mark) {
	for i := 0; i < len(list); {
		f, s, ok := shapeLook(list[i])
		if !ok {
			list[i].svg(w)
			i++
			continue
		}
		w.put(`<path d="`)
		var p pen
		for first := i; i < len(list); i++ {
			if g, t, ok := shapeLook(list[i]); !ok || g != f || t != s || i > first && f != NoPaint && s != (stroke{}) {
				break
			}
			w.outline(&p, list[i])
		}
		w.put(`"`)
		w.look(f, s)
		w.end("/>")
	}
}

// shapeLook tells how a straight shape or path is filled and drawn; false for other marks.
func shapeLook(m mark) (Paint, stroke, bool) {
	switch m := m.(type) {
	case *segment:
		return NoPaint, m.s, true
	case *rect:
		return m.f.paint, m.s, true
	case *path:
		return m.f.paint, m.s, true
	}
	return NoPaint, stroke{}, false
}

// outline writes the way of one shape.
func (w *svgWriter) outline(p *pen, m mark) {
	switch m := m.(type) {
	case *segment:
		w.b = p.line(p.move(w.b, m.a), m.b)
	case *rect:
		b := m.box
		b.W, b.H = max(b.W, 0), max(b.H, 0)
		w.b = p.line(p.move(w.b, Point{b.X, b.Y}), Point{b.Right(), b.Y})
		w.b = p.line(w.b, Point{b.Right(), b.Bottom()})
		w.b = p.closed(p.line(w.b, Point{b.X, b.Bottom()}))
	case *path:
		for i := range m.d {
			w.b = p.step(w.b, &m.d[i])
		}
	}
}

// svg serves the interface; marks writes straight shapes itself.
func (m *segment) svg(w *svgWriter) { w.marks([]mark{m}) }
func (m *rect) svg(w *svgWriter)    { w.marks([]mark{m}) }
func (m *path) svg(w *svgWriter)    { w.marks([]mark{m}) }

func (m *disc) svg(w *svgWriter) {
	w.put("<circle")
	w.length("cx", m.c.X)
	w.length("cy", m.c.Y)
	w.length("r", max(m.r, 0))
	w.look(m.f.paint, m.s)
	w.end("/>")
}

func (m *text) svg(w *svgWriter) {
	b := append(w.b, `<text x="`...) // nobody sees half a pixel of a text's place
	b = appendNum(b, Px(math.Round(float64(m.at.X))))
	b = append(b, `" y="`...)
	b = appendNum(b, Px(math.Round(float64(m.at.Y))))
	w.b = append(b, '"')
	if w.alone {
		m.attributes(w)
	} else {
		m.classes(w)
	}
	w.put(">")
	w.escape(bidi.Line(m.s))
	w.end("</text>")
}

// classes writes how a text looks on a page, where small text in ink with a rim is the rule.
func (m *text) classes(w *svgWriter) {
	large, bold, rim, fill := "", "", "", ""
	if m.size > smallSize {
		large = "l"
	}
	if m.bold {
		bold = "b"
	}
	if !m.halo {
		rim = "o"
	}
	if m.paint != Ink {
		fill = paints[m.paint].fill
	}
	w.classes(large, fill, [...]string{"", "m", "e"}[m.end], bold, rim)
}

// attributes writes how a text looks in a file.
func (m *text) attributes(w *svgWriter) {
	w.length("font-size", m.size)
	w.put([...]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[m.end])
	if m.bold {
		w.put(` font-weight="bold"`)
	}
	if m.paint != Ink {
		w.fill(m.paint)
	}
	if m.halo {
		w.stroke(stroke{paint: Paper, width: 3})
		w.put(` stroke-linejoin="round" paint-order="stroke"`)
	}
}

// svg writes a link with its marks on a page; what links nowhere needs no element, unless it
// has a title to show.
func (m *group) svg(w *svgWriter) {
	tag := ""
	switch {
	case m.href != "" && !w.alone:
		tag = "a"
	case m.title != "":
		tag = "g"
	}
	if tag == "" {
		w.marks(m.marks)
		return
	}
	w.put("<", tag)
	if tag == "a" {
		w.attr("href", m.href)
	}
	w.put(">")
	if m.title != "" {
		w.put("<title>")
		w.escape(m.title)
		w.put("</title>")
	}
	w.marks(m.marks)
	w.put("</", tag)
	w.end(">")
}
