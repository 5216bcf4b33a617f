package stat

import "math"

// HomogeneityTest asks whether the strata share one odds ratio; a small p says
// that a single pooled figure hides a difference.
type HomogeneityTest struct {
	// Statistic is Breslow and Day's, P its p value.
	Statistic, P float64
	// Tarone is the statistic less Tarone's correction, TaroneP its p value.
	Tarone, TaroneP float64
	// DF is the number of informative strata less one.
	DF int
}

// BreslowDay compares each informative stratum (all four margins positive) with
// the count â fitted from the pooled odds ratio:
//
//	Σ(a-â)²/V,  V = 1/(1/â + 1/(n1-â) + 1/(m1-â) + 1/(n2-m1+â))
//	Tarone: less (Σ(a-â))²/ΣV
//
// Fewer than two informative strata, or a pooled odds ratio of 0 or +Inf, leave
// nothing to compare: p is NaN (and DF 0 or less).
//
// Breslow NE, Day NE. Statistical Methods in Cancer Research I, 1980; Tarone RE.
// Biometrika 1985;72:91-95.
func BreslowDay(strata []Table) HomogeneityTest {
	nan := math.NaN()
	pooled := MantelHaenszelOddsRatio(strata, 0.95).Value
	var statistic, gap, variance float64
	informative := 0
	for _, t := range strata {
		if !t.valid() || !t.informative() {
			continue
		}
		informative++
		n1, n2 := float64(t.size1()), float64(t.size2())
		m1 := float64(t.Events1 + t.Events2)
		fitted := fittedEvents(pooled, n1, n2, m1)
		v := 1 / (1/fitted + 1/(n1-fitted) + 1/(m1-fitted) + 1/(n2-m1+fitted))
		difference := float64(t.Events1) - fitted
		statistic += difference * difference / v
		gap, variance = gap+difference, variance+v
	}
	r := HomogeneityTest{statistic, nan, statistic - gap*gap/variance, nan, informative - 1}
	if !(pooled > 0) || math.IsInf(pooled, 0) {
		r.Statistic, r.Tarone = nan, nan
		return r
	}
	r.P, r.TaroneP = chiSquareTail(r.Statistic, r.DF), chiSquareTail(r.Tarone, r.DF)
	return r
}

// fittedEvents is the root in (max(0, m1-n2), min(n1, m1)) of
//
//	â(n2-m1+â) = OR(n1-â)(m1-â)
//
// written in the form that does not cancel: for b < 0 (only possible below a
// ratio of 1, where a is not near 0) the plain one, otherwise its conjugate.
func fittedEvents(oddsRatio, n1, n2, m1 float64) float64 {
	a := oddsRatio - 1
	b := oddsRatio*(n1+m1) + n2 - m1
	c := oddsRatio * n1 * m1
	root := math.Sqrt(math.Max(0, b*b-4*a*c))
	if b < 0 {
		return (b - root) / (2 * a)
	}
	return 2 * c / (b + root)
}
