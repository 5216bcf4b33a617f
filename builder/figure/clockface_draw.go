package figure

import (
	"math"

	"caseleaf/content/measure"
)

// The lines of a face, told apart without colour.
var (
	limbusLine  = stroke{Ink, 1.8, ""}
	pupilLine   = stroke{Ink, 1.2, ""}
	opticLine   = stroke{Ink, 1.2, "6 3"}
	openingLine = stroke{Accent, 2.2, ""}
	ringLine    = stroke{Ink, 2.2, "1.5 3"}
)

// sideRoom is the height below the limbus for the hour, the side and the scale bar.
const sideRoom Px = 44

// face draws one moment.
type face struct {
	c  ClockFace
	m  FaceMoment
	at Point // centre
	r  Px    // of the limbus
	mm Px    // pixels to the millimetre
	p  placer

	first bool // explains what is the same in all
}

// newFace sets the scale so that the limbus has the given radius.
func newFace(c ClockFace, m FaceMoment, at Point, r Px) *face {
	wtw, _ := m.whiteToWhite()
	reach := r + 38
	return &face{c: c, m: m, at: at, r: r, mm: 2 * r / Px(wtw),
		p: placer{frame: Box{at.X - reach, at.Y - reach, 2 * reach, 2 * reach}}}
}

// point gives a place on the eye: a clock hour, at a distance from the centre.
func (f *face) point(h measure.ClockHour, r Px) Point {
	a := f.c.Eye.ScreenAngle(f.c.Seat, h) * math.Pi / 180
	return Point{f.at.X + r*Px(math.Cos(a)), f.at.Y - r*Px(math.Sin(a))}
}

// draw draws the eye from the outside in, then its letters.
func (f *face) draw(d *Drawing) {
	d.open("figure-face", f.m.Href, f.m.Label)
	f.iris(d)
	f.circles(d)
	f.hours(d)
	f.surgeon(d)
	f.sides(d)
	letter := f.incisions(d)
	f.arcs(d, letter)
	f.scaleBar(d)
	d.close()
}

// iris draws the cornea's edge and, where the pupil is known, the iris tinted up to it.
func (f *face) iris(d *Drawing) {
	if f.m.Pupil > 0 {
		d.disc(f.at, f.r, Tint, stroke{})
		d.disc(f.at, Px(f.m.Pupil)/2*f.mm, Paper, pupilLine)
	}
	d.disc(f.at, f.r, NoPaint, limbusLine)
}

// circles draws ring, optic and opening; the opening off its centre where that is told.
func (f *face) circles(d *Drawing) {
	if f.m.Ring > 0 {
		d.disc(f.at, Px(f.m.Ring)/2*f.mm, NoPaint, ringLine)
	}
	if f.m.Optic > 0 {
		d.disc(f.at, Px(f.m.Optic)/2*f.mm, NoPaint, opticLine)
	}
	if f.m.Opening > 0 {
		c := f.at
		if f.m.Offset > 0 && f.m.Towards > 0 {
			c = f.point(f.m.Towards, Px(f.m.Offset)*f.mm)
		}
		d.disc(c, Px(f.m.Opening)/2*f.mm, NoPaint, openingLine)
	}
}

// hours draws the twelve marks and writes 12, 3, 6 and 9.
func (f *face) hours(d *Drawing) {
	var ticks []Point
	for h := 1; h <= 12; h++ {
		hour := measure.ClockHour(h)
		ticks = append(ticks, f.point(hour, f.r), f.point(hour, f.r+4))
		if h%3 != 0 {
			continue
		}
		c := f.point(hour, f.r+12)
		t := text{at: Point{c.X, c.Y + 4}, s: hour.String(), size: smallSize, end: middle, paint: Soft}
		d.add(&t)
		f.p.block(t.box())
	}
	d.lines(stroke{Soft, 1.2, ""}, ticks...)
}

// seated reports whether it is known where the surgeon sat: at the lower edge of the picture.
func (c ClockFace) seated() bool {
	return c.SurgeonView || c.Seat != measure.UnknownSeat && c.Eye != measure.UnknownEye
}

// surgeon marks the surgeon's side.
func (f *face) surgeon(d *Drawing) {
	if !f.c.seated() {
		return
	}
	c := Point{f.at.X - 20, f.at.Y + f.r + 13}
	seatSign(d, c)
	f.p.block(Box{c.X - 6, c.Y - 6, 12, 12})
}

