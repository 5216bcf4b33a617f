// Package stat holds the statistics of the handout as pure functions of
// numbers: counts in, estimates out, one method a file.
//
// A one-minute tour. A proportion is read by [Wilson] (the interval printed
// beside every rate) or [ClopperPearson] (exact); two proportions by
// [Newcombe], [RiskRatio] and [OddsRatio]; a table by [FisherExact],
// [FisherExactTable] and [ChiSquare], many p values by [Holm]. Strata of
// 2 x 2 tables are pooled by [MantelHaenszel] and asked whether they agree by
// [BreslowDay]; [CompareStrata] sets the crude table beside them. Units are
// held against a target by [ControlLimits]; a series of operations by
// [CUSUM], [ObservedMinusExpected] and [RunLength]. Times are summarised by
// [Summarise]. [BetaPosterior] and [DirichletMean] update a branch of a
// decision tree; [Suppress] hides small counts.
//
//	w := stat.Wilson(3, 100, 0.95)
//	fmt.Printf("3/100, %.1f%% (%.1f to %.1f)\n", 100*w.Value, 100*w.Low, 100*w.High)
//
// Proportions and probabilities run from 0 to 1; a level is the two-sided
// confidence, 0.95 for 95 %. What is undefined is NaN (no operations, a ratio
// of 0 to 0) and what is infinite is +Inf; whoever prints turns NaN into a
// dash or null. Nothing here panics: an argument outside its domain gives NaN,
// or an error where a result has no number to be NaN in.
//
// Every method is held to the rows of testdata/check-values.
package stat

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Estimate is a number with the limits of its confidence interval, all NaN
// where undefined.
type Estimate struct {
	Value, Low, High float64
}

// undefined is the estimate of nothing.
var undefined = Estimate{math.NaN(), math.NaN(), math.NaN()}

// normalQuantile gives z with the two-sided level between -z and z:
// 1.959963984540054 for 0.95. A level outside (0, 1) gives NaN.
func normalQuantile(level float64) float64 {
	if !(level > 0 && level < 1) {
		return math.NaN()
	}
	return distuv.UnitNormal.Quantile(1 - (1-level)/2)
}

// validCount says whether x of n can be: 0 <= x <= n and n > 0.
func validCount(x, n int) bool { return n > 0 && x >= 0 && x <= n }
