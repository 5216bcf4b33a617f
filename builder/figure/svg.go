package figure

import (
	"bytes"
	"encoding/xml"
	"strings"
)

// svgWriter writes marks as SVG, for a page or for a file that stands alone.
type svgWriter struct {
	bytes.Buffer
	alone bool
}

// SVG writes the drawing for a page: colours follow the text around it. class is added to
// the element's class; hidden drawings are shown by the page's style sheet only.
func (d *Drawing) svg(class string, hidden bool) []byte {
	w := &svgWriter{}
	w.head(d, strings.TrimSpace("figure-drawing "+class), hidden)
	w.body(d)
	return w.Bytes()
}

// alone writes a file that needs nothing else: fixed colours on white, generic fonts.
func (d *Drawing) alone() []byte {
	w := &svgWriter{alone: true}
	w.WriteString(xml.Header)
	w.head(d, "", false)
	w.WriteString(`<rect width="100%" height="100%" fill="#ffffff"/>` + "\n")
	w.body(d)
	return w.Bytes()
}

// head opens the element with its title and description. A drawing whose marks are links is
// a group to assistive software, since an image has no parts that can be reached.
func (w *svgWriter) head(d *Drawing, class string, hidden bool) {
	w.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ` + num(d.Width) + " " + num(d.Height) + `"`)
	w.attr("width", num(d.Width))
	w.attr("height", num(d.Height))
	w.attr("class", class)
	if hidden {
		w.attr("display", "none")
	}
	role := "img"
	if d.linked() && !w.alone {
		role = "group"
	}
	w.attr("role", role)
	w.attr("aria-labelledby", d.IDPrefix+"-title "+d.IDPrefix+"-desc")
	w.attr("font-family", "system-ui, sans-serif")
	w.paint("fill", Ink)
	w.WriteString(">\n")
	w.WriteString(`<title id="` + escape(d.IDPrefix) + `-title">` + escape(d.Title) + "</title>\n")
	w.WriteString(`<desc id="` + escape(d.IDPrefix) + `-desc">` + escape(d.Desc) + "</desc>\n")
}

// body writes the marks and closes the element.
func (w *svgWriter) body(d *Drawing) {
	for _, m := range d.marks {
		m.svg(w)
	}
	w.WriteString("</svg>\n")
}

// attr writes an attribute, unless its value is empty.
func (w *svgWriter) attr(name, value string) {
	if value != "" {
		w.WriteString(" " + name + `="` + escape(value) + `"`)
	}
}

// paint writes a paint into an attribute.
func (w *svgWriter) paint(name string, p Paint) {
	v := paints[p]
	if w.alone {
		w.attr(name, v.alone)
	} else {
		w.attr(name, v.inline)
	}
	if name == "fill" {
		w.attr("fill-opacity", v.fillOpacity)
	}
}

// strokes writes the attributes of a stroke.
func (w *svgWriter) strokes(s stroke) {
	if s.paint == NoPaint || s.width <= 0 {
		return
	}
	w.paint("stroke", s.paint)
	w.attr("stroke-width", num(s.width))
	w.attr("stroke-dasharray", s.dash)
}

// escape makes a text safe in content and in double-quoted attributes. Characters that XML
// cannot hold become the replacement character.
func escape(s string) string {
	var b bytes.Buffer
	// EscapeText can fail only on a failing writer, which a buffer is not.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}

func (m segment) svg(w *svgWriter) {
	w.WriteString("<line")
	w.attr("x1", num(m.a.X))
	w.attr("y1", num(m.a.Y))
	w.attr("x2", num(m.b.X))
	w.attr("y2", num(m.b.Y))
	w.strokes(m.s)
	w.WriteString("/>\n")
}

func (m rect) svg(w *svgWriter) {
	w.WriteString("<rect")
	w.attr("x", num(m.box.X))
	w.attr("y", num(m.box.Y))
	w.attr("width", num(max(m.box.W, 0)))
	w.attr("height", num(max(m.box.H, 0)))
	w.paint("fill", m.f.paint)
	w.strokes(m.s)
	w.WriteString("/>\n")
}

func (m disc) svg(w *svgWriter) {
	w.WriteString("<circle")
	w.attr("cx", num(m.c.X))
	w.attr("cy", num(m.c.Y))
	w.attr("r", num(max(m.r, 0)))
	w.paint("fill", m.f.paint)
	w.strokes(m.s)
	w.WriteString("/>\n")
}

func (m path) svg(w *svgWriter) {
	w.WriteString("<path")
	w.attr("d", m.data())
	w.paint("fill", m.f.paint)
	w.strokes(m.s)
	w.WriteString("/>\n")
}

// data writes the commands of a path.
func (m path) data() string {
	var b strings.Builder
	flag := map[bool]string{false: "0", true: "1"}
	for _, s := range m.d {
		b.WriteByte(s.op)
		switch s.op {
		case 'A':
			b.WriteString(num(s.r) + " " + num(s.r) + " 0 " + flag[s.large] + " " + flag[s.sweep] + " ")
			fallthrough
		case 'M', 'L':
			b.WriteString(num(s.to.X) + " " + num(s.to.Y))
		}
	}
	return b.String()
}

func (m text) svg(w *svgWriter) {
	w.WriteString("<text")
	w.attr("x", num(m.at.X))
	w.attr("y", num(m.at.Y))
	w.attr("font-size", num(m.size))
	w.attr("text-anchor", [...]string{"", "middle", "end"}[m.end])
	if m.bold {
		w.attr("font-weight", "bold")
	}
	if m.paint != Ink {
		w.paint("fill", m.paint)
	}
	if m.halo {
		w.paint("stroke", Paper)
		w.attr("stroke-width", "3")
		w.attr("stroke-linejoin", "round")
		w.attr("paint-order", "stroke")
	}
	w.WriteString(">" + escape(m.s) + "</text>\n")
}

func (m group) svg(w *svgWriter) {
	tag := "g"
	if m.href != "" && !w.alone {
		tag = "a"
	}
	w.WriteString("<" + tag)
	w.attr("class", m.class)
	if tag == "a" {
		w.attr("href", m.href)
	}
	w.WriteString(">")
	if m.title != "" {
		w.WriteString("<title>" + escape(m.title) + "</title>")
	}
	w.WriteString("\n")
	for _, sub := range m.marks {
		sub.svg(w)
	}
	w.WriteString("</" + tag + ">\n")
}
