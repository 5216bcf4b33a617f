package figure

import (
	"math"

	"caseleaf/content/measure"
)

// Section is the front of the eye from the side, to scale: cornea, chamber, lens, and how
// far an instrument stands from the endothelium and from the posterior capsule.
type Section struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Cornea          measure.Length // central thickness
	Depth           measure.Length // chamber depth, from the endothelium
	Lens            measure.Length // thickness
	WhiteToWhite    measure.Length
	Pupil           measure.Length
	Tools           []SectionTool
}

// SectionTool is an instrument with its tip on the axis. Give either distance; the other is
// computed where depth and lens were measured. Both nil: the tip isn't drawn.
type SectionTool struct {
	Label           string
	FromEndothelium *measure.Length
	FromCapsule     *measure.Length // from the posterior capsule
}

// Standard values stand in for what a case doesn't give, and are named as such: cornea 534
// µm, lens 4.52 mm, means of a series of 28 709 cataract eyes; depth from the endothelium
// 2.5 mm, its mean of 3.02 less the cornea (trade reference).
const (
	standardCornea measure.Length = 0.534
	standardDepth  measure.Length = 2.5
	standardLens   measure.Length = 4.52
)

// lensDiameter is that of the drawn lens, from memory; the case never gives it.
const lensDiameter = 9.5

// eyeSizes are the sizes used, and which of them are standard.
type eyeSizes struct {
	cornea, depth, lens, wide, pupil              float64
	corneaStd, depthStd, lensStd, wideStd, pupStd bool
}

// sizes fills in standard values.
func (s Section) sizes() eyeSizes {
	pick := func(v, std measure.Length) (float64, bool) {
		if v > 0 {
			return float64(v), false
		}
		return float64(std), true
	}
	var e eyeSizes
	e.cornea, e.corneaStd = pick(s.Cornea, standardCornea)
	e.depth, e.depthStd = pick(s.Depth, standardDepth)
	e.lens, e.lensStd = pick(s.Lens, standardLens)
	e.wide, e.wideStd = pick(s.WhiteToWhite, standardWhiteToWhite)
	e.pupil, e.pupStd = pick(s.Pupil, 5)
	e.pupil = math.Min(e.pupil, e.wide-1)
	return e
}

// section draws at a scale.
type section struct {
	d    *Drawing
	e    eyeSizes
	mm   Px
	apex Point // front of the cornea on the axis
}

// at gives a place: mm to the right of the axis, mm below the front of the cornea.
func (v section) at(x, y float64) Point { return Point{v.apex.X + Px(x)*v.mm, v.apex.Y + Px(y)*v.mm} }

// Draw lays the section out with its words at the right.
func (s Section) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: s.IDPrefix, Title: s.Title}
	e := s.sizes()
	words := max(122, d.Width*0.4)
	mm := min(30, (d.Width-words-2*margin)/Px(e.wide+2.2))
	v := section{d, e, mm, Point{margin + Px(e.wide+1.2)/2*mm, 26}}
	v.eye()
	labels, tools := v.dimensions(s.Words), 0
	for i, t := range s.Tools {
		if depth, ok := t.depth(e); ok {
			v.tool(depth, i)
			labels = append(labels, sideLabel{depth, t.words(s, e), true})
			tools++
		}
	}
	bottom := v.at(0, e.cornea+e.depth+e.lens).Y + 24
	y := max(bottom, v.words(labels, d.Width-words, words-margin, bottom)) + 6
	d.Height = legend(d, s.keys(tools > 0), margin, y) + 4
	return d
}

// keys explains the lines, the instrument's where one is drawn.
func (s Section) keys(tools bool) []key {
	keys := []key{
		{say(s.Words, "draw-key-iris"), 18, func(d *Drawing, c Point) { d.line(Point{c.X - 9, c.Y}, Point{c.X + 9, c.Y}, stroke{Ink, 4, ""}) }},
		{say(s.Words, "draw-key-depths"), 9, func(d *Drawing, c Point) { dimension(d, Point{c.X, c.Y - 6}, Point{c.X, c.Y + 6}) }},
	}
	if tools {
		keys = append(keys, key{say(s.Words, "draw-key-tip"), 22, func(d *Drawing, c Point) {
			d.line(Point{c.X - 11, c.Y}, Point{c.X + 7, c.Y}, stroke{Accent, 3, ""})
			d.disc(Point{c.X + 7, c.Y}, 3.4, Ink, stroke{Paper, 1.2, ""})
		}})
	}
	return keys
}

