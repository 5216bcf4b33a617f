package stat

import "math"

// tieSlack is the relative slack within which two outcomes count as equally
// probable. Exact ties in the other tail are real, and floating-point
// probabilities of equal outcomes differ in their last digits; a plain <=
// would miss them and nearly halve the p value.
const tieSlack = 1e-7

// FisherP are the p values of Fisher's exact test of a 2 x 2 table.
type FisherP struct {
	// TwoSided adds every table with the same margins that is no more probable
	// than the observed one (minimum likelihood).
	TwoSided float64
	// Less and Greater are the lower and upper tail of the first cell.
	Less, Greater float64
	// Doubled is twice the smaller tail, capped at 1: another definition of
	// "two-sided", kept apart so that the two are never mistaken.
	Doubled float64
}

// FisherExact tests a, b / c, d: events and non-events of group 1, then of
// group 2. Cells must be >= 0, otherwise all NaN. A table without events,
// without non-events, or with an empty group has one outcome, so p is 1.
//
// The probability of first cell k is C(a+b, k)·C(c+d, a+c-k)/C(n, a+c). The
// probabilities are built outwards from the most probable outcome by the ratio
// of neighbours, which keeps their relative error near k·2⁻⁵², far below the
// slack of 1e-7 by which ties are told.
//
// Fisher RA. The Design of Experiments, 1935 (from memory).
func FisherExact(a, b, c, d int) FisherP {
	if a < 0 || b < 0 || c < 0 || d < 0 {
		nan := math.NaN()
		return FisherP{nan, nan, nan, nan}
	}
	n1, n2, m := a+b, c+d, a+c
	low, high := max(0, m-n2), min(n1, m)
	weight := hypergeometric(n1, n2, m, low, high)
	observed := weight[a-low] * (1 + tieSlack)
	var total, two, less, greater float64
	for i, w := range weight {
		total += w
		if w <= observed {
			two += w
		}
		if low+i <= a {
			less += w
		}
		if low+i >= a {
			greater += w
		}
	}
	p := FisherP{TwoSided: two / total, Less: less / total, Greater: greater / total}
	p.Doubled = math.Min(1, 2*math.Min(p.Less, p.Greater))
	return p
}

// hypergeometric gives the weights, the largest being 1, of first cells low to
// high of a table with group sizes n1 and n2 and m events.
func hypergeometric(n1, n2, m, low, high int) []float64 {
	weight := make([]float64, high-low+1)
	mode := int(float64(n1+1) * float64(m+1) / float64(n1+n2+2))
	mode = min(max(mode, low), high)
	weight[mode-low] = 1
	for k := mode; k < high; k++ { // w(k+1)/w(k)
		up := float64(n1-k) * float64(m-k)
		down := float64(k+1) * float64(n2-m+k+1)
		weight[k+1-low] = weight[k-low] * up / down
	}
	for k := mode; k > low; k-- { // w(k-1)/w(k)
		up := float64(k) * float64(n2-m+k)
		down := float64(n1-k+1) * float64(m-k+1)
		weight[k-1-low] = weight[k-low] * up / down
	}
	return weight
}
