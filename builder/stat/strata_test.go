package stat_test

import (
	"math"
	"testing"

	"caseleaf/builder/stat"
)

// Open data sets that ship with R (package datasets).
var (
	// UCBAdmissions: admitted and rejected, men then women, departments A to F.
	// Bickel PJ et al. Science 1975;187:398-404.
	admissions = []stat.Table{
		{512, 313, 89, 19}, {353, 207, 17, 8}, {120, 205, 202, 391},
		{138, 279, 131, 244}, {53, 138, 94, 299}, {22, 351, 24, 317},
	}
	// Titanic: survived and not, women then men, 1st to 3rd class and crew.
	titanic = []stat.Table{
		{141, 4, 62, 118}, {93, 13, 25, 154}, {90, 106, 88, 422}, {20, 3, 192, 670},
	}
)

// TestOpenData sets our results beside what R prints for data that ships with
// it: to the digits printed, from R's own help pages and examples.
func TestOpenData(t *testing.T) {
	// mantelhaen.test(UCBAdmissions): X-squared = 1.4269, p = 0.2323, common
	// odds ratio 0.9046968, interval 0.7719074 to 1.0603298; the departments'
	// odds ratios are printed in its help page (R 4.2.2).
	or, test := stat.MantelHaenszelOddsRatio(admissions, 0.95), stat.MantelHaenszelTest(admissions)
	printed(t, "UCBAdmissions odds ratio", or.Value, 0.9046968, 7)
	printed(t, "UCBAdmissions low", or.Low, 0.7719074, 7)
	printed(t, "UCBAdmissions high", or.High, 1.0603298, 7)
	printed(t, "UCBAdmissions X-squared", test.Corrected, 1.4269, 4)
	printed(t, "UCBAdmissions p", test.CorrectedP, 0.2323, 4)
	for i, want := range []float64{0.349, 0.803, 1.133, 0.921, 1.222, 0.828} {
		printed(t, "UCBAdmissions department", admissions[i].Odds(), want, 3)
	}
	s := stat.CompareStrata(admissions)
	printed(t, "UCBAdmissions crude odds ratio", s.CrudeOddsRatio, 1.84108, 5)
	if !s.Reversal {
		t.Error("UCBAdmissions: the reversal is not seen")
	}
	// chisq.test(margin.table(HairEyeColor, c(1, 2))): X-squared = 138.29, df =
	// 9 (R 4.2.2; from memory of its printed output).
	hair := [][]int{{68, 20, 15, 5}, {119, 84, 54, 29}, {26, 17, 14, 14}, {7, 94, 10, 16}}
	c := stat.ChiSquare(hair, false)
	printed(t, "HairEyeColor X-squared", c.Statistic, 138.29, 2)
	if c.DF != 9 {
		t.Errorf("HairEyeColor: %d degrees of freedom", c.DF)
	}
	// summary(women$weight): 115.0, 124.5, 135.0, 148.0, 164.0 (R 4.2.2; from
	// memory of its printed output).
	w := stat.Summarise([]float64{115, 117, 120, 123, 126, 129, 132, 135, 139, 142, 146, 150, 154, 159, 164})
	if want := (stat.Summary{15, 115, 124.5, 135, 148, 164}); w != want {
		t.Errorf("women$weight: %v, want %v", w, want)
	}
}

// printed compares to the decimals that the source prints.
func printed(t *testing.T, what string, got, want float64, decimals int) {
	t.Helper()
	scale := math.Pow(10, float64(decimals))
	if math.Round(got*scale) != math.Round(want*scale) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func TestPoolingSwapsAndRepeats(t *testing.T) {
	r := source()
	for range draws {
		strata := make([]stat.Table, 1+r.IntN(6))
		swapped := make([]stat.Table, len(strata))
		for i := range strata {
			x1, n1 := pair(r, 200)
			x2, n2 := pair(r, 200)
			strata[i], swapped[i] = stat.Of(x1, n1, x2, n2), stat.Of(x2, n2, x1, n1)
		}
		rd, back := stat.MantelHaenszelRiskDifference(strata, 0.95), stat.MantelHaenszelRiskDifference(swapped, 0.95)
		if math.Abs(rd.Value+back.Value) > 1e-12 || math.Abs(rd.SESato-back.SESato) > 1e-9 {
			t.Fatalf("%v: difference %v, swapped %v", strata, rd, back)
		}
		if rd.Value < -1 || rd.Value > 1 || rd.Low > rd.Value || rd.High < rd.Value {
			t.Fatalf("%v: difference %v", strata, rd)
		}
		or, inverse := stat.MantelHaenszelOddsRatio(strata, 0.95), stat.MantelHaenszelOddsRatio(swapped, 0.95)
		if or.Estimable() && math.Abs(or.Value*inverse.Value-1) > 1e-9 {
			t.Fatalf("%v: odds ratio %v, swapped %v", strata, or, inverse)
		}
		// An empty stratum, and one without events, add nothing to the ratio.
		more := append([]stat.Table{{}, stat.Of(0, 7, 0, 9)}, strata...)
		if with := stat.MantelHaenszelOddsRatio(more, 0.95); or.Estimable() && with.Value != or.Value {
			t.Fatalf("%v: empty strata change %v to %v", strata, or.Value, with.Value)
		}
	}
}

// TestOneStratumIsTheCrudeTable: pooling one table gives that table's own
// figures.
func TestOneStratumIsTheCrudeTable(t *testing.T) {
	one := []stat.Table{stat.Of(16, 27, 5, 25)}
	crude := stat.OddsRatio(16, 27, 5, 25, 0, 0.95)
	pooled := stat.MantelHaenszelOddsRatio(one, 0.95)
	if math.Abs(crude.Value-pooled.Value) > 1e-12 || math.Abs(crude.SELog-pooled.SELog) > 1e-12 {
		t.Errorf("pooled %v, crude %v", pooled, crude)
	}
	if s := stat.CompareStrata(one); s.Reversal {
		t.Error("one stratum reverses itself")
	}
}

// TestBreslowDayFitsTheRatio: the fitted counts must give back the pooled odds
// ratio, for ratios far from 1 on either side, so the statistic of strata that
// have exactly one odds ratio is 0.
func TestBreslowDayFitsTheRatio(t *testing.T) {
	for _, strata := range [][]stat.Table{
		{{1, 1, 1, 1}, {10, 10, 10, 10}},
		{{90, 10, 10, 10}, {9, 1, 1, 1}},
		{{1, 99, 50, 50}, {10, 990, 500, 500}},
		{{50, 50, 1, 99}, {500, 500, 10, 990}},
	} {
		if h := stat.BreslowDay(strata); math.Abs(h.Statistic) > 1e-9 || h.DF != 1 || math.Abs(h.P-1) > 1e-4 {
			t.Errorf("%v: %+v, want 0 on 1 degree of freedom", strata, h)
		}
	}
}