// seatSign is a head and shoulders from above, facing up.
func seatSign(d *Drawing, c Point) {
	d.polyline(inkLine, Point{c.X - 6, c.Y + 5}, Point{c.X - 6, c.Y + 2}, Point{c.X + 6, c.Y + 2}, Point{c.X + 6, c.Y + 5})
	d.disc(Point{c.X, c.Y - 1.5}, 3, Ink, stroke{})
}

// sides writes which side is temporal and which nasal.
func (f *face) sides(d *Drawing) {
	temporal, ok := f.c.Eye.TemporalHour()
	if !ok || f.c.SurgeonView {
		return
	}
	for _, s := range []struct {
		hour measure.ClockHour
		name string
	}{{temporal, say(f.c.Words, "draw-temporal")}, {12 - temporal, say(f.c.Words, "draw-nasal")}} {
		c := f.point(s.hour, f.r+12)
		for _, t := range []text{
			{at: Point{c.X, c.Y + 19}, s: s.name, size: smallSize, end: middle, paint: Soft},
			{at: Point{c.X, c.Y - 10}, s: s.name, size: smallSize, end: middle, paint: Soft},
			f.corner(c, s.name, 0.75), f.corner(c, s.name, -0.75), f.corner(c, s.name, 0.9),
		} {
			if f.p.free(t.box()) && clearOf(t.box(), f.at, f.r) {
				d.add(&t)
				f.p.block(t.box())
				break
			}
		}
	}
}

// corner gives a place for a word beside the circle, at the edge of the frame on the side of
// the given point, the given part of the radius below the centre.
func (f *face) corner(c Point, word string, below Px) text {
	t := text{at: Point{f.p.frame.X, f.at.Y + below*f.r + 4}, s: word, size: smallSize, paint: Soft}
	if c.X > f.at.X {
		t.at.X, t.end = f.p.frame.Right(), end
	}
	return t
}

// clearOf reports whether a box stays outside a circle.
func clearOf(b Box, c Point, r Px) bool {
	x, y := max(b.X, min(c.X, b.Right()))-c.X, max(b.Y, min(c.Y, b.Bottom()))-c.Y
	return x*x+y*y >= r*r
}

// incisions draws each wound as a bar on the limbus, to scale, with its letter outside.
func (f *face) incisions(d *Drawing) int {
	for i, in := range f.m.Incisions {
		half := Px(in.Width) / 2 * f.mm
		if half <= 0 {
			half = 3
		}
		c := f.point(in.Place, f.r)
		u := Point{(c.X - f.at.X) / f.r, (c.Y - f.at.Y) / f.r}
		a, b := Point{c.X - u.Y*half, c.Y + u.X*half}, Point{c.X + u.Y*half, c.Y - u.X*half}
		d.line(a, b, stroke{Ink, 6, ""})
		f.letter(d, in.Place, f.r+10, letterOf(i))
	}
	return len(f.m.Incisions)
}

// letter writes a letter near a place at the given distance or further out.
func (f *face) letter(d *Drawing, h measure.ClockHour, r Px, s string) {
	for _, off := range []float64{0, 0.4, -0.4, 0.8, -0.8} {
		for _, more := range []Px{0, 12, 22} {
			c := f.point(wrapped(float64(h)+off), r+more)
			t := text{at: Point{c.X, c.Y + 4}, s: s, size: textSize, end: middle, paint: Ink, halo: true, bold: true}
			if f.p.free(t.box()) {
				d.add(&t)
				f.p.block(t.box())
				return
			}
		}
	}
}

// wrapped brings an hour into 0 < h <= 12.
func wrapped(h float64) measure.ClockHour {
	h = math.Mod(h+24, 12)
	if h == 0 {
		h = 12
	}
	return measure.ClockHour(h)
}

// arcs draws what events took, inside the limbus; extents that spread lie one inside the
// other, the last one innermost. The letter stands on the last one.
func (f *face) arcs(d *Drawing, letter int) {
	r := f.r - 8
	for i, a := range f.m.Arcs {
		for j, e := range a.Extents {
			if a.Radial && j == len(a.Extents)-1 {
				f.tear(d, e, r)
			}
			f.arc(d, e, r, a.Radial)
			r -= 7
		}
		if n := len(a.Extents); n > 0 {
			f.onArc(d, a.Extents[n-1], r+7, letterOf(letter+i), a.Radial)
			r -= 4
		}
	}
}

