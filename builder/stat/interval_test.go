package stat_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"caseleaf/builder/stat"
)

// draws is how many random tables each property is tried on.
const draws = 2000

// source is a fixed stream, so that a failure can be met again.
func source() *rand.Rand { return rand.New(rand.NewPCG(5, 2005)) }

// pair draws x of n with n from 1 to limit, ends included often.
func pair(r *rand.Rand, limit int) (x, n int) {
	n = 1 + r.IntN(limit)
	switch r.IntN(6) {
	case 0:
		return 0, n
	case 1:
		return n, n
	}
	return r.IntN(n + 1), n
}

func TestProportionIntervalsHoldTheEstimate(t *testing.T) {
	r := source()
	for name, interval := range map[string]func(x, n int, level float64) stat.Estimate{
		"Wilson": stat.Wilson, "WilsonCorrected": stat.WilsonCorrected, "ClopperPearson": stat.ClopperPearson,
	} {
		for range draws {
			x, n := pair(r, 5000)
			e := interval(x, n, 0.95)
			if !(0 <= e.Low && e.Low <= e.Value && e.Value <= e.High && e.High <= 1) {
				t.Fatalf("%s(%d, %d) = %v: estimate outside, or interval outside [0, 1]", name, x, n, e)
			}
			if x == 0 && e.Low != 0 || x == n && e.High != 1 {
				t.Fatalf("%s(%d, %d) = %v: an end is not exact", name, x, n, e)
			}
			// The same rate from ten times the operations is surer.
			if wide, narrow := e.High-e.Low, width(interval(10*x, 10*n, 0.95)); narrow >= wide {
				t.Fatalf("%s(%d, %d): width %v, ten times the operations %v", name, x, n, wide, narrow)
			}
			if wider := interval(x, n, 0.99); wider.Low > e.Low || wider.High < e.High {
				t.Fatalf("%s(%d, %d): the 99 %% interval does not hold the 95 %% one", name, x, n)
			}
			// Events and non-events are two names of one thing.
			m := interval(n-x, n, 0.95)
			if math.Abs(1-m.High-e.Low) > 1e-9 || math.Abs(1-m.Low-e.High) > 1e-9 {
				t.Fatalf("%s(%d, %d) = %v is not the mirror of %v", name, x, n, e, m)
			}
		}
	}
}

func width(e stat.Estimate) float64 { return e.High - e.Low }

// TestClopperPearsonTails asks the definition itself: at each limit the tail
// beyond x has exactly half of what the level leaves out.
func TestClopperPearsonTails(t *testing.T) {
	r := source()
	for range 300 {
		x, n := pair(r, 400)
		e := stat.ClopperPearson(x, n, 0.95)
		if x > 0 {
			if tail := binomialTail(n, e.Low, x); math.Abs(tail-0.025) > 1e-9 {
				t.Fatalf("%d/%d: P(R >= x) at the lower limit is %v", x, n, tail)
			}
		}
		if x < n {
			if tail := 1 - binomialTail(n, e.High, x+1); math.Abs(tail-0.025) > 1e-9 {
				t.Fatalf("%d/%d: P(R <= x) at the upper limit is %v", x, n, tail)
			}
		}
	}
}

// binomialTail sums P(R >= k) term by term, another way than the package's.
func binomialTail(n int, p float64, k int) float64 {
	lf := func(v int) float64 { g, _ := math.Lgamma(float64(v) + 1); return g }
	sum := 0.0
	for v := k; v <= n; v++ {
		sum += math.Exp(lf(n) - lf(v) - lf(n-v) + float64(v)*math.Log(p) + float64(n-v)*math.Log1p(-p))
	}
	return sum
}

func TestNewcombeSwaps(t *testing.T) {
	r := source()
	for range draws {
		x1, n1 := pair(r, 3000)
		x2, n2 := pair(r, 3000)
		d, s := stat.Newcombe(x1, n1, x2, n2, 0.95), stat.Newcombe(x2, n2, x1, n1, 0.95)
		if !(-1 <= d.Low && d.Low <= d.Value && d.Value <= d.High && d.High <= 1) {
			t.Fatalf("Newcombe(%d/%d, %d/%d) = %v", x1, n1, x2, n2, d)
		}
		if d.Value != -s.Value || math.Abs(d.Low+s.High) > 1e-15 || math.Abs(d.High+s.Low) > 1e-15 {
			t.Fatalf("Newcombe(%d/%d, %d/%d) = %v, swapped %v", x1, n1, x2, n2, d, s)
		}
	}
}

