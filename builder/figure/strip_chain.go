package figure

// chainGutter is how far outside the axis a link may run where words leave it no other way.
const chainGutter Px = 8

// chains links each row to the one it follows.
func (l stripLayout) chains(rows []row) {
	byID := map[string]int{}
	for i := range rows {
		if rows[i].id != "" {
			byID[rows[i].id] = i
		}
	}
	var heads []Point // their tips, and where they come from
	for i := range rows {
		from, ok := byID[rows[i].follows]
		if rows[i].follows == "" || !ok || from >= i {
			continue
		}
		way := l.way(rows, from, i)
		n := len(way)
		l.d.polyline(chainLine, way...)
		heads = append(heads, way[n-2], way[n-1])
	}
	for i := 0; i < len(heads); i += 2 {
		arrowHead(l.d, heads[i], heads[i+1])
	}
}

// way finds a link's way from below one mark to another that keeps off all words: straight
// down below the first and across above the second, or the other way about, else by the edge
// of the drawing. Where words stand above the second mark it is reached from the side.
func (l stripLayout) way(rows []row, from, to int) []Point {
	a := Point{l.x.at(float64(rows[from].to)), rows[from].markY + markR + 2}
	tip := Point{l.x.at(float64(rows[to].from)), rows[to].markY - markR - 2}
	low := rows[from].y + rows[from].height + rowGap/2
	high := rows[to].y - rowGap/2
	if rows[to].side == above {
		high = rows[to].markY
		tip = Point{tip.X - markR - 2, high}
	}
	x := l.x.a - chainGutter
	for _, try := range []Px{a.X, tip.X, l.x.b + chainGutter} {
		if rows[to].side == above && try > tip.X-6 {
			continue
		}
		if free(rows[from:to+1], try, low, high) {
			x = try
			break
		}
	}
	return unbent([]Point{a, {a.X, low}, {x, low}, {x, high}, {tip.X, high}, tip})
}

// free reports whether an upright line keeps off the words of rows and the marks of those
// between the first and the last.
func free(rows []row, x, top, bottom Px) bool {
	const near = 3
	line := Box{x - near, top, 2 * near, bottom - top}
	for i := range rows {
		r := &rows[i]
		if line.Overlaps(r.textBox()) {
			return false
		}
		if i > 0 && i < len(rows)-1 && line.Overlaps(Box{r.x0, r.markY - markR, r.x1 - r.x0, 2 * markR}) {
			return false
		}
	}
	return true
}

// unbent drops points that a way only passes.
func unbent(way []Point) []Point {
	out := way[:1]
	for i := 1; i < len(way); i++ {
		if way[i] == out[len(out)-1] {
			continue
		}
		if n := len(out); n > 1 && (out[n-2].X == out[n-1].X && way[i].X == out[n-1].X || out[n-2].Y == out[n-1].Y && way[i].Y == out[n-1].Y) {
			out[n-1] = way[i]
			continue
		}
		out = append(out, way[i])
	}
	return out
}

// arrowHead draws a small filled head with its tip at the end of a line that is level or
// upright.
func arrowHead(d *Drawing, from, tip Point) {
	const long, half = 5, 2.6
	dx, dy := Px(0), Px(1)
	if from.Y == tip.Y {
		dx, dy = 1, 0
	}
	base := Point{tip.X - dx*long, tip.Y - dy*long}
	d.polygon(Soft, stroke{}, tip, Point{base.X - dy*half, base.Y + dx*half}, Point{base.X + dy*half, base.Y - dx*half})
}
