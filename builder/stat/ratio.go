package stat

import "math"

// Ratio is a risk ratio or an odds ratio with its interval on the log scale.
type Ratio struct {
	Estimate
	// SELog is the standard error of the logarithm, NaN where there is none.
	SELog float64
}

// Estimable says whether the interval means anything: a ratio of 0, an infinite
// one, and one whose standard error is 0 (all events in both groups) are
// printed as "not estimable".
func (r Ratio) Estimable() bool { return r.SELog > 0 && !math.IsInf(r.SELog, 0) }

// noRatio is the ratio value without interval.
func noRatio(value float64) Ratio {
	return Ratio{Estimate{value, math.NaN(), math.NaN()}, math.NaN()}
}

// logInterval sets the limits value·exp(±z·se).
func logInterval(value, se, level float64) Ratio {
	z := normalQuantile(level)
	return Ratio{Estimate{value, value * math.Exp(-z*se), value * math.Exp(z*se)}, se}
}

// RiskRatio is (x1/n1)/(x2/n2) with the Katz interval,
//
//	exp(ln RR ± z√(1/x1 - 1/n1 + 1/x2 - 1/n2)).
//
// add is put into all four cells (so 2·add on each n): 0, or 0.5 for a table
// with a zero cell, which must then be named beside the figure. Without it a
// zero above gives 0, a zero below +Inf, both NaN, and none has limits. With
// all events in both groups the standard error is 0 and the interval collapses:
// see [Ratio.Estimable]. Counts outside 0 <= x <= n, n >= 1 give NaN.
//
// Katz D et al. Biometrics 1978;34:469-474 (from memory).
func RiskRatio(x1, n1, x2, n2 int, add, level float64) Ratio {
	if !validCount(x1, n1) || !validCount(x2, n2) {
		return noRatio(math.NaN())
	}
	a, m1 := float64(x1)+add, float64(n1)+2*add
	c, m2 := float64(x2)+add, float64(n2)+2*add
	switch {
	case a == 0 && c == 0:
		return noRatio(math.NaN())
	case c == 0:
		return noRatio(math.Inf(1))
	case a == 0:
		return noRatio(0)
	}
	variance := (m1-a)/(a*m1) + (m2-c)/(c*m2) // 1/a - 1/m1 without cancellation
	return logInterval((a/m1)/(c/m2), math.Sqrt(variance), level)
}

// OddsRatio is ad/bc for a = x1, b = n1-x1, c = x2, d = n2-x2 with the Woolf
// interval,
//
//	exp(ln OR ± z√(1/a + 1/b + 1/c + 1/d)).
//
// add is put into all four cells: 0, or 0.5 (Haldane, Anscombe) for a table with
// a zero cell, which must then be named beside the figure. Without it a table
// without events, or without non-events, gives NaN, a zero in b or c +Inf, a
// zero in a or d 0, and none has limits. Counts outside 0 <= x <= n, n >= 1 give
// NaN.
//
// Woolf B. Ann Hum Genet 1955;19:251-253 (from memory).
func OddsRatio(x1, n1, x2, n2 int, add, level float64) Ratio {
	if !validCount(x1, n1) || !validCount(x2, n2) {
		return noRatio(math.NaN())
	}
	a, b := float64(x1)+add, float64(n1-x1)+add
	c, d := float64(x2)+add, float64(n2-x2)+add
	switch {
	case a == 0 && c == 0 || b == 0 && d == 0:
		return noRatio(math.NaN())
	case b*c == 0:
		return noRatio(math.Inf(1))
	case a*d == 0:
		return noRatio(0)
	}
	return logInterval(a*d/(b*c), math.Sqrt(1/a+1/b+1/c+1/d), level)
}
