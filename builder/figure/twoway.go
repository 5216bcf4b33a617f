package figure

import "strconv"

// ThresholdMap shows which option comes out best for each pair of values of two numbers, the
// others as stated.
type ThresholdMap struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	X, Y            MapAxis
	Options         []string
	Best            [][]int // by row from the lowest Y, column from the lowest X: index of the option
}

// MapAxis is one of the two numbers; Base is its stated value.
type MapAxis struct {
	Label     string
	Low, High float64
	Base      float64
}

// Draw lays the map out.
func (m ThresholdMap) Draw(width Px) *Drawing {
	width = max(width, Narrow)
	d := &Drawing{Width: min(width, 520), IDPrefix: m.IDPrefix, Title: m.Title}
	p := newPlot(d, m.X.numbers(int(d.Width/80)), m.Y.numbers(5), 4, d.Width*0.62)
	m.cells(p)
	m.borders(p)
	m.base(p)
	m.names(p)
	keys := make([]key, 0, len(m.Options)+1)
	for i, o := range m.Options {
		keys = append(keys, key{strconv.Itoa(i+1) + " " + o, 18, func(d *Drawing, c Point) {
			texture(d, Box{c.X - 9, c.Y - 6, 18, 12}, i%textures, 1)
			d.rect(Box{c.X - 9, c.Y - 6, 18, 12}, NoPaint, stroke{Ink, 0.8, ""})
		}})
	}
	keys = append(keys, key{say(m.Words, "draw-as-stated"), 12, crossAt})
	d.Height = legend(d, keys, margin, d.Height+2) + 4
	return d
}

// numbers gives the axis of one number.
func (a MapAxis) numbers(n int) axisNumbers {
	return axisNumbers{a.Low, a.High, niceTicks(a.Low, a.High, n),
		decimal, a.Label}
}

// decimal writes a number in as many places as it has.
func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// cell gives the box of one cell.
func (m ThresholdMap) cell(p *plot, row, col int) Box {
	w := (p.x.b - p.x.a) / Px(len(m.Best[row]))
	h := (p.y.a - p.y.b) / Px(len(m.Best))
	return Box{p.x.a + Px(col)*w, p.y.a - Px(row+1)*h, w, h}
}

// cells fills each run of equal cells with the option's texture.
func (m ThresholdMap) cells(p *plot) {
	for row := range m.Best {
		for col := 0; col < len(m.Best[row]); {
			n := col
			for n < len(m.Best[row]) && m.Best[row][n] == m.Best[row][col] {
				n++
			}
			b := m.cell(p, row, col)
			b.W *= Px(n - col)
			if t := m.Best[row][col] % textures; t != strokes {
				texture(p.d, b, t, row)
			}
			col = n
		}
	}
	m.strokes(p)
}

// The textures by which options can be told apart in one colour.
const (
	plain = iota
	grey
	strokes
	dots
	textures
)

// strokes draws the upright strokes, each as long as its option goes on.
func (m ThresholdMap) strokes(p *plot) {
	var ends []Point
	for x := p.x.a + 3; x < p.x.b; x += 6 {
		open := false
		for row := range m.Best {
			n := len(m.Best[row])
			col := min(n-1, int(Px(n)*(x-p.x.a)/(p.x.b-p.x.a)))
			is := n > 0 && m.Best[row][col]%textures == strokes
			if b := m.cell(p, row, max(col, 0)); is != open {
				ends, open = append(ends, Point{x, b.Bottom()}), is
			}
		}
		if open {
			ends = append(ends, Point{x, p.y.b})
		}
	}
	p.d.lines(stroke{Faint, 1.2, ""}, ends...)
}

// texture fills a box.
func texture(d *Drawing, b Box, kind, row int) {
	var ends []Point
	switch kind {
	case grey:
		d.rect(b, Tint, stroke{})
	case strokes:
		for x := b.X + 3; x < b.Right(); x += 6 {
			ends = append(ends, Point{x, b.Y}, Point{x, b.Bottom()})
		}
	case dots:
		for x := b.X + 3 + Px(row%2)*4; x < b.Right(); x += 8 {
			ends = append(ends, Point{x, b.Y + b.H/2 - 1}, Point{x, b.Y + b.H/2 + 1})
		}
	}
	d.lines(stroke{Faint, Px(kind) - 1, ""}, ends...)
}

