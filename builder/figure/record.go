package figure

import (
	"fmt"
	"strings"
)

// recorder writes marks as short lines for people and tests: what stands where, without the
// ways of SVG.
type recorder struct {
	strings.Builder
	depth int
}

// Record lists the marks of a drawing, one a line, rounded to whole units, so that a change
// of a figure can be read.
func (d *Drawing) Record() string {
	w := &recorder{}
	w.put("drawing %.0f x %.0f %q", d.Width, d.Height, d.Title)
	for _, m := range d.marks {
		m.record(w)
	}
	return w.String()
}

// put writes one line at the depth of its group.
func (w *recorder) put(format string, args ...any) {
	w.WriteString(strings.Repeat("  ", w.depth))
	fmt.Fprintf(w, format, args...)
	w.WriteByte('\n')
}

// names of the paints in a record.
var paintNames = [...]string{"none", "ink", "soft", "faint", "accent", "tint", "paper"}

// look tells fill and stroke in short.
func look(f fill, s stroke) string {
	out := ""
	if f.paint != NoPaint {
		out += " filled " + paintNames[f.paint]
	}
	if s.paint != NoPaint && s.width > 0 {
		out += " drawn " + paintNames[s.paint]
	}
	if s.dash != "" {
		out += " dashed"
	}
	return out
}

func (m *segment) record(w *recorder) {
	w.put("line %.0f,%.0f to %.0f,%.0f%s", m.a.X, m.a.Y, m.b.X, m.b.Y, look(fill{}, m.s))
}

func (m *rect) record(w *recorder) {
	w.put("rect %.0f,%.0f size %.0f x %.0f%s", m.box.X, m.box.Y, m.box.W, m.box.H, look(m.f, m.s))
}

func (m *disc) record(w *recorder) {
	w.put("circle %.0f,%.0f radius %.0f%s", m.c.X, m.c.Y, m.r, look(m.f, m.s))
}

func (m *path) record(w *recorder) {
	var b strings.Builder
	for _, s := range m.d {
		if s.op == 'Z' {
			b.WriteString(" closed")
			continue
		}
		word := map[byte]string{'M': " from ", 'L': " to ", 'A': " arc to "}[s.op]
		fmt.Fprintf(&b, "%s%.0f,%.0f", word, s.to.X, s.to.Y)
	}
	w.put("path%s%s", b.String(), look(m.f, m.s))
}

func (m *text) record(w *recorder) {
	w.put("text %.0f,%.0f %s %q", m.at.X, m.at.Y, [...]string{"start", "middle", "end"}[m.end], m.s)
}

func (m *group) record(w *recorder) {
	head := "group " + m.class
	if m.href != "" {
		head += " to " + m.href
	}
	if m.title != "" {
		head += fmt.Sprintf(" %q", m.title)
	}
	w.put("%s", head)
	w.depth++
	for _, sub := range m.marks {
		sub.record(w)
	}
	w.depth--
}
