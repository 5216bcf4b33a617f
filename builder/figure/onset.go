package figure

import "strconv"

// Onset maps in which step each complication began, as counts from cases. Cases are chosen,
// so these are counts and never rates.
type Onset struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Cases           int      // cases looked at
	Steps           []string // in the order of the operation
	Rows            []OnsetRow
}

// OnsetRow is one complication with its counts by step; Unknown counts those whose step
// nobody knows.
type OnsetRow struct {
	Label   string
	Counts  []int // as long as Steps
	Unknown int
	Href    string
}

const (
	minCell Px = 22
	maxCell Px = 40
	cellH   Px = 22
)

// columns gives the indices of the steps in which anything began; a map with empty columns
// would be all gaps on a phone.
func (o Onset) columns() []int {
	var out []int
	for i := range o.Steps {
		for _, r := range o.Rows {
			if i < len(r.Counts) && r.Counts[i] > 0 {
				out = append(out, i)
				break
			}
		}
	}
	return out
}

// most gives the largest count, at least 1.
func (o Onset) most() int {
	m := 1
	for _, r := range o.Rows {
		for _, c := range r.Counts {
			m = max(m, c)
		}
	}
	return m
}

// Draw lays the map out: columns by number, with a key below; where they don't fit side by
// side they go on in a second block.
func (o Onset) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: o.IDPrefix, Title: o.Title}
	cols := o.columns()
	labelW := Px(0)
	if d.Width >= stacked {
		for _, r := range o.Rows {
			labelW = max(labelW, textWidth(r.Label, textSize)+12)
		}
		labelW = min(labelW, d.Width*0.42)
	}
	room := d.Width - 2*margin - labelW
	perBlock := max(1, int(room/minCell))
	y := Px(4)
	for first := 0; first < len(cols); first += perBlock {
		block := cols[first:min(first+perBlock, len(cols))]
		y = o.block(d, block, first, labelW, min(maxCell, room/Px(len(block))), y) + 8
	}
	d.Height = o.key(d, cols, y) + 4
	return d
}

// block draws some columns for all rows.
func (o Onset) block(d *Drawing, cols []int, first int, labelW, cell, y Px) Px {
	x := margin + labelW
	for i := range cols {
		d.say(Point{x + (Px(i)+0.5)*cell, y + textSize}, strconv.Itoa(first+i+1), smallSize, middle, Soft)
	}
	y += lineHeight + 3
	for _, r := range o.Rows {
		d.open("figure-onset", r.Href, "")
		var lines []string
		if labelW > 0 {
			lines = wrap(r.Label, textSize, labelW-12, 3)
		} else {
			lines = wrap(r.Label, textSize, d.Width-2*margin, 3)
			d.sayBlock(Point{margin, y + textSize}, lines, textSize, start, Ink, false)
			y += Px(len(lines))*lineHeight + 1
		}
		h := cellH
		if labelW > 0 {
			h = max(h, Px(len(lines))*lineHeight+4)
			d.sayBlock(Point{margin, y + h/2 - Px(len(lines)-1)*lineHeight/2 + 4}, lines, textSize, start, Ink, false)
		}
		var dots []Point
		for i, c := range cols {
			b := Box{x + Px(i)*cell, y, cell, h}
			if r.count(c) == 0 {
				mid := Point{b.X + b.W/2, b.Y + b.H/2}
				dots = append(dots, Point{mid.X - 1, mid.Y}, Point{mid.X + 1, mid.Y})
				continue
			}
			o.cell(d, b, r.count(c))
		}
		d.lines(stroke{Faint, 2, ""}, dots...)
		y += h + 2
		d.close()
	}
	return y
}

// count gives a count, or 0 beyond the list.
func (r OnsetRow) count(i int) int {
	if i < len(r.Counts) {
		return r.Counts[i]
	}
	return 0
}

// cell draws one count: its number, and a bar from below by its share of the largest.
func (o Onset) cell(d *Drawing, b Box, n int) {
	in := Box{b.X + 1, b.Y, b.W - 2, b.H}
	h := max(3, in.H*Px(n)/Px(o.most()))
	d.rect(Box{in.X, in.Bottom() - h, in.W, h}, Tint, stroke{})
	d.rect(in, NoPaint, stroke{Ink, 0.8, ""})
	d.say(Point{b.X + b.W/2, b.Y + b.H/2 + 4}, strconv.Itoa(n), smallSize, middle, Ink)
}

// key writes the names of the columns, in one or two columns of text.
func (o Onset) key(d *Drawing, cols []int, y Px) Px {
	columns := 1
	if d.Width >= stacked {
		columns = 2
	}
	w := (d.Width - 2*margin) / Px(columns)
	half := (len(cols) + columns - 1) / columns
	bottom := y
	for c := range columns {
		at := y
		for i := c * half; i < min((c+1)*half, len(cols)); i++ {
			lines := wrap(o.Steps[cols[i]], smallSize, w-34, 2)
			d.say(Point{margin + Px(c)*w + 18, at + textSize}, strconv.Itoa(i+1), smallSize, end, Soft)
			d.sayBlock(Point{margin + Px(c)*w + 26, at + textSize}, lines, smallSize, start, Soft, false)
			at += Px(len(lines)) * lineHeight
		}
		bottom = max(bottom, at)
	}
	return bottom
}

// total counts what the map shows.
func (o Onset) total() (shown, unknown int) {
	for _, r := range o.Rows {
		for _, c := range r.Counts {
			shown += c
		}
		unknown += r.Unknown
	}
	return shown, unknown
}

// Caption says how many events of how many cases.
func (o Onset) Caption() string {
	shown, unknown := o.total()
	out := sentence(o.Finding) + say(o.Words, "draw-counts-caption", say(o.Words, "draw-n-events", shown+unknown), say(o.Words, "draw-n-cases", o.Cases))
	if unknown > 0 {
		out += " " + say(o.Words, "draw-step-unknown-for", unknown)
	}
	return out
}

// Table gives the counts.
func (o Onset) Table() Table {
	cols := o.columns()
	t := Table{Headers: heads(o.Words, "draw-head-complication")}
	for _, c := range cols {
		t.Headers = append(t.Headers, o.Steps[c])
	}
	t.Headers = append(t.Headers, say(o.Words, "draw-step-unknown"))
	for _, r := range o.Rows {
		row := []string{r.Label}
		for _, c := range cols {
			row = append(row, strconv.Itoa(r.count(c)))
		}
		t.Rows = append(t.Rows, append(row, strconv.Itoa(r.Unknown)))
	}
	return t
}
