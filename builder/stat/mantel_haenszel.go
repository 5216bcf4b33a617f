package stat

import "math"

// MantelHaenszelOddsRatio pools the strata's odds ratios, with the variance of
// Robins, Breslow and Greenland:
//
//	OR = Σ(ad/n)/Σ(bc/n)
//	Var ln OR = ΣPR/2(ΣR)² + Σ(PS+QR)/2ΣRΣS + ΣQS/2(ΣS)²
//	P = (a+d)/n, Q = (b+c)/n, R = ad/n, S = bc/n
//
// Strata that are empty or have no event (or nothing else) add nothing. No
// informative stratum gives NaN; only one of ΣR, ΣS above 0 gives +Inf or 0
// without limits.
//
// Robins J, Breslow N, Greenland S. Biometrics 1986;42:311-323.
func MantelHaenszelOddsRatio(strata []Table, level float64) Ratio {
	var sumR, sumS, sumPR, sumMixed, sumQS float64
	for _, t := range strata {
		a, b, c, d, n := t.floats()
		if n == 0 || !t.valid() {
			continue
		}
		p, q, r, s := (a+d)/n, (b+c)/n, a*d/n, b*c/n
		sumR, sumS = sumR+r, sumS+s
		sumPR, sumMixed, sumQS = sumPR+p*r, sumMixed+p*s+q*r, sumQS+q*s
	}
	if sumR == 0 || sumS == 0 {
		return noRatio(sumR / sumS)
	}
	variance := sumPR/(2*sumR*sumR) + sumMixed/(2*sumR*sumS) + sumQS/(2*sumS*sumS)
	return logInterval(sumR/sumS, math.Sqrt(variance), level)
}

// MantelHaenszelRiskRatio pools the strata's risk ratios:
//
//	RR = Σ(a·n2/n)/Σ(c·n1/n)
//	Var ln RR = Σ((m1·n1·n2 - a·c·n)/n²)/(Σ(a·n2/n)·Σ(c·n1/n)),  m1 = a+c
//
// Strata without events add nothing. Edges as for [MantelHaenszelOddsRatio].
//
// Greenland S, Robins JM. Biometrics 1985;41:55-68.
func MantelHaenszelRiskRatio(strata []Table, level float64) Ratio {
	var above, below, variance float64
	for _, t := range strata {
		a, b, c, d, n := t.floats()
		if n == 0 || !t.valid() {
			continue
		}
		n1, n2 := a+b, c+d
		above, below = above+a*n2/n, below+c*n1/n
		variance += ((a+c)*n1*n2 - a*c*n) / (n * n)
	}
	if above == 0 || below == 0 {
		return noRatio(above / below)
	}
	return logInterval(above/below, math.Sqrt(variance/(above*below)), level)
}

// PooledDifference is a Mantel-Haenszel risk difference with both published
// variances; print one and name it. The interval of the Estimate is Sato's.
type PooledDifference struct {
	Estimate
	SESato              float64
	SEGreenlandRobins   float64
	LowGreenlandRobins  float64
	HighGreenlandRobins float64
}

// MantelHaenszelRiskDifference pools the strata's risk differences, group 1
// less group 2, W = Σ(n1·n2/n):
//
//	RD = Σ((a·n2 - c·n1)/n)/W
//	Sato:             Var = (RD·ΣP + ΣQ)/W²
//	                  P = (n1²c - n2²a + n1n2(n2-n1)/2)/n², Q = (a(n2-c) + c(n1-a))/2n
//	Greenland-Robins: Var = Σ((ab·n2³ + cd·n1³)/(n1·n2·n²))/W²
//
// Strata without events do count here, with a difference of 0. Strata in which
// one group is empty add nothing; if all are so, the result is NaN.
//
// Sato T, Greenland S, Robins JM. Biometrics 1989;45:1323-1324; Greenland S,
// Robins JM. Biometrics 1985;41:55-68.
func MantelHaenszelRiskDifference(strata []Table, level float64) PooledDifference {
	var weight, gap, sumP, sumQ, sumGR float64
	for _, t := range strata {
		if !t.BothGroups() || !t.valid() {
			continue
		}
		a, b, c, d, n := t.floats()
		n1, n2 := a+b, c+d
		weight += n1 * n2 / n
		gap += (a*n2 - c*n1) / n
		sumP += (n1*n1*c - n2*n2*a + n1*n2*(n2-n1)/2) / (n * n)
		sumQ += (a*(n2-c) + c*(n1-a)) / (2 * n)
		sumGR += (a*b*n2*n2*n2 + c*d*n1*n1*n1) / (n1 * n2 * n * n)
	}
	z := normalQuantile(level)
	rd := gap / weight
	sato := math.Sqrt(math.Max(0, rd*sumP+sumQ)) / weight
	gr := math.Sqrt(sumGR) / weight
	return PooledDifference{
		Estimate:            Estimate{rd, rd - z*sato, rd + z*sato},
		SESato:              sato,
		SEGreenlandRobins:   gr,
		LowGreenlandRobins:  rd - z*gr,
		HighGreenlandRobins: rd + z*gr,
	}
}

// AssociationTest is the Cochran-Mantel-Haenszel test, 1 degree of freedom.
type AssociationTest struct {
	Statistic, P float64
	// Corrected takes 0.5 off the absolute difference, where it is at least
	// 0.5; CorrectedP is its p value.
	Corrected, CorrectedP float64
}

// MantelHaenszelTest asks whether events and groups are associated within the
// strata:
//
//	(|Σa - Σn1m1/n| - Y)² / Σ(n1n2m1m2/(n²(n-1))),  Y = 0 or 0.5
//
// Empty strata and strata of one operation add nothing (the variance has n-1).
// No informative stratum gives NaN.
//
// Mantel N, Haenszel W. J Natl Cancer Inst 1959;22:719-748 (from memory).
func MantelHaenszelTest(strata []Table) AssociationTest {
	var gap, variance float64
	for _, t := range strata {
		a, b, c, d, n := t.floats()
		if n < 2 || !t.valid() {
			continue
		}
		n1, n2, m1, m2 := a+b, c+d, a+c, b+d
		gap += a - n1*m1/n
		variance += n1 * n2 * m1 * m2 / (n * n * (n - 1))
	}
	gap = math.Abs(gap)
	corrected := gap
	if gap >= 0.5 {
		corrected = gap - 0.5
	}
	r := AssociationTest{Statistic: gap * gap / variance, Corrected: corrected * corrected / variance}
	r.P, r.CorrectedP = chiSquareTail(r.Statistic, 1), chiSquareTail(r.Corrected, 1)
	return r
}
