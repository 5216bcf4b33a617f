package builder

import (
	"math"
	"slices"
	"strings"

	"caseleaf/builder/decide"
)

// SwitchLine is one number that would make an option preferred, or no longer
// preferred, if it alone were otherwise.
type SwitchLine struct {
	Text string
	// Within says that the number would be inside the range that is stated or
	// that its source supports.
	Within bool
}

// switches lists, for one option of the root, the numbers at which it stops
// being preferred or, where it is not, begins to be; those inside their range
// first, then the most influential first.
func (v *weighing) switches(id string) []SwitchLine {
	var lines []SwitchLine
	for _, s := range v.one {
		down, up := v.crossings(s, id)
		for _, t := range []*decide.Threshold{down, up} {
			if t != nil {
				lines = append(lines, v.switchLine(s, id, *t, t == up))
			}
		}
	}
	slices.SortStableFunc(lines, func(a, b SwitchLine) int {
		switch {
		case a.Within == b.Within:
			return 0
		case a.Within:
			return -1
		}
		return 1
	})
	return lines
}

// crossings finds the nearest thresholds below and above a number's stated
// value at which an option leaves the preferred ones, or joins them where it is
// not among them.
func (v *weighing) crossings(s decide.Sensitivity, id string) (down, up *decide.Threshold) {
	best := v.best(id)
	for i := range s.Thresholds {
		t := &s.Thresholds[i]
		below, above := slices.Contains(t.Before, id), slices.Contains(t.After, id)
		if below == above {
			continue
		}
		// Going up, a preferred option leaves where it stands below and not
		// above; one that is not preferred joins where it stands above.
		if t.At >= s.Value && below == best && (up == nil || t.At < up.At) {
			up = t
		}
		if t.At <= s.Value && above == best && (down == nil || t.At > down.At) {
			down = t
		}
	}
	return down, up
}

// switchLine says one threshold in words.
func (v *weighing) switchLine(s decide.Sensitivity, id string, t decide.Threshold, up bool) SwitchLine {
	what, at, stated := v.numberName(s.Parameter), amount(s.Parameter, t.At), amount(s.Parameter, s.Value)
	line := SwitchLine{Within: s.Ranged() && t.At >= s.Low && t.At <= s.High}
	others := func(ids []string) string {
		var letters []string
		for _, o := range ids {
			if o != id {
				letters = append(letters, letter(v.place(o)))
			}
		}
		return strings.Join(letters, v.words.say("joined-and"))
	}
	w := v.words
	switch best := v.best(id); {
	case best && up:
		line.Text = w.say("leaves-above", what, at, stated, others(t.After))
	case best:
		line.Text = w.say("leaves-below", what, at, stated, others(t.Before))
	case up:
		line.Text = w.say("joins-above", what, at, stated)
	default:
		line.Text = w.say("joins-below", what, at, stated)
	}
	return line
}

// inRange keeps the thresholds of a number inside its range.
func inRange(s decide.Sensitivity) []decide.Threshold {
	return slices.DeleteFunc(slices.Clone(s.Thresholds), func(t decide.Threshold) bool {
		return !s.Ranged() || t.At < s.Low || t.At > s.High
	})
}

// lead is how far the preferred option stands above the best other one; values
// are in the order of the options.
func (v *weighing) lead(values []float64) float64 {
	own, other := math.NaN(), math.Inf(-1)
	for i, o := range v.result.Options {
		switch {
		case o.ID == v.result.Best[0]:
			own = values[i]
		case values[i] > other:
			other = values[i]
		}
	}
	return own - other
}