// onArc writes a letter on a band, at its middle or, where that is taken, further along it;
// beside the band where its middle shows the event itself.
func (f *face) onArc(d *Drawing, e measure.Arc, r Px, s string, beside bool) {
	from := float64(e.From)
	if e.Whole {
		from = 12
	}
	hours := []float64{0.5 * e.Hours(), 0.3 * e.Hours(), 0.7 * e.Hours(), 0.1 * e.Hours(), 0.9 * e.Hours()}
	if beside {
		hours = []float64{e.Hours() + 0.4, -0.4, e.Hours() + 0.8, -0.8}
	}
	for _, less := range []Px{0, 14, 28} {
		for _, on := range hours {
			c := f.point(wrapped(from+on), r-less)
			t := text{at: Point{c.X, c.Y + 4}, s: s, size: textSize, end: middle, paint: Ink, halo: true, bold: true}
			if f.p.free(t.box()) {
				d.add(&t)
				f.p.block(t.box())
				return
			}
		}
	}
}

// tearFrom is the radius in mm at which a tear of the rim begins where the opening was not
// measured: half of the 5 mm that is common (common practice, no source).
const tearFrom = 2.5

// tear draws a radial tear at the middle of its extent, from the opening's edge outwards; how
// far it ran is not told, so it ends short of the band that shows its hours. Of one that grew
// the last is drawn.
func (f *face) tear(d *Drawing, e measure.Arc, r Px) {
	hour, ok := e.Midpoint()
	if !ok {
		return
	}
	from := Px(tearFrom) * f.mm
	if f.m.Opening > 0 {
		from = Px(f.m.Opening) / 2 * f.mm
	}
	to := max(r-6, from+8)
	const teeth = 6 // a torn edge, not a ruled one
	points := make([]Point, teeth+1)
	for i := range points {
		off := 0.07 * float64(i%2*2-1) * (1 - float64(i)/teeth)
		points[i] = f.point(wrapped(float64(hour)+off), from+(to-from)*Px(i)/teeth)
	}
	d.polyline(stroke{Accent, 2.4, ""}, points...)
}

// arc draws one extent as a thick band, or as a thin one beside what shows the event itself.
func (f *face) arc(d *Drawing, e measure.Arc, r Px, thin bool) {
	band := stroke{Accent, 4.5, ""}
	if thin {
		band.width = 1.8
	}
	if e.Hours() >= 12 {
		d.disc(f.at, r, NoPaint, band)
		return
	}
	d.add(&path{d: []step{{op: 'M', to: f.point(e.From, r)},
		{op: 'A', to: f.point(e.To, r), r: r, large: e.Degrees() > 180, sweep: true}}, s: band})
}

// scaleBar draws a length of 5 mm under the eye.
func (f *face) scaleBar(d *Drawing) {
	y, half := f.at.Y+f.r+sideRoom, 2.5*f.mm
	d.line(Point{f.at.X - half, y}, Point{f.at.X + half, y}, stroke{Soft, 1.2, ""})
	for _, x := range []Px{f.at.X - half, f.at.X + half} {
		d.line(Point{x, y - 3}, Point{x, y + 3}, stroke{Soft, 1.2, ""})
	}
	t := text{at: Point{f.at.X + half + 6, y + 4}, s: "5 mm", size: smallSize, paint: Soft}
	d.add(&t)
}

// title writes the moment's name and its key from y down and gives the lower edge.
func (f *face) title(d *Drawing, x, y, w Px) Px {
	lines := wrap(f.m.Label, textSize, w/boldExtra, 3)
	d.sayBlock(Point{x, y + textSize}, lines, textSize, start, Ink, true)
	y += Px(len(lines))*lineHeight + 4
	for _, k := range f.m.keys(f.c.Words) {
		words := wrap(say(f.c.Words, "draw-named", k.what, k.measure), smallSize, w-20, 4)
		if k.sign != nil {
			k.sign(d, Point{x + 7, y + lineHeight/2})
		} else {
			d.add(&text{at: Point{x + 7, y + textSize}, s: k.letter, size: textSize, end: middle, paint: Ink, bold: true})
		}
		d.sayBlock(Point{x + 20, y + textSize - 1}, words, smallSize, start, Ink, false)
		y += Px(len(words))*lineHeight + 1
	}
	if f.c.seated() && f.first {
		seatSign(d, Point{x + 7, y + lineHeight/2})
		words := wrap(say(f.c.Words, "draw-surgeon-side"), smallSize, w-20, 2)
		d.sayBlock(Point{x + 20, y + textSize - 1}, words, smallSize, start, Ink, false)
		y += Px(len(words))*lineHeight + 1
	}
	if s := f.m.overlapWords(f.c.Words); s != "" {
		words := wrap(s, smallSize, w, 4)
		d.sayBlock(Point{x, y + textSize + 2}, words, smallSize, start, Soft, false)
		y += Px(len(words))*lineHeight + 2
	}
	return y + 4
}