func TestRatiosSwap(t *testing.T) {
	r := source()
	for name, ratio := range map[string]func(x1, n1, x2, n2 int, add, level float64) stat.Ratio{
		"RiskRatio": stat.RiskRatio, "OddsRatio": stat.OddsRatio,
	} {
		for range draws {
			x1, n1 := pair(r, 3000)
			x2, n2 := pair(r, 3000)
			d, s := ratio(x1, n1, x2, n2, 0.5, 0.95), ratio(x2, n2, x1, n1, 0.5, 0.95)
			if !(0 < d.Low && d.Low <= d.Value && d.Value <= d.High) {
				t.Fatalf("%s(%d/%d, %d/%d) = %v", name, x1, n1, x2, n2, d)
			}
			if math.Abs(d.Value*s.Value-1) > 1e-12 || math.Abs(d.Low*s.High-1) > 1e-9 {
				t.Fatalf("%s(%d/%d, %d/%d) = %v, swapped %v", name, x1, n1, x2, n2, d, s)
			}
		}
	}
}

// Trap: all events in both groups leave no standard error, and "1 (1 to 1)" must
// be told from a real interval. (check values, rr-07)
func TestCollapsedRatioIsNotEstimable(t *testing.T) {
	if r := stat.RiskRatio(10, 10, 20, 20, 0, 0.95); r.Value != 1 || r.Low != 1 || r.High != 1 || r.Estimable() {
		t.Errorf("10/10 against 20/20 = %+v, want 1 (1 to 1), not estimable", r)
	}
	if r := stat.RiskRatio(0, 40, 6, 40, 0, 0.95); r.Estimable() {
		t.Errorf("0/40 against 6/40 = %+v, want not estimable", r)
	}
	if r := stat.RiskRatio(3, 40, 6, 40, 0, 0.95); !r.Estimable() {
		t.Errorf("3/40 against 6/40 = %+v, want estimable", r)
	}
}

func TestOutsideTheDomain(t *testing.T) {
	nan := math.IsNaN
	for name, undefined := range map[string]bool{
		"Wilson, more events than operations": nan(stat.Wilson(3, 2, 0.95).Low),
		"Wilson, negative":                    nan(stat.Wilson(-1, 2, 0.95).Value),
		"Wilson, level 1":                     nan(stat.Wilson(1, 2, 1).High),
		"ClopperPearson, no operations":       nan(stat.ClopperPearson(0, 0, 0.95).High),
		"BoundsOfNone, no operations":         nan(stat.BoundsOfNone(0, 0.95).OneSided),
		"Newcombe, empty group":               nan(stat.Newcombe(1, 2, 0, 0, 0.95).Value),
		"OddsRatio, empty group":              nan(stat.OddsRatio(1, 2, 0, 0, 0, 0.95).Value),
		"FisherExact, negative":               nan(stat.FisherExact(-1, 1, 1, 1).TwoSided),
		"ChiSquare, one row":                  nan(stat.ChiSquare([][]int{{1, 2}}, false).P),
		"MantelHaenszelOddsRatio, no strata":  nan(stat.MantelHaenszelOddsRatio(nil, 0.95).Value),
		"MantelHaenszelRiskRatio, no strata":  nan(stat.MantelHaenszelRiskRatio(nil, 0.95).Value),
		"difference, one group only": nan(stat.MantelHaenszelRiskDifference(
			[]stat.Table{stat.Of(1, 5, 0, 0)}, 0.95).Value),
		"MantelHaenszelTest, strata of one": nan(stat.MantelHaenszelTest([]stat.Table{stat.Of(1, 1, 0, 0)}).P),
		"BreslowDay, one stratum":           nan(stat.BreslowDay([]stat.Table{stat.Of(1, 5, 2, 6)}).P),
		"ControlLimits, target 2":           nan(stat.ControlLimits(5, 2, stat.Tail95).High),
		"OddsWeights, risk 2":               nan(stat.OddsWeights(2, 2).Event),
		"RiskWeights, risk 0":               nan(stat.RiskWeights(0, 0.1).Event),
		"RunLength, limit 0":                nan(stat.RunLength(stat.OddsWeights(0.1, 2), 0, 0.1)),
		"Quantile, no values":               nan(stat.Quantile(nil, 0.5, stat.Standard)),
		"Quantile, definition 10":           nan(stat.Quantile([]float64{1}, 0.5, 10)),
		"BetaPosterior, prior 0":            nan(stat.BetaPosterior(0, 1, 0, 1, 0.95).Mean),
		"DirichletMean, lengths":            stat.DirichletMean([]int{1}, []float64{1, 1}) == nil,
	} {
		if !undefined {
			t.Errorf("%s: a value where none is defined", name)
		}
	}
}
