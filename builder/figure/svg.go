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
// to the element's class; a second drawing of the same figure is hidden until the page's
// style sheet shows it, and is named by the title and description of the first.
func (w *svgWriter) drawing(d *Drawing, class string, second bool) {
	w.put("<svg")
	w.attr("class", "figure-drawing "+class)
	w.frame(d)
	if second {
		w.put(` display="none"`)
	}
	role := "img"
	if d.linked() { // an image has no parts that can be reached
		role = "group"
	}
	w.names(d, role)
	if second {
		w.put(">")
	} else {
		w.title(d)
	}
	w.body(d)
}

// alone writes a file that needs nothing else: fixed colours on white, generic fonts.
func (d *Drawing) alone() []byte {
	return written(true, func(w *svgWriter) {
		w.put(xml.Header, `<svg xmlns="http://www.w3.org/2000/svg"`)
		w.frame(d)
		w.names(d, "img")
		w.put(` font-family="system-ui, sans-serif"`)
		w.fill(Ink)
		w.title(d)
		w.put(`<rect width="100%" height="100%" fill="#ffffff"/>`, "\n")
		w.body(d)
	})
}

// frame writes the size of a drawing.
func (w *svgWriter) frame(d *Drawing) {
	w.put(` viewBox="0 0 `)
	w.b = append(appendNum(append(appendNum(w.b, d.Width), ' '), d.Height), '"')
	w.length("width", d.Width)
	w.length("height", d.Height)
}

// names writes what names a drawing, and ends its opening tag without the bracket.
func (w *svgWriter) names(d *Drawing, role string) {
	w.attr("role", role)
	w.attr("aria-labelledby", d.IDPrefix+"-title "+d.IDPrefix+"-desc")
}

// title closes the opening tag and writes title and description.
func (w *svgWriter) title(d *Drawing) {
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
	w.marks(d.marks)
	w.put("</svg>\n")
}

// put appends texts as they are.
func (w *svgWriter) put(texts ...string) {
	for _, s := range texts {
		w.b = append(w.b, s...)
	}
}

// end closes a mark; files have one mark a line, to be read and compared.
func (w *svgWriter) end(s string) {
	w.put(s)
	if w.alone {
		w.put("\n")
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

// look writes how a shape is filled and drawn: by class on a page, by attributes in a file.
func (w *svgWriter) look(f Paint, s stroke) {
	if s.paint == NoPaint || s.width <= 0 {
		s = stroke{}
	}
	if w.alone {
		w.fill(f)
		w.stroke(s)
		return
	}
	if s == gridLine && f == NoPaint {
		w.put(` class="g"`)
		return
	}
	w.classes(paints[f].fill, paints[s.paint].line)
	if s.paint != NoPaint && s.width != pageWidth {
		w.length("stroke-width", s.width)
	}
	if s.dash != "" {
		w.put(` stroke-dasharray="`, s.dash, `"`)
	}
}

// classes writes the class attribute, unless all of them are empty.
func (w *svgWriter) classes(names ...string) {
	from := len(w.b)
	for _, name := range names {
		if name == "" {
			continue
		}
		if len(w.b) == from {
			w.put(` class="`, name)
			continue
		}
		w.put(" ", name)
	}
	if len(w.b) > from {
		w.put(`"`)
	}
}

// fill writes the paint of an area in a file.
func (w *svgWriter) fill(p Paint) {
	w.put(` fill="`, paints[p].alone, `"`)
	if o := paints[p].fillOpacity; o != "" {
		w.put(` fill-opacity="`, o, `"`)
	}
}

// stroke writes how a line is drawn in a file.
func (w *svgWriter) stroke(s stroke) {
	if s.paint == NoPaint {
		return
	}
	w.put(` stroke="`, paints[s.paint].alone, `"`)
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
