package figure

// side is where the words of a row stand.
type side int

const (
	rightOf side = iota
	leftOf
	above
)

// row is a placed entry: the lines of its words, where they stand, and its height.
type row struct {
	entry
	y      Px // upper edge
	height Px
	markY  Px // middle of the mark
	x0, x1 Px // ends of the mark
	side   side
	lines  []string // of the label
	notes  []string // of the note, in small text
	textX  Px
	// oneLine puts the note after the label, inline from the text's start.
	oneLine bool
	inline  Px
}

const (
	rowGap  Px = 7  // between rows
	markGap Px = 9  // from a mark to its words
	barH    Px = 10 // of a step
	markR   Px = 5  // half a mark
	noteGap Px = 12 // from a label to its note on the same line
)

// placeRow decides where the words of an entry stand: beside the mark where they fit on one
// line, else above it if neither side has room, else wrapped on the wider side.
func placeRow(e entry, x scale, y Px) row {
	r := row{entry: e, y: y}
	r.x0, r.x1 = x.at(x.clamp(float64(e.from))), x.at(x.clamp(float64(e.to)))
	if e.kind != stepEntry || r.x1-r.x0 < 2 {
		r.x0, r.x1 = r.x0-markR, r.x1+markR
	}
	label := e.at.String() + "  " + e.full
	note := e.note
	right, left := x.b-r.x1-markGap, r.x0-markGap-x.a
	r.inline = textWidth(label, textSize) + noteGap
	need := max(textWidth(label, textSize), textWidth(note, smallSize))
	room := max(left, right)
	switch {
	case note != "" && r.inline+textWidth(note, smallSize) <= right:
		r.side, r.oneLine = rightOf, true
	case need <= right:
		r.side = rightOf
	case need <= left:
		r.side = leftOf
	case room < (x.b-x.a)*2/5:
		r.side, room = above, x.b-x.a
	case left > right:
		r.side = leftOf
	}
	r.lines = wrap(label, textSize, room, 4)
	if note != "" {
		r.notes = wrap(note, smallSize, room, 3)
	}
	r.finish(x)
	return r
}

// finish sets the heights and the text's place from the chosen side.
func (r *row) finish(x scale) {
	n := Px(len(r.lines))
	if !r.oneLine {
		n += Px(len(r.notes))
	}
	words := n * lineHeight
	switch r.side {
	case above:
		width := max(widest(r.lines, textSize), widest(r.notes, smallSize))
		r.textX = max(x.a, min(r.x0, x.b-width))
		r.height = words + 2*markR + 4
		r.markY = r.y + words + markR + 3
	default:
		r.height = max(words, 2*markR+4)
		r.markY = r.y + lineHeight/2 + 1
		r.textX = r.x1 + markGap
		if r.side == leftOf {
			r.textX = r.x0 - markGap
		}
	}
}

// words writes the lines of a row.
func (r *row) words(d *Drawing) {
	at, e := Point{r.textX, r.y + textSize}, start
	if r.side == leftOf {
		e = end
	}
	d.sayLines(at, r.lines, textSize, e, Ink)
	if r.oneLine {
		at.X += r.inline
	} else {
		at.Y += Px(len(r.lines)) * lineHeight
	}
	d.sayLines(at, r.notes, smallSize, e, Soft)
}

// textBox gives the area that the words of a row may cover.
func (r *row) textBox() Box {
	w := max(widest(r.lines, textSize), widest(r.notes, smallSize))
	n := len(r.lines)
	if r.oneLine && len(r.notes) > 0 {
		w = max(w, r.inline+widest(r.notes, smallSize))
	} else {
		n += len(r.notes)
	}
	x := r.textX
	if r.side == leftOf {
		x -= w
	}
	return Box{x, r.y, w, Px(n) * lineHeight}
}
