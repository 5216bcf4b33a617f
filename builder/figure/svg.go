package figure

import (
	"bytes"
	"encoding/xml"
	"strings"
	"sync"
)

// svgWriter writes marks as SVG, for a page or for a file that stands alone. It appends to
// one slice, since a handout holds thousands of drawings.
type svgWriter struct {
	b     []byte
	alone bool
}

// writers keeps the slices of finished drawings for the next ones.
var writers = sync.Pool{New: func() any { return &svgWriter{b: make([]byte, 0, 64<<10)} }}

// written takes a writer, lets it write, and returns a copy of what it wrote.
func written(alone bool, write func(w *svgWriter)) []byte {
	w, ok := writers.Get().(*svgWriter)
	if !ok {
		w = &svgWriter{}
	}
	w.b, w.alone = w.b[:0], alone
	write(w)
	out := bytes.Clone(w.b)
	writers.Put(w)
	return out
}

// drawing writes one drawing for a page: colours follow the text around it. class is added
// to the element's class; hidden drawings are shown by the page's style sheet only.
func (w *svgWriter) drawing(d *Drawing, class string, hidden bool) {
	w.head(d, "figure-drawing "+class, hidden)
	w.body(d)
}

// alone writes a file that needs nothing else: fixed colours on white, generic fonts.
func (d *Drawing) alone() []byte {
	return written(true, func(w *svgWriter) {
		w.put(xml.Header)
		w.head(d, "", false)
		w.put(`<rect width="100%" height="100%" fill="#ffffff"/>`, "\n")
		w.body(d)
	})
}

// head opens the element with its title and description. A drawing whose marks are links is
// a group to assistive software, since an image has no parts that can be reached.
func (w *svgWriter) head(d *Drawing, class string, hidden bool) {
	w.put(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 `, num(d.Width), " ", num(d.Height), `"`)
	w.length("width", d.Width)
	w.length("height", d.Height)
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
	w.fill(Ink)
	w.put(">\n<title")
	w.attr("id", d.IDPrefix+"-title")
	w.put(">")
	w.escape(d.Title)
	w.put("</title>\n<desc")
	w.attr("id", d.IDPrefix+"-desc")
	w.put(">")
	w.escape(d.Desc)
	w.put("</desc>\n")
}

// body writes the marks and closes the element.
func (w *svgWriter) body(d *Drawing) {
	for _, m := range d.marks {
		m.svg(w)
	}
	w.put("</svg>\n")
}

// put appends texts as they are.
func (w *svgWriter) put(texts ...string) {
	for _, s := range texts {
		w.b = append(w.b, s...)
	}
}

// attr writes an attribute, unless its value is empty.
func (w *svgWriter) attr(name, value string) {
	if value == "" {
		return
	}
	w.put(" ", name, `="`)
	w.escape(value)
	w.put(`"`)
}

// length writes an attribute that is a length.
func (w *svgWriter) length(name string, v Px) {
	w.put(" ", name, `="`)
	w.b = appendNum(w.b, v)
	w.put(`"`)
}

// fill writes the paint of an area.
func (w *svgWriter) fill(p Paint) {
	v := paints[p]
	value := v.inline
	if w.alone {
		value = v.alone
	}
	w.put(` fill="`, value, `"`)
	if v.fillOpacity != "" {
		w.put(` fill-opacity="`, v.fillOpacity, `"`)
	}
}

// stroke writes how a line is drawn.
func (w *svgWriter) stroke(s stroke) {
	if s.paint == NoPaint || s.width <= 0 {
		return
	}
	value := paints[s.paint].inline
	if w.alone {
		value = paints[s.paint].alone
	}
	w.put(` stroke="`, value, `"`)
	w.length("stroke-width", s.width)
	if s.dash != "" {
		w.put(` stroke-dasharray="`, s.dash, `"`)
	}
}

// escape appends a text made safe in content and in double-quoted attributes. Characters
// that XML cannot hold become the replacement character.
func (w *svgWriter) escape(s string) {
	if !strings.ContainsFunc(s, needsEscape) {
		w.put(s)
		return
	}
	var b bytes.Buffer
	// EscapeText can fail only on a failing writer, which a buffer is not.
	_ = xml.EscapeText(&b, []byte(s))
	w.b = append(w.b, b.Bytes()...)
}

// needsEscape reports characters that must or may have to be escaped.
func needsEscape(r rune) bool {
	return r < ' ' || r == '&' || r == '<' || r == '>' || r == '"' || r == '\'' || r >= 0xd800
}

func (m segment) svg(w *svgWriter) {
	w.put("<line")
	w.length("x1", m.a.X)
	w.length("y1", m.a.Y)
	w.length("x2", m.b.X)
	w.length("y2", m.b.Y)
	w.stroke(m.s)
	w.put("/>\n")
}

func (m rect) svg(w *svgWriter) {
	w.put("<rect")
	w.length("x", m.box.X)
	w.length("y", m.box.Y)
	w.length("width", max(m.box.W, 0))
	w.length("height", max(m.box.H, 0))
	w.fill(m.f.paint)
	w.stroke(m.s)
	w.put("/>\n")
}

func (m disc) svg(w *svgWriter) {
	w.put("<circle")
	w.length("cx", m.c.X)
	w.length("cy", m.c.Y)
	w.length("r", max(m.r, 0))
	w.fill(m.f.paint)
	w.stroke(m.s)
	w.put("/>\n")
}

func (m path) svg(w *svgWriter) {
	w.put(`<path d="`)
	for _, s := range m.d {
		s.svg(w)
	}
	w.put(`"`)
	w.fill(m.f.paint)
	w.stroke(m.s)
	w.put("/>\n")
}

// svg writes one command of a path.
func (s step) svg(w *svgWriter) {
	w.b = append(w.b, s.op)
	if s.op == 'Z' {
		return
	}
	if s.op == 'A' {
		flag := map[bool]string{false: "0 ", true: "1 "}
		r := num(s.r)
		w.put(r, " ", r, " 0 ", flag[s.large], flag[s.sweep])
	}
	w.b = appendNum(w.b, s.to.X)
	w.b = append(w.b, ' ')
	w.b = appendNum(w.b, s.to.Y)
}

func (m text) svg(w *svgWriter) {
	w.put("<text")
	w.length("x", m.at.X)
	w.length("y", m.at.Y)
	w.length("font-size", m.size)
	if m.end != start {
		w.put([...]string{"", ` text-anchor="middle"`, ` text-anchor="end"`}[m.end])
	}
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
	w.put(">")
	w.escape(m.s)
	w.put("</text>\n")
}

func (m group) svg(w *svgWriter) {
	tag := "g"
	if m.href != "" && !w.alone {
		tag = "a"
	}
	w.put("<", tag)
	w.attr("class", m.class)
	if tag == "a" {
		w.attr("href", m.href)
	}
	w.put(">")
	if m.title != "" {
		w.put("<title>")
		w.escape(m.title)
		w.put("</title>")
	}
	w.put("\n")
	for _, sub := range m.marks {
		sub.svg(w)
	}
	w.put("</", tag, ">\n")
}
