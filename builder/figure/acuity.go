package figure

import (
	"math"
	"slices"
	"strconv"

	"caseleaf/content/measure"
)

// AcuityChange plots sight before surgery against sight after it. Points under the line of
// no change gained. Counting fingers and below stand in bands of their own beyond the
// measured scale: they have a place, not a number.
type AcuityChange struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Eyes            []AcuityPair
	Unknown         int // eyes without both acuities, left out
}

// AcuityPair is one eye.
type AcuityPair struct {
	Label         string
	Before, After measure.Acuity
	Href          string
}

// The measured scale runs from 6/3 to 6/380; the four categories have a band each beyond it,
// bandLogMAR wide on the drawing only.
const (
	bestLogMAR  = -0.3
	worstLogMAR = 1.8
	bandLogMAR  = 0.24
)

// bandKeys name the categories from the measured scale outwards.
var bandKeys = []string{"draw-cf", "draw-hm", "draw-lp", "draw-nlp"}

// acuityPlace gives where an acuity stands on an axis, and false where it has no place.
func acuityPlace(a measure.Acuity) (float64, bool) {
	if v, ok := a.LogMAR(); ok {
		return math.Max(bestLogMAR, math.Min(worstLogMAR, v)), true
	}
	if a.Kind < measure.CountingFingers || a.Kind > measure.NoLightPerception {
		return 0, false
	}
	return worstLogMAR + bandLogMAR*(float64(a.Kind-measure.CountingFingers)+0.75), true
}

// acuityTicks are the places of some lines of the chart and of the bands.
func acuityTicks(w Words) (ticks []float64, text func(float64) string) {
	names := map[float64]string{}
	for _, l := range []struct {
		logMAR float64
		name   string
	}{{0, "6/6"}, {math.Log10(2), "6/12"}, {math.Log10(4), "6/24"}, {1, "6/60"}, {math.Log10(20), "3/60"}} {
		ticks = append(ticks, l.logMAR)
		names[l.logMAR] = l.name
	}
	for i, key := range bandKeys {
		at := worstLogMAR + bandLogMAR*(float64(i)+0.75)
		ticks = append(ticks, at)
		names[at] = say(w, key)
	}
	return ticks, func(v float64) string { return names[v] }
}

// Draw lays the plot out.
func (c AcuityChange) Draw(width Px) *Drawing {
	width = max(width, Narrow)
	d := &Drawing{Width: min(width, 480), IDPrefix: c.IDPrefix, Title: c.Title}
	ticks, words := acuityTicks(c.Words)
	to := worstLogMAR + bandLogMAR*(float64(len(bandKeys))+0.5)
	axis := axisNumbers{bestLogMAR - 0.08, to, ticks, words, say(c.Words, "draw-acuity-before")}
	up := axis
	up.name = say(c.Words, "draw-acuity-after")
	p := newPlot(d, axis, up, 4, d.Width-70)
	edge := worstLogMAR + bandLogMAR*0.25
	d.line(p.at(edge, axis.from), p.at(edge, to), stroke{Faint, 1.2, ""})
	d.line(p.at(axis.from, edge), p.at(to, edge), stroke{Faint, 1.2, ""})
	d.line(p.at(axis.from, axis.from), p.at(to, to), stroke{Ink, 1.2, "6 3"})
	c.points(p)
	keys := []key{
		{say(c.Words, "draw-one-eye"), 9, func(d *Drawing, at Point) { d.disc(at, 4, Paper, inkLine) }},
		{say(c.Words, "draw-several-eyes"), 16, func(d *Drawing, at Point) { d.disc(at, 7, Tint, inkLine) }},
		{say(c.Words, "draw-no-change"), 22, func(d *Drawing, at Point) {
			d.line(Point{at.X - 11, at.Y}, Point{at.X + 11, at.Y}, stroke{Ink, 1.2, "6 3"})
		}},
	}
	d.Height = legend(d, keys, margin, d.Height+2) + 4
	return d
}

// points draws the eyes; eyes that would lie on one another are one disc with their number.
func (c AcuityChange) points(p *plot) {
	type heap struct {
		at Point
		n  int
	}
	var heaps []heap
eyes:
	for _, e := range c.Eyes {
		x, ok1 := acuityPlace(e.Before)
		y, ok2 := acuityPlace(e.After)
		if !ok1 || !ok2 {
			continue
		}
		at := p.at(x, y)
		for i := range heaps {
			if dx, dy := heaps[i].at.X-at.X, heaps[i].at.Y-at.Y; dx*dx+dy*dy < 18*18 {
				heaps[i].n++
				continue eyes
			}
		}
		heaps = append(heaps, heap{at, 1})
	}
	slices.SortStableFunc(heaps, func(a, b heap) int { return b.n - a.n })
	for _, h := range heaps {
		if h.n == 1 {
			p.d.disc(h.at, 4, Paper, inkLine)
			continue
		}
		label := strconv.Itoa(h.n)
		p.d.disc(h.at, max(8, textWidth(label, smallSize)/2+2), Paper, stroke{})
		p.d.disc(h.at, max(8, textWidth(label, smallSize)/2+2), Tint, inkLine)
		p.d.say(Point{h.at.X, h.at.Y + 4}, label, smallSize, middle, Ink)
	}
}

// tally counts eyes better, same and worse by rank, and those without a place.
func (c AcuityChange) tally() (better, same, worse, left int) {
	for _, e := range c.Eyes {
		_, ok1 := acuityPlace(e.Before)
		_, ok2 := acuityPlace(e.After)
		switch {
		case !ok1 || !ok2:
			left++
		case measure.CompareAcuity(e.After, e.Before) > 0:
			better++
		case measure.CompareAcuity(e.After, e.Before) < 0:
			worse++
		default:
			same++
		}
	}
	return better, same, worse, left + c.Unknown
}

// Caption counts eyes better, unchanged and worse, of how many.
func (c AcuityChange) Caption() string {
	better, same, worse, left := c.tally()
	out := sentence(c.Finding) + say(c.Words, "draw-acuity-caption", better+same+worse, better, same, worse)
	if left > 0 {
		out += " " + say(c.Words, "draw-acuity-left", left)
	}
	return out
}

// Table gives the acuities of each eye as written.
func (c AcuityChange) Table() Table {
	t := Table{Headers: heads(c.Words, "draw-head-eye", "draw-head-before", "draw-head-after")}
	for _, e := range c.Eyes {
		t.Rows = append(t.Rows, []string{e.Label, acuityWords(c.Words, e.Before), acuityWords(c.Words, e.After)})
	}
	return t
}

// acuityWords writes a category in full, with the distance where one was told; a measured
// acuity as written.
func acuityWords(w Words, a measure.Acuity) string {
	switch {
	case a.Kind == measure.CountingFingers && a.Distance > 0:
		return say(w, "draw-cf-at", strconv.FormatFloat(math.Round(a.Distance*100)/100, 'f', -1, 64))
	case a.Kind >= measure.CountingFingers && a.Kind <= measure.NoLightPerception:
		return say(w, bandKeys[a.Kind-measure.CountingFingers]+"-full")
	}
	return a.Written
}
