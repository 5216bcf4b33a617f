package stat

import "math"

// ClopperPearson is the exact interval for x events in n operations:
//
//	low  = Beta⁻¹(α/2; x, n-x+1),  high = Beta⁻¹(1-α/2; x+1, n-x)
//
// with 0 and 1 at the ends. Domain 0 <= x <= n, n >= 1; otherwise all NaN.
//
// Clopper CJ, Pearson ES. Biometrika 1934;26:404-413 (from memory); Newcombe
// RG. Stat Med 1998;17:857-872, method 5.
func ClopperPearson(x, n int, level float64) Estimate {
	if !validCount(x, n) || !(level > 0 && level < 1) {
		return undefined
	}
	tail, a, b := (1-level)/2, float64(x), float64(n-x)
	e := Estimate{Value: float64(x) / float64(n)}
	if x > 0 {
		e.Low = betaQuantile(tail, a, b+1)
	}
	if x < n {
		// The upper limit for x is one less the lower limit for the n-x
		// operations without event; taking it so keeps the small tail.
		e.High = 1 - betaQuantile(tail, b, a+1)
	}
	return ended(x, n, e)
}

// ZeroBounds are three upper bounds on a rate of which no event was seen.
type ZeroBounds struct {
	// RuleOfThree is 3/n, capped at 1: one-sided, 95 %, approximate.
	RuleOfThree float64
	// OneSided is 1 - (1-level)^(1/n): the exact one-sided bound, which the
	// rule of three approximates at 95 %.
	OneSided float64
	// TwoSided is 1 - ((1-level)/2)^(1/n): the upper end of the two-sided
	// [ClopperPearson] interval, larger than OneSided.
	TwoSided float64
}

// BoundsOfNone gives the upper bounds after 0 events in n operations. Say which
// one is printed: they are not the same statement. Domain n >= 1; otherwise NaN.
//
// Hanley JA, Lippman-Hand A. JAMA 1983;249:1743-1745 (from memory).
func BoundsOfNone(n int, level float64) ZeroBounds {
	if n < 1 || !(level > 0 && level < 1) {
		return ZeroBounds{math.NaN(), math.NaN(), math.NaN()}
	}
	size := float64(n)
	// 1 - e^(ln(α)/n), by expm1 so that a large n keeps its digits.
	bound := func(alpha float64) float64 { return -math.Expm1(math.Log(alpha) / size) }
	return ZeroBounds{math.Min(1, 3/size), bound(1 - level), bound((1 - level) / 2)}
}
