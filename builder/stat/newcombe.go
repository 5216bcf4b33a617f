package stat

import "math"

// Newcombe is the hybrid score interval for the difference of two proportions,
// group 1 less group 2. With Wilson limits (l1, u1) and (l2, u2), d = p1 - p2:
//
//	low  = d - √((p1-l1)² + (u2-p2)²)
//	high = d + √((u1-p1)² + (p2-l2)²)
//
// It never leaves [-1, 1]; swapping the groups negates and swaps the limits.
// An empty group gives all NaN.
//
// Newcombe RG. Stat Med 1998;17:873-890, method 10.
func Newcombe(x1, n1, x2, n2 int, level float64) Estimate {
	w1, w2 := Wilson(x1, n1, level), Wilson(x2, n2, level)
	d := w1.Value - w2.Value
	return Estimate{
		Value: d,
		Low:   d - math.Hypot(w1.Value-w1.Low, w2.High-w2.Value),
		High:  d + math.Hypot(w1.High-w1.Value, w2.Value-w2.Low),
	}
}
