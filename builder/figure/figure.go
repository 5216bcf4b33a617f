package figure

import "io"

// Figure is a drawing that can be made at any width, with the words and numbers that a page
// prints beside it.
type Figure interface {
	// Draw lays the figure out at the given width. Widths under Narrow are drawn at Narrow.
	Draw(width Px) *Drawing
	// Caption says the finding and the denominator in one or two sentences.
	Caption() string
	// Table gives the same content as rows.
	Table() Table
}

// Table is a figure's content in words and numbers.
type Table struct {
	Headers []string
	Rows    [][]string // each as long as Headers
	Notes   []string   // footnotes: what a sign means, what was left out
}

// SVG writes a figure for a page: a wide and a narrow drawing, of which StyleSheet shows
// one. Title and description stand in the wide one, and name the narrow one too. Without the
// style sheet only the wide one is seen.
func SVG(f Figure) []byte {
	wide, narrow := f.Draw(Wide), f.Draw(Narrow)
	wide.Desc = f.Caption()
	return written(false, func(w *svgWriter) {
		w.drawing(wide, "figure-wide", false)
		w.drawing(narrow, "figure-narrow", true)
	})
}

// Single writes a figure for a page that is made to be printed: the wide drawing alone.
func Single(f Figure) []byte {
	d := f.Draw(Wide)
	return written(false, func(w *svgWriter) { w.drawing(d, "figure-paper", false) })
}

// Alone writes a figure as an SVG file for slides: the wide drawing, self-contained, on white.
func Alone(f Figure) []byte {
	d := f.Draw(Wide)
	d.Desc = f.Caption()
	return d.alone()
}

// Write writes SVG(f).
func Write(w io.Writer, f Figure) error {
	_, err := w.Write(SVG(f))
	return err
}