// borders draws a line wherever neighbouring cells differ.
func (m ThresholdMap) borders(p *plot) {
	var ends []Point
	line := func(a, b Point) { ends = append(ends, a, b) }
	for row := range m.Best {
		for col := range m.Best[row] {
			b := m.cell(p, row, col)
			if col+1 < len(m.Best[row]) && m.Best[row][col] != m.Best[row][col+1] {
				line(Point{b.Right(), b.Y}, Point{b.Right(), b.Bottom()})
			}
			if row+1 < len(m.Best) && col < len(m.Best[row+1]) && m.Best[row][col] != m.Best[row+1][col] {
				line(Point{b.X, b.Y}, Point{b.Right(), b.Y})
			}
		}
	}
	p.d.lines(inkLine, ends...)
}

// base marks the stated values.
func (m ThresholdMap) base(p *plot) {
	c := p.at(m.X.Base, m.Y.Base)
	crossAt(p.d, c)
	p.placer.block(Box{c.X - 8, c.Y - 8, 16, 16})
}

// crossAt draws an upright cross on a disc of paper.
func crossAt(d *Drawing, c Point) {
	d.disc(c, 6, Paper, stroke{Ink, 1.2, ""})
	d.line(Point{c.X - 6, c.Y}, Point{c.X + 6, c.Y}, stroke{Ink, 1.6, ""})
	d.line(Point{c.X, c.Y - 6}, Point{c.X, c.Y + 6}, stroke{Ink, 1.6, ""})
}

// names writes each option's number in the cell of its region that lies deepest inside.
func (m ThresholdMap) names(p *plot) {
	depths := m.depths()
	for option := range m.Options {
		deepest, at := -1, Point{}
		for row := range m.Best {
			for col, o := range m.Best[row] {
				if o != option || depths[row][col] <= deepest {
					continue
				}
				b := m.cell(p, row, col)
				c := Point{b.X + b.W/2, b.Y + b.H/2}
				if p.placer.free(Box{c.X - 9, c.Y - 9, 18, 18}) {
					deepest, at = depths[row][col], c
				}
			}
		}
		if deepest < 0 {
			continue
		}
		s := strconv.Itoa(option + 1)
		p.d.disc(at, 9, Paper, stroke{Ink, 0.8, ""})
		p.d.say(Point{at.X, at.Y + 4}, s, textSize, middle, Ink)
		p.placer.block(Box{at.X - 9, at.Y - 9, 18, 18})
	}
}

// depths gives for each cell how many cells its option goes on in the direction in which it
// goes on least.
func (m ThresholdMap) depths() [][]int {
	out := make([][]int, len(m.Best))
	for row, cells := range m.Best {
		out[row] = make([]int, len(cells))
		for col := range cells {
			out[row][col] = len(cells) + len(m.Best)
		}
	}
	for row, cells := range m.Best {
		across(len(cells), func(col int) (int, *int) { return cells[col], &out[row][col] })
	}
	if len(m.Best) == 0 {
		return out
	}
	for col := range m.Best[0] {
		height := 0
		for height < len(m.Best) && col < len(m.Best[height]) {
			height++
		}
		across(height, func(row int) (int, *int) { return m.Best[row][col], &out[row][col] })
	}
	return out
}

// across lowers the depths of one line of cells to the distance from either end of their run.
func across(n int, cell func(int) (option int, depth *int)) {
	for first := 0; first < n; {
		option, _ := cell(first)
		end := first
		for end < n {
			if o, _ := cell(end); o != option {
				break
			}
			end++
		}
		for i := first; i < end; i++ {
			_, depth := cell(i)
			*depth = min(*depth, i-first, end-1-i)
		}
		first = end
	}
}

// share gives the part of the map in which an option is best.
func (m ThresholdMap) share(option int) float64 {
	n, all := 0, 0
	for _, row := range m.Best {
		for _, o := range row {
			all++
			if o == option {
				n++
			}
		}
	}
	if all == 0 {
		return 0
	}
	return float64(n) / float64(all)
}

// Caption names the two numbers and their stated values.
func (m ThresholdMap) Caption() string {
	return sentence(m.Finding) + say(m.Words, "draw-map-caption", m.X.Label, decimal(m.X.Low), decimal(m.X.High), m.Y.Label, decimal(m.Y.Low), decimal(m.Y.High)) + " " +
		say(m.Words, "draw-not-advice")
}

// Table gives each option's share of the map; a share is no probability.
func (m ThresholdMap) Table() Table {
	t := Table{Headers: heads(m.Words, "draw-head-option", "draw-head-share"), Notes: heads(m.Words, "draw-share-note")}
	for i, o := range m.Options {
		t.Rows = append(t.Rows, []string{o, strconv.FormatFloat(m.share(i)*100, 'f', 0, 64) + " %"})
	}
	return t
}
