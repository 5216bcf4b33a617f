package figure

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"caseleaf/content/measure"
)

// generated makes one of the figures from a seed, with labels and numbers of every length.
func generated(seed uint64) Figure {
	r := rand.New(rand.NewPCG(seed, 11))
	switch seed % 16 {
	case 0:
		return generatedForest(r, ForestScale(r.IntN(3)))
	case 1:
		return generatedDelays(r)
	case 2:
		return generatedTree(r)
	case 3:
		return generatedFace(r)
	case 4:
		return generatedOnset(r)
	case 5:
		return generatedFunnel(r)
	case 6:
		return generatedChains(r)
	case 7:
		return generatedSection(r)
	case 8:
		return generatedTornado(r)
	case 9:
		return generatedCusum(r)
	case 10:
		return generatedAcuity(r)
	case 11:
		return generatedMap(r)
	case 12:
		return generatedDelayGroups(r)
	}
	return generatedStrip(seed, 3+int(seed*7%58), 2+int(seed*13%119))
}

var generatedWords = strings.Fields("iris capsule prolapse fluctuating chamber zonular wound leak i W pseudoexfoliation Descemet Überdruck posterior equator")

func words(r *rand.Rand, most int) string {
	out := generatedWords[r.IntN(len(generatedWords))]
	for range r.IntN(most) {
		out += " " + generatedWords[r.IntN(len(generatedWords))]
	}
	return out
}

func generatedForest(r *rand.Rand, s ForestScale) Figure {
	f := Forest{Words: english, IDPrefix: "f", Title: "Generated", Scale: s, Method: words(r, 6)}
	for range 1 + r.IntN(14) {
		if r.IntN(5) == 0 {
			f.Rows = append(f.Rows, ForestRow{Heading: words(r, 14)})
		}
		n := 1 + r.IntN(2000)
		row := ForestRow{Label: words(r, 9), Events: r.IntN(n), Operations: n, Hidden: r.IntN(8) == 0}
		row.Low = r.Float64() * 0.4
		row.Value = row.Low + r.Float64()*0.3
		row.High = row.Value + r.Float64()*0.3
		if s == Ratios && r.IntN(4) == 0 {
			row.Value, row.High = math.Inf(1), math.Inf(1)
		}
		f.Rows = append(f.Rows, row)
	}
	return f
}

func generatedDelays(r *rand.Rand) Figure {
	v := Delays{Words: english, IDPrefix: "d", Title: "Generated"}
	for range 1 + r.IntN(20) {
		row := DelayRow{Label: words(r, 10)}
		a, b := measure.Duration(r.IntN(1+r.IntN(900))), measure.Duration(r.IntN(1+r.IntN(300)))
		if r.IntN(3) > 0 {
			row.Unseen = &a
		}
		if r.IntN(3) > 0 {
			row.Until = &b
		}
		v.Rows = append(v.Rows, row)
	}
	return v
}

func generatedDelayGroups(r *rand.Rand) Figure {
	v := DelayGroups{Words: english, IDPrefix: "g", Title: "Generated"}
	spread := func(most int) DelaySpread {
		q := []int{r.IntN(1 + most), r.IntN(1 + most), r.IntN(1 + most)}
		slices.Sort(q)
		return DelaySpread{r.IntN(12), measure.Duration(q[1]), measure.Duration(q[0]), measure.Duration(q[2])}
	}
	for range 1 + r.IntN(20) {
		v.Rows = append(v.Rows, DelayGroup{words(r, 10), "", 12 + r.IntN(2000), spread(r.IntN(900)), spread(r.IntN(300))})
	}
	return v
}

