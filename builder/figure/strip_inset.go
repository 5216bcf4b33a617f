package figure

import (
	"math"
	"slices"

	"caseleaf/content/measure"
)

// window is a stretch of the recording that is drawn again at a larger scale.
type window struct {
	from, to measure.Time
	entries  []entry
}

const (
	minInset   = 2    // entries that make a crowd
	crowdedPx  = 14   // marks nearer than this are hard to tell apart
	maxPart    = 0.14 // of the whole time a window may take
	maxInsets  = 2
	insetShare = 0.12 // of the window is left free at either end
)

// insets finds the stretches in which much happens at once: two entries or more in a
// small part of the time, with moments too near to tell apart. The fullest come first; they
// are returned in order of time and don't overlap.
func insets(entries []entry, x scale) []window {
	var moments []entry
	for _, e := range entries {
		if e.kind != stepEntry {
			moments = append(moments, e)
		}
	}
	var found []window
	for len(found) < maxInsets {
		best := fullest(moments, x, found)
		if len(best.entries) < minInset {
			break
		}
		if len(found) > 0 && best.from < found[0].from {
			found = append([]window{best}, found...)
		} else {
			found = append(found, best)
		}
	}
	return found
}

// fullest finds the window with most moments, the shortest among equals, apart from those
// already taken.
func fullest(moments []entry, x scale, taken []window) window {
	limit := measure.Time(maxPart * (x.to - x.from))
	var best window
	for i := range moments {
		w := window{from: moments[i].from, to: moments[i].to}
		for _, e := range moments[i:] {
			from, to := min(w.from, e.from), max(w.to, e.to)
			if to-from > limit {
				break
			}
			w.from, w.to = from, to
			w.entries = append(w.entries, e)
		}
		better := len(w.entries) > len(best.entries) ||
			len(w.entries) == len(best.entries) && w.to-w.from < best.to-best.from
		if len(w.entries) >= minInset && better && crowded(w, x) && apart(w, taken) {
			best = w
		}
	}
	return best
}

// crowded reports whether at least three moments, of one entry or of several, stand too near
// to tell apart in the main drawing.
func crowded(w window, x scale) bool {
	var times []measure.Time
	for _, e := range w.entries {
		times = append(times, e.at)
		for _, t := range []*measure.Time{e.began, e.noticed, e.acted} {
			if t != nil && *t != e.at {
				times = append(times, *t)
			}
		}
	}
	slices.Sort(times)
	near := 0
	for i := 1; i < len(times); i++ {
		if x.at(float64(times[i]))-x.at(float64(times[i-1])) < crowdedPx {
			near++
		}
	}
	return near >= 2
}

// apart reports whether a window overlaps none of those taken.
func apart(w window, taken []window) bool {
	for _, t := range taken {
		if w.from <= t.to && t.from <= w.to {
			return false
		}
	}
	return true
}

// inset draws a window again below the rows, at its own scale, in a frame, and marks on a
// small copy of the time axis which part it is.
func (l stripLayout) inset(w window, y Px) Px {
	pad := max(measure.Time(insetShare*float64(w.to-w.from)), 2)
	from, to := max(w.from-pad, measure.Time(l.x.from)), min(w.to+pad, measure.Time(l.x.to))
	big := l
	big.x = scale{float64(from), float64(to), l.x.a + 10, l.x.b - 10}
	l.bracket(from, to, y)
	y += 12
	frame := len(l.d.marks)
	l.d.rect(Box{}, NoPaint, axisLine) // its height is known when the rows are placed
	times := int(math.Round((l.x.to - l.x.from) / (big.x.to - big.x.from)))
	head := say(l.w, "draw-enlarged", times, from.String(), to.String())
	l.d.say(Point{big.x.a, y + textSize + 3}, head, smallSize, start, Soft)
	bottom := big.block(unlinked(w.entries), y+lineHeight+4)
	l.d.marks[frame] = &rect{Box{l.x.a - 4, y, l.x.b - l.x.a + 8, bottom - y}, fill{}, axisLine}
	return bottom
}

// bracket draws where on the whole axis the window lies, with lines to the frame's corners.
func (l stripLayout) bracket(from, to measure.Time, y Px) {
	a, b := l.x.at(float64(from)), l.x.at(float64(to))
	l.d.line(Point{l.x.a, y}, Point{l.x.b, y}, axisLine)
	l.d.line(Point{a, y}, Point{max(b, a+2), y}, stroke{Ink, 4, ""})
	l.d.line(Point{a, y}, Point{l.x.a - 4, y + 12}, gridLine)
	l.d.line(Point{b, y}, Point{l.x.b + 4, y + 12}, gridLine)
}

// unlinked drops the links to the table, which the rows above have already, so that the
// keyboard doesn't stop at each entry twice.
func unlinked(entries []entry) []entry {
	out := append([]entry(nil), entries...)
	for i := range out {
		out[i].href = ""
	}
	return out
}