// dimension draws an upright stretch with its ends marked.
func dimension(d *Drawing, a, b Point) {
	line := stroke{Soft, 1.2, ""}
	d.line(a, b, line)
	d.line(Point{a.X - 4, a.Y}, Point{a.X + 4, a.Y}, line)
	d.line(Point{b.X - 4, b.Y}, Point{b.X + 4, b.Y}, line)
}

// eye draws cornea, iris and lens.
func (v section) eye() {
	e := v.e
	limbus := e.cornea + e.depth // the iris plane; the cornea ends there
	v.dome(e.wide/2+0.55, limbus+0.15, 0, NoPaint)
	v.dome(e.wide/2, limbus, e.cornea, NoPaint)
	v.lens(limbus, e.lens)
	for _, sign := range []float64{-1, 1} {
		v.d.line(v.at(sign*(e.wide/2+0.55), limbus+0.15), v.at(sign*e.wide/2, limbus), stroke{Ink, 1.6, ""})
		v.d.line(v.at(sign*e.wide/2, limbus), v.at(sign*e.pupil/2, limbus-0.05), stroke{Ink, 4, ""})
	}
	v.d.line(v.at(0, -0.5), v.at(0, limbus+e.lens+0.5), gridLine)
}

// dome draws an arc over the axis from edge to edge: its top at the given depth.
func (v section) dome(half, edge, top float64, f Paint) {
	sagitta := edge - top
	r := Px((half*half+sagitta*sagitta)/(2*sagitta)) * v.mm
	v.d.add(&path{d: []step{{op: 'M', to: v.at(-half, edge)}, {op: 'A', to: v.at(half, edge), r: r, sweep: true, large: sagitta > half}},
		f: fill{f}, s: stroke{Ink, 1.6, ""}})
}

// lens draws two half ellipses that meet at the equator, two fifths of the way back.
func (v section) lens(front, thick float64) {
	half := math.Min(lensDiameter, v.e.wide-0.6) / 2
	equator := front + 0.4*thick
	const points = 64
	outline := make([]Point, points)
	for i := range outline {
		a := 2 * math.Pi * float64(i) / points
		depth := 0.6 * thick
		if math.Sin(a) < 0 {
			depth = 0.4 * thick
		}
		outline[i] = v.at(half*math.Cos(a), equator+depth*math.Sin(a))
	}
	v.d.polygon(Tint, inkLine, outline...)
}

// sideLabel is a label at the right with the depth it belongs to.
type sideLabel struct {
	depth float64
	words string
	tool  bool
}

// dimensionX is how far outside the cornea's edge the stretches are marked, in mm.
const dimensionX = 0.9

// dimensions marks the measured stretches beside the eye and names them at their middles.
func (v section) dimensions(w Words) []sideLabel {
	e := v.e
	named := func(what string, mm float64, standard bool) string {
		size := measure.Length(math.Round(mm*1000) / 1000).String()
		if standard {
			size = say(w, "draw-standard", size)
		}
		return say(w, what, size)
	}
	for _, part := range [][2]float64{{0, e.cornea}, {e.cornea, e.cornea + e.depth}, {e.cornea + e.depth, e.cornea + e.depth + e.lens}} {
		a, b := v.at(e.wide/2+dimensionX, part[0]), v.at(e.wide/2+dimensionX, part[1])
		dimension(v.d, a, b)
	}
	return []sideLabel{
		{e.cornea / 2, named("draw-cornea-is", e.cornea, e.corneaStd), false},
		{e.cornea + e.depth/2, named("draw-chamber-is", e.depth, e.depthStd), false},
		{e.cornea + e.depth + e.lens/2, named("draw-lens-is", e.lens, e.lensStd), false},
	}
}

// depth gives how far the tip lies below the front of the cornea.
func (t SectionTool) depth(e eyeSizes) (float64, bool) {
	switch {
	case t.FromEndothelium != nil:
		return e.cornea + float64(*t.FromEndothelium), true
	case t.FromCapsule != nil:
		return e.cornea + e.depth + e.lens - float64(*t.FromCapsule), true
	}
	return 0, false
}