func generatedTree(r *rand.Rand) Figure {
	left := 40
	var grow func(depth int) *TreeNode
	grow = func(depth int) *TreeNode {
		if depth == 0 || left <= 1 || r.IntN(4) == 0 {
			left--
			return &TreeNode{Kind: EndNode, Worth: fmt.Sprint(r.IntN(101)), Label: words(r, 6)}
		}
		n := &TreeNode{Kind: TreeKind(r.IntN(2)), Worth: fmt.Sprint(r.IntN(101))}
		for range 2 + r.IntN(3) {
			n.Branches = append(n.Branches, TreeBranch{Label: words(r, 8), Probability: "0.25", Count: "1 of 4 cases",
				Preferred: r.IntN(2) == 0, To: grow(depth - 1)})
		}
		return n
	}
	return Tree{Words: english, IDPrefix: "t", Title: "Generated", Root: &TreeNode{Branches: []TreeBranch{
		{Label: words(r, 3), To: grow(1 + r.IntN(5))}, {Label: words(r, 3), Preferred: true, To: grow(1 + r.IntN(3))}}}}
}

func generatedFace(r *rand.Rand) Figure {
	hour := func() measure.ClockHour { return measure.ClockHour(float64(1+r.IntN(24)) / 2) }
	c := ClockFace{Words: english, IDPrefix: "c", Title: "Generated", Eye: measure.Eye(r.IntN(3)), Seat: measure.Seat(r.IntN(3)), SurgeonView: r.IntN(4) == 0}
	for range 1 + r.IntN(5) {
		m := FaceMoment{Label: words(r, 8), WhiteToWhite: measure.Length(10 + r.Float64()*3), Pupil: measure.Length(r.Float64() * 9),
			Opening: measure.Length(r.Float64() * 7), Offset: measure.Length(r.Float64()), Towards: hour(), Optic: 6}
		for range r.IntN(5) {
			m.Incisions = append(m.Incisions, FaceIncision{words(r, 5), hour(), measure.Length(r.Float64() * 7)})
		}
		for range r.IntN(4) {
			m.Arcs = append(m.Arcs, FaceArc{words(r, 4), []measure.Arc{{From: hour(), To: hour()}, {Whole: r.IntN(5) == 0, From: hour(), To: hour()}}, r.IntN(3) == 0})
		}
		c.Moments = append(c.Moments, m)
	}
	return c
}

func generatedOnset(r *rand.Rand) Figure {
	o := Onset{Words: english, IDPrefix: "o", Title: "Generated", Cases: 40}
	n := 1 + r.IntN(26)
	for range n {
		o.Steps = append(o.Steps, words(r, 6))
	}
	for range 1 + r.IntN(16) {
		row := OnsetRow{Label: words(r, 7), Unknown: r.IntN(2)}
		for range n {
			row.Counts = append(row.Counts, max(0, r.IntN(130)-70))
		}
		o.Rows = append(o.Rows, row)
	}
	return o
}

func generatedFunnel(r *rand.Rand) Figure {
	f := Funnel{Words: english, IDPrefix: "u", Title: "Generated", Target: r.Float64() * 0.1}
	for i := range 1 + r.IntN(40) {
		n := 1 + r.IntN(900)
		u := FunnelUnit{Label: fmt.Sprintf("Unit %d %s", i, words(r, 2)), Operations: n, Events: r.IntN(1 + n/10)}
		if r.IntN(6) == 0 {
			u.Outside = "95 %"
		}
		f.Units = append(f.Units, u)
	}
	return f
}

func generatedChains(r *rand.Rand) Figure {
	c := Chains{Words: english, IDPrefix: "h", Title: "Generated"}
	for range 1 + r.IntN(50) {
		p := ChainPath{Count: 1, Links: []ChainLink{{Label: "first event"}}}
		for i := range r.IntN(5) {
			p.Links = append(p.Links, ChainLink{Kind: ChainKind(i % 3), Label: generatedWords[r.IntN(4)]})
		}
		c.Paths = append(c.Paths, p)
	}
	return c
}

