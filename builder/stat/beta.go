package stat

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// betaQuantile inverts the distribution function of Beta(a, b), a and b > 0,
// at p. gonum's inverse may stop a few digits early in a far tail, so its
// answer is polished by bisection inside a bracket that it does not leave.
func betaQuantile(p, a, b float64) float64 {
	if !(a > 0 && b > 0) || !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	if p == 0 || p == 1 {
		return p
	}
	low, high := 0.0, 1.0
	guess := distuv.Beta{Alpha: a, Beta: b}.Quantile(p)
	for _, width := range []float64{1e-12, 1e-9, 1e-6, 1e-3} {
		l, h := guess*(1-width), math.Min(1, guess*(1+width))
		if mathext.RegIncBeta(a, b, l) <= p && mathext.RegIncBeta(a, b, h) >= p {
			low, high = l, h
			break
		}
	}
	for range 1100 { // enough halvings to reach the smallest float64
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			break
		}
		if mathext.RegIncBeta(a, b, middle) < p {
			low = middle
		} else {
			high = middle
		}
	}
	return low + (high-low)/2
}

// Posterior is what is known of a branch's probability after counting.
type Posterior struct {
	// Alpha and Beta are the parameters of the Beta distribution, > 0.
	Alpha, Beta float64
	Mean, SD    float64
	// Mode is NaN unless both parameters are above 1.
	Mode              float64
	Low, Median, High float64
}

// BetaPosterior updates a Beta(priorAlpha, priorBeta) prior by x branches
// taken of n:
//
//	Beta(priorAlpha + x, priorBeta + n - x)
//
// with mean α/(α+β), variance αβ/((α+β)²(α+β+1)) and the equal-tailed interval
// at level. With x = 0 the lower limit is above 0 although nothing was seen:
// state the prior beside it. Domain: priors > 0, 0 <= x <= n (n may be 0);
// otherwise every field is NaN.
//
// Gelman A et al. Bayesian Data Analysis (from memory).
func BetaPosterior(x, n int, priorAlpha, priorBeta, level float64) Posterior {
	if x < 0 || x > n || !(priorAlpha > 0 && priorBeta > 0) || !(level > 0 && level < 1) {
		nan := math.NaN()
		return Posterior{nan, nan, nan, nan, nan, nan, nan, nan}
	}
	a, b := priorAlpha+float64(x), priorBeta+float64(n-x)
	d := distuv.Beta{Alpha: a, Beta: b}
	p := Posterior{Alpha: a, Beta: b, Mean: d.Mean(), SD: d.StdDev(), Mode: math.NaN()}
	if a > 1 && b > 1 {
		p.Mode = d.Mode()
	}
	tail := (1 - level) / 2
	p.Low, p.Median = betaQuantile(tail, a, b), betaQuantile(0.5, a, b)
	p.High = 1 - betaQuantile(tail, b, a)
	return p
}

// DirichletMean gives the posterior mean of each branch of a node with several,
// (countᵢ + priorᵢ) / Σ(count + prior). Domain: equal lengths, counts >= 0,
// priors > 0; otherwise nil.
//
// Gelman A et al. Bayesian Data Analysis (from memory).
func DirichletMean(counts []int, prior []float64) []float64 {
	if len(counts) != len(prior) {
		return nil
	}
	total := 0.0
	for i, c := range counts {
		if c < 0 || !(prior[i] > 0) {
			return nil
		}
		total += float64(c) + prior[i]
	}
	mean := make([]float64, len(counts))
	for i, c := range counts {
		mean[i] = (float64(c) + prior[i]) / total
	}
	return mean
}
