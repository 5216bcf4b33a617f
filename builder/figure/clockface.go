package figure

import (
	"math"
	"strconv"

	"caseleaf/content/measure"
)

// ClockFace draws the front of the eye to scale, at one moment or at several side by side.
// The eye is drawn as the surgeon sees it from the given seat; with an unknown seat, as an
// observer in front of the patient does, 12 o'clock at the top.
type ClockFace struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Eye             measure.Eye
	Seat            measure.Seat
	// SurgeonView is set where clock hours were counted in the surgeon's view and nobody told
	// the seat: the eye then stands as the hours were told, with the surgeon at 6, and which
	// side is temporal is not known.
	SurgeonView bool
	Moments     []FaceMoment
}

// FaceMoment is the eye at one moment. Lengths of 0 are not known and not drawn; only the
// cornea has a standard value in its place, which the key then says.
type FaceMoment struct {
	Label        string // "3:05 iris prolapse"
	WhiteToWhite measure.Length
	Pupil        measure.Length
	Opening      measure.Length // capsulorhexis
	Offset       measure.Length // of the opening's centre from the optic's
	Towards      measure.ClockHour
	Optic        measure.Length
	Ring         measure.Length // capsular tension ring, compressed
	Incisions    []FaceIncision
	Arcs         []FaceArc
	Href         string
}

// FaceIncision is a wound at the edge of the cornea. Width 0 is not known.
type FaceIncision struct {
	Label string
	Place measure.ClockHour
	Width measure.Length
}

// FaceArc is what an event took of the circumference; where it spread, the extents in order
// of time, drawn one inside the other.
type FaceArc struct {
	Label   string
	Extents []measure.Arc
	Radial  bool // a tear of the rim: it runs outwards from the opening's edge
}

// standardWhiteToWhite is drawn where the case gives none: 11.7 mm, near the mean of 11.64
// (SD 0.46) in a series of 28 709 cataract eyes (trade reference).
const standardWhiteToWhite measure.Length = 11.7

// Draw lays the moments out in as many columns as there is room for.
func (c ClockFace) Draw(width Px) *Drawing {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: c.IDPrefix, Title: c.Title}
	if len(c.Moments) == 1 && d.Width >= stacked {
		f := newFace(c, c.Moments[0], Point{160, 152}, 112)
		f.first = true
		f.draw(d)
		d.Height = max(f.title(d, 320, 8, d.Width-328), f.at.Y+f.r+sideRoom+lineHeight)
		return d
	}
	columns := max(1, min(3, len(c.Moments), int(d.Width/215)))
	cell := (d.Width - 2*margin) / Px(columns)
	radius := min(112, cell/2-40)
	y := Px(4)
	for first := 0; first < len(c.Moments); first += columns {
		bottom := y
		for i, m := range c.Moments[first:min(first+columns, len(c.Moments))] {
			x := margin + Px(i)*cell
			f := newFace(c, m, Point{x + cell/2, y + radius + 38}, radius)
			f.first = first+i == 0
			f.draw(d)
			bottom = max(bottom, f.title(d, x+4, y+2*radius+sideRoom+54, cell-12))
		}
		y = bottom + 14
	}
	d.Height = y
	return d
}

// Caption says what is drawn and how the rim lies over the optic.
func (c ClockFace) Caption() string {
	out := sentence(c.Finding)
	switch {
	case c.SurgeonView && c.Eye == measure.UnknownEye:
		out += say(c.Words, "draw-face-surgeon")
	case c.SurgeonView:
		out += say(c.Words, "draw-face-surgeon-"+c.Eye.String())
	case c.Eye == measure.UnknownEye:
		out += say(c.Words, "draw-face-no-eye")
	case c.Seat == measure.UnknownSeat:
		out += say(c.Words, "draw-face-"+c.Eye.String())
	default:
		out += say(c.Words, "draw-face-"+c.Eye.String()+"-"+c.Seat.String())
	}
	for _, m := range c.Moments {
		if s := m.overlapWords(c.Words); s != "" {
			out += " " + say(c.Words, "draw-at-moment", m.Label, s)
		}
	}
	return out
}