// words tells the distances; one that rests on standard values isn't told.
func (t SectionTool) words(s Section, e eyeSizes) string {
	w, near, far := s.Words, "", ""
	whole := e.depth + e.lens
	measured := s.Depth > 0 && s.Lens > 0
	if t.FromEndothelium != nil {
		near = say(w, "draw-from-endothelium", t.FromEndothelium.String())
	} else if t.FromCapsule != nil && measured {
		near = say(w, "draw-from-endothelium-computed", millimetres(whole-float64(*t.FromCapsule)))
	}
	if t.FromCapsule != nil {
		far = say(w, "draw-from-capsule", t.FromCapsule.String())
	} else if t.FromEndothelium != nil && measured {
		far = say(w, "draw-from-capsule-computed", millimetres(whole-float64(*t.FromEndothelium)))
	}
	switch {
	case near == "" && far == "":
		return t.Label
	case near != "" && far != "":
		near = say(w, "draw-joined", near, far)
	case near == "":
		near = far
	}
	return say(w, "draw-named", t.Label, near)
}

// front gives how far the front of the cornea lies below its apex, off the axis.
func (v section) front(x float64) float64 {
	half, sagitta := v.e.wide/2+0.55, v.e.cornea+v.e.depth+0.15
	r := (half*half + sagitta*sagitta) / (2 * sagitta)
	return r - math.Sqrt(math.Max(0, r*r-x*x))
}

// tool draws a shaft through the peripheral cornea to the tip; tools come from alternate
// sides.
func (v section) tool(depth float64, i int) {
	side := float64(1 - 2*(i%2))
	x := 0.42 * v.e.wide
	entry, tip := v.at(-side*x, v.front(x)), v.at(0, depth)
	const outside = 0.2 // of the shaft drawn before it enters the cornea
	from := Point{entry.X - outside*(tip.X-entry.X), entry.Y - outside*(tip.Y-entry.Y)}
	v.d.line(from, tip, stroke{Accent, 3, ""})
	v.d.disc(tip, 3.4, Ink, stroke{Paper, 1, ""})
}

// words writes the labels at the right, moved apart, each with a line to its depth, and
// gives the lower edge.
func (v section) words(labels []sideLabel, x, w, bottom Px) Px {
	sortLabels(labels)
	lines := make([][]string, len(labels))
	wants, heights := make([]Px, len(labels)), make([]Px, len(labels))
	for i, l := range labels {
		lines[i] = wrap(l.words, smallSize, w-8, 6)
		wants[i], heights[i] = v.at(0, l.depth).Y, Px(len(lines[i]))*lineHeight+6
	}
	mids := spread(wants, heights, 2, bottom)
	for i, l := range labels {
		from := v.at(v.e.wide/2+dimensionX, l.depth)
		if l.tool {
			from = v.at(0.25, l.depth)
		}
		v.d.polyline(stroke{Faint, 1.2, ""}, from, Point{x - 14, from.Y}, Point{x - 4, mids[i]})
		first := mids[i] - Px(len(lines[i]))*lineHeight/2 + textSize
		v.d.sayBlock(Point{x, first}, lines[i], smallSize, start, Ink, false)
		bottom = max(bottom, mids[i]+heights[i]/2)
	}
	return bottom
}

// sortLabels orders by depth, ties as given.
func sortLabels(labels []sideLabel) {
	for i := 1; i < len(labels); i++ {
		for j := i; j > 0 && labels[j].depth < labels[j-1].depth; j-- {
			labels[j], labels[j-1] = labels[j-1], labels[j]
		}
	}
}

// Caption says what is drawn and which values are standard ones.
func (s Section) Caption() string {
	out := sentence(s.Finding) + say(s.Words, "draw-section-caption")
	e := s.sizes()
	if e.corneaStd || e.depthStd || e.lensStd || e.wideStd {
		out += " " + say(s.Words, "draw-section-standard")
	}
	return out
}

// Table lists the measures and distances.
func (s Section) Table() Table {
	e := s.sizes()
	t := Table{Headers: heads(s.Words, "draw-what", "draw-head-measure", "draw-head-from")}
	from := map[bool]string{false: say(s.Words, "draw-from-case"), true: say(s.Words, "draw-standard-value")}
	for _, r := range []struct {
		what string
		mm   float64
		std  bool
	}{{"draw-cornea", e.cornea, e.corneaStd}, {"draw-chamber", e.depth, e.depthStd},
		{"draw-lens", e.lens, e.lensStd}, {"draw-white-to-white", e.wide, e.wideStd}} {
		t.Rows = append(t.Rows, []string{say(s.Words, r.what), measure.Length(r.mm).String(), from[r.std]})
	}
	for _, tool := range s.Tools {
		t.Rows = append(t.Rows, []string{tool.Label, tool.words(s, e), from[false]})
	}
	return t
}
