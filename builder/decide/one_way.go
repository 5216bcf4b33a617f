package decide

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// Threshold is a value of a parameter at which the preferred option changes.
type Threshold struct {
	At float64
	// Exact is the threshold as a rational; nil where it was found by
	// bisection.
	Exact *big.Rat
	// Before and After are the options preferred below and above it.
	Before, After []string
}

// Sensitivity is what one parameter does to the decision.
type Sensitivity struct {
	Parameter
	// AtLow and AtHigh are the options' expected values at the ends of the
	// range, in the order of [Model.OptionIDs]; nil without a range.
	AtLow, AtHigh []float64
	// Swing is how far the margin of the option preferred at rest over the best
	// other one moves between the ends of the range (so a swing larger than the
	// margin can turn the decision); NaN without a range.
	Swing float64
	// Thresholds over the parameter's whole domain: 0 to 1 for a probability,
	// the stated range for a value (none without one).
	Thresholds []Threshold
}

// OneWay moves each parameter alone and gives the sensitivities, the largest
// swing first, those without a range last in the order stated. With one place in
// the tree a parameter enters linearly under any fixed policy, so its thresholds
// are exact crossings of lines; a shared one is searched on 512 steps and
// bisected to 1e-9.
func (m *Model) OneWay() []Sensitivity {
	best := m.preferred()
	var out []Sensitivity
	for _, p := range m.Parameters() {
		s := Sensitivity{Parameter: p, Swing: math.NaN(), Thresholds: m.Thresholds(p)}
		if p.Ranged() {
			s.AtLow, s.AtHigh = m.At(p, p.Low), m.At(p, p.High)
			s.Swing = math.Abs(m.lead(s.AtHigh, best) - m.lead(s.AtLow, best))
		}
		out = append(out, s)
	}
	slices.SortStableFunc(out, func(a, b Sensitivity) int {
		switch {
		case math.IsNaN(a.Swing) && math.IsNaN(b.Swing):
			return 0
		case math.IsNaN(a.Swing):
			return 1
		case math.IsNaN(b.Swing):
			return -1
		}
		return cmp.Compare(b.Swing, a.Swing)
	})
	return out
}

// preferred is the first of the options that are best at rest.
func (m *Model) preferred() int {
	for i, o := range m.FoldBack().Options {
		if o.Preferred {
			return i
		}
	}
	return 0
}

// lead is the margin of an option over the best other one: positive when it is
// preferred. With one option only it is its own value.
func (m *Model) lead(values []float64, option int) float64 {
	other := math.NaN()
	for i, v := range values {
		if i != option && (math.IsNaN(other) || m.prefers(v, other)) {
			other = v
		}
	}
	switch {
	case math.IsNaN(other):
		return values[option]
	case m.goal == Least:
		return other - values[option]
	}
	return values[option] - other
}

// prefers is better for float64 values.
func (m *Model) prefers(a, b float64) bool {
	if m.goal == Least {
		return a < b
	}
	return a > b
}

// Thresholds finds where the preferred option changes as p moves over its
// domain; see [Sensitivity]. Where three options meet in a point, one threshold
// leads from the first to the last.
func (m *Model) Thresholds(p Parameter) []Threshold {
	low, high := 0.0, 1.0
	if !p.Probability {
		if !p.Ranged() {
			return nil
		}
		low, high = p.Low, p.High
	}
	if len(p.places) == 1 {
		return m.exactThresholds(m.rootLines(p.places[0]), Number(low), Number(high))
	}
	return m.searchedThresholds(p, low, high)
}

// searchSteps and searchWidth are how finely a parameter that enters more than
// linearly is searched for changes, and how closely each is then bisected.
const (
	searchSteps = 512
	searchWidth = 1e-9
)

func (m *Model) searchedThresholds(p Parameter, low, high float64) []Threshold {
	best := func(x float64) int {
		values, b := m.At(p, x), 0
		for i, v := range values {
			if m.prefers(v, values[b]) {
				b = i
			}
		}
		return b
	}
	var found []Threshold
	left, atLeft := low, best(low)
	for i := 1; i <= searchSteps; i++ {
		right := low + (high-low)*float64(i)/searchSteps
		atRight := best(right)
		for atLeft != atRight {
			l, r := left, right
			for r-l > searchWidth/2 {
				if middle := (l + r) / 2; best(middle) == atLeft {
					l = middle
				} else {
					r = middle
				}
			}
			after := best(r)
			found = append(found, Threshold{At: (l + r) / 2, Before: m.names([]int{atLeft}), After: m.names([]int{after})})
			left, atLeft = r, after
		}
		left = right
	}
	return found
}