// overlapWords tells the overlap of rim and optic, computed all round; empty where one of
// the two isn't known.
func (m FaceMoment) overlapWords(w Words) string {
	o, ok := measure.RimOverlap(m.Opening, m.Optic, m.Offset)
	if !ok {
		return ""
	}
	if o.Complete {
		if o.Most-o.Least < 0.005 {
			return say(w, "draw-rim-even", millimetres(o.Least))
		}
		return say(w, "draw-rim-round", millimetres(o.Least), millimetres(o.Most))
	}
	if o.BareDegrees == 0 {
		return say(w, "draw-rim-meets")
	}
	return say(w, "draw-rim-bare", strconv.FormatFloat(o.BareHours(), 'f', 1, 64))
}

// Table lists the measures and arcs of each moment.
func (c ClockFace) Table() Table {
	t := Table{Headers: heads(c.Words, "draw-head-moment", "draw-what", "draw-head-measure")}
	for _, m := range c.Moments {
		for _, k := range m.keys(c.Words) {
			t.Rows = append(t.Rows, []string{m.Label, k.what, k.measure})
		}
		if s := m.overlapWords(c.Words); s != "" {
			t.Rows = append(t.Rows, []string{m.Label, say(c.Words, "draw-overlap"), s})
		}
	}
	return t
}

// faceKey is one line of the words under a face.
type faceKey struct {
	sign          func(d *Drawing, at Point)
	letter        string
	what, measure string
}

// keys lists what a face shows, from the outside in.
func (m FaceMoment) keys(w Words) []faceKey {
	circle := func(s stroke, f Paint) func(*Drawing, Point) {
		return func(d *Drawing, at Point) { d.disc(at, 5, f, s) }
	}
	wtw, standard := m.whiteToWhite()
	size := wtw.String()
	if standard {
		size = say(w, "draw-standard", size)
	}
	keys := []faceKey{{circle(limbusLine, NoPaint), "", say(w, "draw-white-to-white"), size}}
	add := func(l measure.Length, what string, s stroke, f Paint) {
		if l > 0 {
			keys = append(keys, faceKey{circle(s, f), "", say(w, what), l.String()})
		}
	}
	add(m.Ring, "draw-ring", ringLine, NoPaint)
	add(m.Pupil, "draw-pupil", pupilLine, Paper)
	add(m.Optic, "draw-optic", opticLine, NoPaint)
	add(m.Opening, "draw-opening", openingLine, NoPaint)
	letter := 0
	for _, i := range m.Incisions {
		keys = append(keys, faceKey{nil, letterOf(letter), i.Label, i.words(w)})
		letter++
	}
	for _, a := range m.Arcs {
		keys = append(keys, faceKey{nil, letterOf(letter), a.Label, a.words(w)})
		letter++
	}
	return keys
}

// words tells the extents in order of time.
func (a FaceArc) words(w Words) string {
	out := ""
	for i, e := range a.Extents {
		hours := strconv.FormatFloat(math.Round(e.Hours()*10)/10, 'f', -1, 64)
		one := ""
		switch {
		case e.Whole:
			one = say(w, "draw-arc-whole")
		case hours == "1":
			one = say(w, "draw-arc-one", e.From.String(), e.To.String())
		default:
			one = say(w, "draw-arc", e.From.String(), e.To.String(), hours)
		}
		if i == 0 {
			out = one
			continue
		}
		out = say(w, "draw-then", out, one)
	}
	if a.Radial {
		out = say(w, "draw-radial", out)
	}
	return out
}

// millimetres writes a tenth of a millimetre.
func millimetres(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }

// whiteToWhite gives the diameter of the cornea, and whether it is the standard one.
func (m FaceMoment) whiteToWhite() (measure.Length, bool) {
	if m.WhiteToWhite > 0 {
		return m.WhiteToWhite, false
	}
	return standardWhiteToWhite, true
}

// words tells width and place.
func (i FaceIncision) words(w Words) string {
	if i.Width <= 0 {
		return say(w, "draw-wound-no-width", i.Place.String())
	}
	return say(w, "draw-wound", i.Width.String(), i.Place.String())
}

// letterOf gives A, B, … Z, AA.
func letterOf(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return letterOf(i/26-1) + letterOf(i%26)
}
