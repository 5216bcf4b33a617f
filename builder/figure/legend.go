package figure

// key is one item of a legend: how to draw the sign, and its words.
type key struct {
	words string
	width Px // of the sign
	draw  func(d *Drawing, c Point)
}

// legend writes the items in as many lines as they need from y down and gives the lower
// edge. Words too long for a line are wrapped, and the next item begins a new one.
func legend(d *Drawing, keys []key, margin, y Px) Px {
	if len(keys) == 0 {
		return y
	}
	x, line := margin, y
	for _, k := range keys {
		w := k.width + 6 + textWidth(k.words, smallSize)
		if x > margin && x+w > d.Width-margin {
			x, line = margin, line+lineHeight+3
		}
		k.draw(d, Point{x + k.width/2, line + lineHeight/2})
		for i, words := range wrap(k.words, smallSize, d.Width-2*margin-k.width-6, 4) {
			if i > 0 {
				line += lineHeight
			}
			d.say(Point{x + k.width + 6, line + lineHeight/2 + 4}, words, smallSize, start, Soft)
		}
		x += w + 16
	}
	return line + lineHeight + 3
}

// stripLegend explains the marks that occur.
func stripLegend(w Words, entries []entry) []key {
	var has [decisionEntry + 1]bool
	began, acted := false, false
	for _, e := range entries {
		has[e.kind] = true
		began = began || e.began != nil
		acted = acted || e.acted != nil
	}
	var keys []key
	add := func(ok bool, words string, width Px, draw func(*Drawing, Point)) {
		if ok {
			keys = append(keys, key{say(w, words), width, draw})
		}
	}
	add(has[stepEntry], "draw-kind-step", 18, func(d *Drawing, c Point) {
		d.rect(Box{c.X - 9, c.Y - 4, 18, 8}, Tint, stroke{Ink, 1.2, ""})
	})
	add(began, "draw-key-began", 24, func(d *Drawing, c Point) {
		d.line(c, Point{c.X + 12, c.Y}, unseen)
		d.disc(Point{c.X - 6, c.Y}, markR-1.2, Paper, inkLine)
	})
	add(has[eventEntry], "draw-key-noticed", 10, func(d *Drawing, c Point) { d.disc(c, markR-0.8, Ink, stroke{}) })
	add(acted, "draw-key-acted", 22, func(d *Drawing, c Point) {
		d.line(Point{c.X - 11, c.Y}, Point{c.X + 8, c.Y}, boldLine)
		d.line(Point{c.X + 9, c.Y - 6}, Point{c.X + 9, c.Y + 6}, stroke{Ink, 2.4, ""})
	})
	add(has[presentEntry], "draw-key-present", 11, func(d *Drawing, c Point) { triangle(d, c, true) })
	add(has[absentEntry], "draw-key-absent", 11, func(d *Drawing, c Point) { triangle(d, c, false) })
	add(has[decisionEntry], "draw-key-decision", 13, diamond)
	return keys
}
