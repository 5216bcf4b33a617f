package figure

import (
	"fmt"
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

// bandNames are the categories from the measured scale outwards.
var bandNames = []string{"CF", "HM", "LP", "NLP"}

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
func acuityTicks() (ticks []float64, text func(float64) string) {
	names := map[float64]string{}
	for _, l := range []struct {
		logMAR float64
		name   string
	}{{0, "6/6"}, {math.Log10(2), "6/12"}, {math.Log10(4), "6/24"}, {1, "6/60"}, {math.Log10(20), "3/60"}} {
		ticks = append(ticks, l.logMAR)
		names[l.logMAR] = l.name
	}
	for i, name := range bandNames {
		at := worstLogMAR + bandLogMAR*(float64(i)+0.75)
		ticks = append(ticks, at)
		names[at] = name
	}
	return ticks, func(v float64) string { return names[v] }
}

// Draw lays the plot out.
func (c AcuityChange) Draw(width Px) *Drawing {
	width = max(width, Narrow)
	d := &Drawing{Width: min(width, 480), IDPrefix: c.IDPrefix, Title: c.Title, Desc: c.Caption()}
	ticks, words := acuityTicks()
	to := worstLogMAR + bandLogMAR*(float64(len(bandNames))+0.5)
	axis := axisNumbers{bestLogMAR - 0.08, to, ticks, words, "before surgery (worse to the right)"}
	up := axis
	up.name = "after surgery (worse upwards)"
	p := newPlot(d, axis, up, 4, d.Width-70)
	edge := worstLogMAR + bandLogMAR*0.25
	d.line(p.at(edge, axis.from), p.at(edge, to), stroke{Faint, 1.2, ""})
	d.line(p.at(axis.from, edge), p.at(to, edge), stroke{Faint, 1.2, ""})
	d.line(p.at(axis.from, axis.from), p.at(to, to), stroke{Ink, 1.2, "6 3"})
	c.points(p)
	keys := []key{
		{"one eye", 9, func(d *Drawing, at Point) { d.disc(at, 4, Paper, inkLine) }},
		{"several eyes, with their number", 16, func(d *Drawing, at Point) { d.disc(at, 7, Tint, inkLine) }},
		{"no change; below the line is better", 22, func(d *Drawing, at Point) {
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
	out := sentence(c.Finding) + fmt.Sprintf("Of %s, %d better, %d the same, %d worse.", count(better+same+worse, "eye"), better, same, worse)
	if left > 0 {
		out += fmt.Sprintf(" %s without both acuities left out.", count(left, "eye"))
	}
	return out
}

// Table gives the acuities of each eye as written.
func (c AcuityChange) Table() Table {
	t := Table{Headers: []string{"Eye", "Before", "After"}}
	for _, e := range c.Eyes {
		t.Rows = append(t.Rows, []string{e.Label, e.Before.Words(), e.After.Words()})
	}
	return t
}
