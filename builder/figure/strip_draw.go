package figure

import "caseleaf/content/measure"

// stripLayout draws blocks of rows over one time axis each.
type stripLayout struct {
	d      *Drawing
	w      Words
	margin Px
	x      scale
}

// Strokes of the strip.
var (
	inkLine   = stroke{paint: Ink, width: 1.2}
	boldLine  = stroke{paint: Accent, width: 3}
	gridLine  = stroke{paint: Faint, width: 0.6, dash: "1 3"}
	axisLine  = stroke{paint: Faint, width: 1.2}
	unseen    = stroke{paint: Accent, width: 1.6, dash: "3 2"}
	chainLine = stroke{paint: Soft, width: 1.2}
)

// block draws the axis and the rows of entries from y down, and gives the lower edge.
func (l stripLayout) block(entries []entry, y Px) Px {
	top := y + lineHeight + 4
	rows := make([]row, len(entries))
	at := top + rowGap
	for i, e := range entries {
		rows[i] = placeRow(e, l.x, at)
		at += rows[i].height + rowGap
	}
	tall := at-top > 420
	l.axis(y+textSize, top, at, true)
	if tall {
		l.axis(at+lineHeight, at, at, false)
	}
	l.chains(rows)
	for i := range rows {
		l.row(&rows[i])
	}
	if tall {
		at += lineHeight + 4
	}
	return at
}

// axis writes the times on a baseline and, from top to bottom, the faint lines of the grid.
func (l stripLayout) axis(baseline, top, bottom Px, grid bool) {
	y := top
	l.d.line(Point{l.x.a, y}, Point{l.x.b, y}, axisLine)
	var lines []Point
	for _, t := range timeTicks(l.x, 60) {
		x := l.x.at(float64(t))
		label := t.String()
		half := textWidth(label, smallSize) / 2
		l.d.say(Point{max(half+1, min(x, l.d.Width-half-1)), baseline}, label, smallSize, middle, Soft)
		lines = append(lines, Point{x, top}, Point{x, bottom})
	}
	if grid {
		l.d.lines(gridLine, lines...)
	}
}

// row draws one entry inside a link to its row of the table.
func (l stripLayout) row(r *row) {
	l.d.open("figure-"+r.kind.String(), r.href, "")
	switch r.kind {
	case stepEntry:
		l.bar(r)
	case eventEntry:
		l.event(r)
	case decisionEntry:
		diamond(l.d, Point{l.x.at(float64(r.at)), r.markY})
	default:
		triangle(l.d, Point{l.x.at(float64(r.at)), r.markY}, r.kind == presentEntry)
	}
	r.words(l.d)
	l.d.close()
}

// bar draws a step; an unknown end is an open bar.
func (l stripLayout) bar(r *row) {
	if r.to > r.from {
		l.d.rect(Box{r.x0, r.markY - barH/2, max(r.x1-r.x0, 1.5), barH}, Tint, stroke{Ink, 1.2, ""})
		return
	}
	x := l.x.at(float64(r.at))
	l.d.polyline(inkLine, Point{x + markR, r.markY - barH/2}, Point{x, r.markY - barH/2},
		Point{x, r.markY + barH/2}, Point{x + markR, r.markY + barH/2})
}

// event draws the three moments and the delays between them: dashed while unseen, solid
// until acted on.
func (l stripLayout) event(r *row) {
	place := func(t *measure.Time) Point { return Point{l.x.at(float64(*t)), r.markY} }
	seen := &r.at
	if r.noticed != nil {
		seen = r.noticed
	}
	if r.began != nil {
		l.d.line(place(r.began), place(seen), unseen)
		l.d.disc(place(r.began), markR-1.2, Paper, inkLine)
	}
	if r.acted != nil {
		p := place(r.acted)
		l.d.line(place(seen), p, boldLine)
		l.d.line(Point{p.X, p.Y - markR - 1}, Point{p.X, p.Y + markR + 1}, stroke{Ink, 2.4, ""})
	}
	l.d.disc(place(seen), markR-0.8, Ink, stroke{})
}

// diamond draws a decision point.
func diamond(d *Drawing, c Point) {
	const r = markR + 1
	d.polygon(Paper, stroke{Ink, 1.6, ""}, Point{c.X, c.Y - r}, Point{c.X + r, c.Y}, Point{c.X, c.Y + r}, Point{c.X - r, c.Y})
}

// triangle draws a finding, filled where it was present.
func triangle(d *Drawing, c Point, present bool) {
	f := Paper
	if present {
		f = Ink
	}
	d.polygon(f, stroke{Ink, 1.2, ""}, Point{c.X, c.Y - markR}, Point{c.X + markR, c.Y + markR - 1},
		Point{c.X - markR, c.Y + markR - 1})
}
