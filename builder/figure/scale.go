package figure

import (
	"math"

	"caseleaf/content/measure"
)

// scale maps values onto a stretch of the drawing.
type scale struct {
	from, to float64 // values at the ends; from < to
	a, b     Px      // their places
}

// at gives the place of a value.
func (s scale) at(v float64) Px {
	if s.to == s.from {
		return s.a
	}
	return s.a + (s.b-s.a)*Px((v-s.from)/(s.to-s.from))
}

// clamp brings a value between the ends.
func (s scale) clamp(v float64) float64 { return math.Max(s.from, math.Min(s.to, v)) }

// niceTicks gives round values that cover the scale, at most n+1 of them: steps of 1, 2 or
// 5 times a power of ten.
func niceTicks(from, to float64, n int) []float64 {
	if !(to > from) || n < 1 {
		return []float64{from}
	}
	step := niceStep((to - from) / float64(n))
	var out []float64
	for i := math.Ceil(from/step-1e-9) + 0; i*step <= to+step*1e-9; i++ {
		out = append(out, math.Round(i*step*1e9)/1e9+0) // + 0 makes no negative zero
	}
	return out
}

// niceStep gives the smallest of 1, 2, 5 times a power of ten that is no less than v.
func niceStep(v float64) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*p >= v*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// timeSteps are the distances between times on an axis, in seconds.
var timeSteps = []int{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1200, 1800, 3600, 7200, 14400}

// timeTicks gives the round times from one to another that stand at least gap apart.
func timeTicks(s scale, gap Px) []measure.Time {
	span, length := s.to-s.from, s.b-s.a
	for _, step := range timeSteps {
		if Px(float64(step)/span)*length < gap {
			continue
		}
		var out []measure.Time
		first := int(math.Ceil(s.from/float64(step))) * step
		for t := first; float64(t) <= s.to; t += step {
			out = append(out, measure.Time(t))
		}
		return out
	}
	return nil
}
