package figure

import (
	"math"

	"caseleaf/content/measure"
)

// Delays shows, case by case, how long an event went unseen and how long until something was
// done. Zero is the moment it was noticed, which is the one that is nearly always known.
type Delays struct {
	IDPrefix, Title string
	Words           Words
	Finding         string
	Rows            []DelayRow
}

// DelayRow is one event of one case. Unseen is nil where nobody knows when it began, Until
// where nothing was done or nobody knows.
type DelayRow struct {
	Label         string
	Unseen, Until *measure.Duration
	Href          string
}

// Draw lays the plot out.
func (v Delays) Draw(width Px) *Drawing {
	p := newDelayPlot(width, v.IDPrefix, v.Title, v.Words)
	for _, r := range v.Rows {
		if r.Unseen != nil {
			p.began(*r.Unseen)
		}
		if r.Until != nil {
			p.acted(*r.Until)
		}
		p.lanes = append(p.lanes, lane{label: r.Label, value: r.words(v.Words), href: r.Href,
			mark: func(x scale, y Px) { r.draw(p.d, x, y) }})
	}
	return p.finish(v.Words)
}

// delayPlot is lanes on both sides of the moment of notice, while they are gathered.
type delayPlot struct {
	lanePlot
	before, after      float64 // room at each side of zero, s
	hasBegan, hasActed bool
}

func newDelayPlot(width Px, prefix, title string, w Words) *delayPlot {
	d := &Drawing{Width: max(width, Narrow), IDPrefix: prefix, Title: title}
	return &delayPlot{lanePlot: lanePlot{d: d, axis: say(w, "draw-delay-axis"), refs: []float64{0}}, before: 5, after: 5}
}

// began makes room for a beginning that long before notice.
func (p *delayPlot) began(ago measure.Duration) {
	p.before, p.hasBegan = math.Max(p.before, float64(ago)), true
}

// acted makes room for an action that long after notice.
func (p *delayPlot) acted(later measure.Duration) {
	p.after, p.hasActed = math.Max(p.after, float64(later)), true
}

// finish draws the lanes and the legend.
func (p *delayPlot) finish(w Words) *Drawing {
	p.from, p.to = -p.before*1.03, p.after*1.03
	p.ticks = durationTicks(p.from, p.to)
	p.tick = func(t float64) string {
		if t < 0 {
			return "−" + measure.Duration(-t).String()
		}
		return measure.Duration(t).String()
	}
	y := p.draw(4)
	p.d.Height = legend(p.d, delayLegend(w, p.hasBegan, p.hasActed, len(p.lanes) > 0), margin, y+6) + 4
	return p.d
}

// durationTicks gives round times on both sides of zero, about six.
func durationTicks(from, to float64) []float64 {
	for _, step := range timeSteps {
		if (to-from)/float64(step) > 6 {
			continue
		}
		var out []float64
		for t := math.Ceil(from/float64(step)) * float64(step); t <= to; t += float64(step) {
			out = append(out, t)
		}
		return out
	}
	return []float64{0}
}

// draw draws the three moments as the strip does.
func (r DelayRow) draw(d *Drawing, x scale, y Px) {
	zero := Point{x.at(0), y}
	if r.Unseen != nil {
		p := Point{x.at(-float64(*r.Unseen)), y}
		d.line(p, zero, unseen)
		d.disc(p, markR-1.2, Paper, inkLine)
	}
	if r.Until != nil {
		p := Point{x.at(float64(*r.Until)), y}
		d.line(zero, p, boldLine)
		d.line(Point{p.X, y - markR - 1}, Point{p.X, y + markR + 1}, stroke{Ink, 2.4, ""})
	}
	d.disc(zero, markR-0.8, Ink, stroke{})
}

// words tells the two delays.
func (r DelayRow) words(w Words) string {
	unseen, until := say(w, "draw-beginning-unknown"), say(w, "draw-action-unknown")
	if r.Unseen != nil {
		unseen = say(w, "draw-unseen", r.Unseen.String())
	}
	if r.Until != nil {
		until = say(w, "draw-to-act", r.Until.String())
	}
	return say(w, "draw-joined", unseen, until)
}

// delayWord writes a delay that may be unknown.
func delayWord(w Words, d *measure.Duration) string {
	if d == nil {
		return say(w, "draw-unknown")
	}
	return d.String()
}

// delayLegend explains the marks that occur.
func delayLegend(w Words, began, acted, any bool) []key {
	var e entry
	if began {
		e.began = at0
	}
	if acted {
		e.acted = at0
	}
	if !any {
		return nil
	}
	e.kind = eventEntry
	return stripLegend(w, []entry{e})
}

// at0 stands for a moment that is known, where only that matters.
var at0 = new(measure.Time)

// Caption says how many events have which delays.
func (v Delays) Caption() string {
	began, acted := 0, 0
	for _, r := range v.Rows {
		if r.Unseen != nil {
			began++
		}
		if r.Until != nil {
			acted++
		}
	}
	return sentence(v.Finding) + say(v.Words, "draw-delay-caption", say(v.Words, "draw-n-events", len(v.Rows)), began, acted)
}

// Table gives the delays of each event.
func (v Delays) Table() Table {
	t := Table{Headers: heads(v.Words, "draw-event", "draw-to-notice", "draw-to-action")}
	for _, r := range v.Rows {
		t.Rows = append(t.Rows, []string{r.Label, delayWord(v.Words, r.Unseen), delayWord(v.Words, r.Until)})
	}
	return t
}