func generatedSection(r *rand.Rand) Figure {
	s := Section{Words: english, IDPrefix: "x", Title: "Generated", Depth: measure.Length(1 + r.Float64()*4), Lens: measure.Length(3 + r.Float64()*3),
		WhiteToWhite: measure.Length(9 + r.Float64()*4), Pupil: measure.Length(r.Float64() * 9)}
	for range r.IntN(4) {
		s.Tools = append(s.Tools, SectionTool{Label: words(r, 6), FromEndothelium: mm(math.Round(r.Float64()*50) / 10)})
	}
	return s
}

func generatedTornado(r *rand.Rand) Figure {
	t := Tornado{Words: english, IDPrefix: "n", Title: "Generated", Option: words(r, 3), Other: words(r, 3), Base: r.Float64()*20 - 10}
	for range 1 + r.IntN(12) {
		row := TornadoRow{Label: words(r, 8), Low: "0.1", High: "0.95", AtLow: r.Float64()*60 - 30, AtHigh: r.Float64()*60 - 30}
		if r.IntN(2) == 0 {
			row.Threshold = "changes at 0.314"
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func generatedCusum(r *rand.Rand) Figure {
	c := Cusum{Words: english, IDPrefix: "q", Title: "Generated", Limit: 1 + r.Float64()*4}
	if r.IntN(2) == 0 {
		c.Tested = words(r, 9)
	}
	score := 0.0
	for i := range 1 + r.IntN(1500) {
		score = math.Max(0, score-0.01)
		if r.IntN(30) == 0 {
			score += 0.7
			c.Events = append(c.Events, i+1)
		}
		c.Scores = append(c.Scores, score)
		if score >= c.Limit {
			c.Signals = append(c.Signals, i+1)
			score = 0
		}
	}
	return c
}

func generatedAcuity(r *rand.Rand) Figure {
	written := []string{"6/6", "6/7.5", "6/9", "6/12", "6/18", "6/24", "6/36", "6/60", "3/60", "CF", "CF 1 m", "HM", "LP", "NLP"}
	c := AcuityChange{Words: english, IDPrefix: "y", Title: "Generated", Unknown: r.IntN(3)}
	for i := range 1 + r.IntN(90) {
		before, err1 := measure.ParseAcuity(written[r.IntN(len(written))])
		after, err2 := measure.ParseAcuity(written[r.IntN(len(written))])
		if err1 != nil || err2 != nil {
			panic(fmt.Sprint(err1, err2))
		}
		c.Eyes = append(c.Eyes, AcuityPair{Label: fmt.Sprint(i), Before: before, After: after})
	}
	return c
}

func generatedMap(r *rand.Rand) Figure {
	m := ThresholdMap{Words: english, IDPrefix: "z", Title: "Generated", X: MapAxis{words(r, 12), 0, 1, r.Float64()},
		Y: MapAxis{words(r, 12), 20, 100, 20 + 80*r.Float64()}}
	for range 1 + r.IntN(5) {
		m.Options = append(m.Options, words(r, 8))
	}
	cuts, n := r.Float64()*20, len(m.Options)
	for row := range 41 {
		line := make([]int, 41)
		for col := range line {
			line[col] = int(float64(row)*r.Float64()*0.02+float64(col)*cuts/41) % n
		}
		m.Best = append(m.Best, line)
	}
	return m
}

// generatedCases is how many generated figures the layout tests draw, at two widths each.
const generatedCases = 200

// everyFigure lists the samples and the generated figures by name.
func everyFigure() map[string]Figure {
	all := map[string]Figure{}
	for group, list := range samples() {
		for i, f := range list {
			all[fmt.Sprintf("%s-%d", group, i)] = f
		}
	}
	for seed := range uint64(generatedCases) {
		all[fmt.Sprintf("generated-%d", seed)] = generated(seed)
	}
	return all
}

// TestLabelsKeepApart measures with the package's own table of widths: no text leaves the
// frame, no two texts overlap. The browser's measure is in TestInBrowser.
func TestLabelsKeepApart(t *testing.T) {
	for name, f := range everyFigure() {
		for _, width := range []Px{Wide, Narrow} {
			d := f.Draw(width)
			frame := Box{0, 0, d.Width, d.Height}
			texts := d.texts()
			for i, a := range texts {
				if !a.box().Within(frame) {
					t.Errorf("%s at %v: %q leaves the frame: %v in %v", name, width, a.s, a.box(), frame)
				}
				for _, b := range texts[i+1:] {
					if a.box().Overlaps(b.box()) {
						t.Errorf("%s at %v: %q overlaps %q: %v %v", name, width, a.s, b.s, a.box(), b.box())
					}
				}
			}
		}
	}
}

// TestWellFormed reads every drawing as XML, with each id once.
func TestWellFormed(t *testing.T) {
	for name, f := range everyFigure() {
		ids := map[string]bool{}
		for kind, b := range map[string][]byte{"page": SVG(f), "alone": Alone(f)} {
			dec := xml.NewDecoder(strings.NewReader(string(b)))
			for {
				tok, err := dec.Token()
				if err == io.EOF {
					break
				}
				if err != nil {
					t.Fatalf("%s %s: %v", name, kind, err)
				}
				el, ok := tok.(xml.StartElement)
				if !ok || kind == "alone" {
					continue
				}
				for _, a := range el.Attr {
					if a.Name.Local == "id" && ids[a.Value] {
						t.Errorf("%s: id %q twice", name, a.Value)
					} else if a.Name.Local == "id" {
						ids[a.Value] = true
					}
				}
			}
		}
	}
}

// TestTablesAreSquare checks that every row of a table has a cell for each header, and that
// every figure has something to say.
func TestTablesAreSquare(t *testing.T) {
	for name, f := range everyFigure() {
		table := f.Table()
		for i, row := range table.Rows {
			if len(row) != len(table.Headers) {
				t.Errorf("%s: row %d has %d cells under %d headers", name, i, len(row), len(table.Headers))
			}
		}
		if f.Caption() == "" {
			t.Errorf("%s has no caption", name)
		}
	}
}

// TestAloneNeedsNothing checks that a stand-alone file names no custom property, class or
// link of a page.
func TestAloneNeedsNothing(t *testing.T) {
	for name, f := range everyFigure() {
		for _, no := range []string{"var(--", "currentColor", "Canvas", "<a ", "url(", "<script", "<image"} {
			if strings.Contains(string(Alone(f)), no) {
				t.Errorf("%s alone holds %q", name, no)
			}
		}
	}
}

// TestSameBytes draws twice.
func TestSameBytes(t *testing.T) {
	for name, f := range everyFigure() {
		first, second := SVG(f), SVG(f)
		if string(first) != string(second) {
			t.Errorf("%s differs from one drawing to the next", name)
		}
	}
}

// TestChainsKeepOffWords holds the links of a strip to the gaps between its words.
func TestChainsKeepOffWords(t *testing.T) {
	strips, links := 0, 0
	for name, f := range everyFigure() {
		if _, ok := f.(Strip); !ok {
			continue
		}
		strips++
		for _, width := range []Px{Wide, Narrow} {
			d := f.Draw(width)
			texts := d.texts()
			for _, m := range d.marks {
				p, ok := m.(*path)
				if !ok || p.s != chainLine {
					continue
				}
				links++
				for i := 1; i < len(p.d); i++ {
					a, b := p.d[i-1].to, p.d[i].to
					line := Box{min(a.X, b.X) - 0.6, min(a.Y, b.Y) - 0.6, max(a.X, b.X) - min(a.X, b.X) + 1.2, max(a.Y, b.Y) - min(a.Y, b.Y) + 1.2}
					for _, text := range texts {
						if line.Overlaps(text.box()) {
							t.Errorf("%s at %v: a link crosses %q: %v to %v", name, width, text.s, a, b)
						}
					}
				}
			}
		}
	}
	if strips < 30 || links < 100 {
		t.Errorf("only %d strips with %d links were looked at", strips, links)
	}
}
