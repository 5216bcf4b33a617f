package main

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
)

// TestLogbookIsTheDraw draws the logbook again. Nobody edits the file by hand.
func TestLogbookIsTheDraw(t *testing.T) {
	got, err := os.ReadFile("../logbook.csv")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, logbook(seed)) {
		t.Error("casebank/logbook.csv is not what the generator draws; run go generate in casebank")
	}
}

// TestTables checks that every table of shares has a figure for each entry of the
// list that it goes with, and that every hazard can begin somewhere wherever its
// technique factor lets it happen.
func TestTables(t *testing.T) {
	if len(periodShare) != len(periods) || len(unitShare) != len(units) {
		t.Error("a share is missing for a period or a unit")
	}
	for _, u := range units {
		if len(riskShare[u]) != len(strata) {
			t.Errorf("riskShare[%s] has %d figures", u, len(riskShare[u]))
		}
	}
	for _, s := range strata {
		if len(gradeShare[s]) != len(grades) || len(techniqueByRisk[s]) != len(techniques) {
			t.Errorf("stratum %s: a share is missing", s)
		}
	}
	for _, g := range grades {
		if len(techniqueByGrade[g]) != len(techniques) {
			t.Errorf("techniqueByGrade[%s] has %d figures", g, len(techniqueByGrade[g]))
		}
	}
	for _, h := range hazards {
		for i, technique := range techniques {
			possible := slices.ContainsFunc(stepsOf[technique], func(s string) bool { return h.where[s] > 0 })
			if h.byTechnique[i] > 0 && !possible {
				t.Errorf("%s may happen in %s but has no step to begin at", h.complication, technique)
			}
		}
	}
}

// share is events out of operations.
type share struct{ events, operations float64 }

func (s share) rate() float64 { return s.events / s.operations }

// count tallies one complication over the rows that keep says yes to, by stratum.
// The last entry is the total.
func count(rows []row, complication string, keep func(row) bool) [4]share {
	var out [4]share
	for _, r := range rows {
		if !keep(r) {
			continue
		}
		for _, i := range []int{slices.Index(strata, r.risk), 3} {
			out[i].operations++
			if slices.Contains(r.complications, complication) {
				out[i].events++
			}
		}
	}
	return out
}

// mantelHaenszel is the summary odds ratio of a against b over the three strata:
// the sum of a*d/n over the sum of b*c/n (Mantel and Haenszel 1959).
func mantelHaenszel(a, b [4]share) float64 {
	above, below := 0.0, 0.0
	for i := range strata {
		n := a[i].operations + b[i].operations
		above += a[i].events * (b[i].operations - b[i].events) / n
		below += b[i].events * (a[i].operations - a[i].events) / n
	}
	return above / below
}

func oddsRatio(a, b share) float64 {
	return a.events * (b.operations - b.events) / (b.events * (a.operations - a.events))
}

func byTechnique(name string) func(row) bool { return func(r row) bool { return r.technique == name } }
func byGrade(name string) func(row) bool     { return func(r row) bool { return r.surgeon == name } }

// reversal says what is missing for a to look worse than b in the crude table while
// it is better in every stratum, or nothing where the reversal is there.
func reversal(rows []row, complication string, a, b func(row) bool) []string {
	x, y := count(rows, complication, a), count(rows, complication, b)
	var missing []string
	if !(oddsRatio(x[3], y[3]) > 1) {
		missing = append(missing, fmt.Sprintf("%s: crude %v against %v is not worse", complication, x[3], y[3]))
	}
	for i, s := range strata {
		if !(x[i].rate() < y[i].rate()) {
			missing = append(missing, fmt.Sprintf("%s, %s: %v against %v is not better", complication, s, x[i], y[i]))
		}
	}
	if !(mantelHaenszel(x, y) < 1) {
		missing = append(missing, fmt.Sprintf("%s: summary odds ratio %.2f", complication, mantelHaenszel(x, y)))
	}
	return missing
}

// untold returns what the teaching needs and this draw does not show.
func untold(rows []row) []string {
	const tear = "posterior-capsule-tear"
	out := reversal(rows, "corneal-oedema", byTechnique("msics"), byTechnique("divide-and-conquer"))
	out = append(out, reversal(rows, tear, byGrade("consultant"), byGrade("trainee"))...)

	chop, divide := count(rows, tear, byTechnique("vertical-chop")), count(rows, tear, byTechnique("divide-and-conquer"))
	if crude, within := oddsRatio(chop[3], divide[3]), mantelHaenszel(chop, divide); !(crude > 1.05 && within < 0.95) {
		out = append(out, fmt.Sprintf("vertical chop: crude odds ratio %.2f, within strata %.2f", crude, within))
	}
	if p := count(rows, tear, func(row) bool { return true })[3].rate(); p < 0.02 || p > 0.045 {
		out = append(out, fmt.Sprintf("capsule tears in %.1f%% of operations", 100*p))
	}
	for _, year := range []string{"2024", "2025"} {
		observed, expected := tearsInWorseUnit(rows, year)
		if ratio := observed / expected; (year == worseUnit.year) != (ratio > 1.35) || ratio < 0.7 || ratio > 2.4 {
			out = append(out, fmt.Sprintf("unit %s in %s: %.0f tears, %.1f expected", worseUnit.unit, year, observed, expected))
		}
	}
	return out
}

// tearsInWorseUnit counts the tears of the worse unit in one year and the number that
// its case mix would give if it had done as the others did: the sum over its rows of
// the rate that the other units had in the same stratum.
func tearsInWorseUnit(rows []row, year string) (observed, expected float64) {
	others := count(rows, worseUnit.complication, func(r row) bool { return r.unit != worseUnit.unit })
	own := count(rows, worseUnit.complication, func(r row) bool {
		return r.unit == worseUnit.unit && strings.HasPrefix(r.period, year)
	})
	for i := range strata {
		expected += own[i].operations * others[i].rate()
	}
	return own[3].events, expected
}

// TestTheDrawTellsTheStory does the arithmetic that the frequency pages rest on, from
// the rows and by other code than theirs.
func TestTheDrawTellsTheStory(t *testing.T) {
	for _, missing := range untold(draw(seed)) {
		t.Error(missing)
	}
}

// TestTheTablesTellTheStory shows that the reversal is in the assumptions and not in
// the luck of the draw: the expected rates are summed over every kind of operation
// with its share.
func TestTheTablesTellTheStory(t *testing.T) {
	i := slices.IndexFunc(hazards, func(h hazard) bool { return h.complication == "corneal-oedema" })
	manual, manualBy := assumedRate(hazards[i], "msics")
	divided, dividedBy := assumedRate(hazards[i], "divide-and-conquer")
	if !(manual > 1.2*divided) {
		t.Errorf("assumed crude rates %.4f and %.4f do not differ clearly", manual, divided)
	}
	for _, s := range strata {
		if !(manualBy[s] < 0.8*dividedBy[s]) {
			t.Errorf("assumed rates in the %s stratum: %.4f and %.4f", s, manualBy[s], dividedBy[s])
		}
	}
}

// assumedRate is the expected rate of h in one technique, in all and by stratum,
// before anything in h.after.
func assumedRate(h hazard, technique string) (all float64, by map[string]float64) {
	by = map[string]float64{}
	events, operations := 0.0, 0.0
	k := slices.Index(techniques, technique)
	for _, s := range strata {
		e, n := 0.0, 0.0
		for i, u := range units {
			for j, g := range grades {
				w := normal(unitShare)[i] * normal(riskShare[u])[slices.Index(strata, s)] *
					normal(gradeShare[s])[j] * normal(techniqueWeights(s, g))[k]
				n += w
				e += w * h.chance(row{technique: technique, surgeon: g, risk: s}, nil)
			}
		}
		by[s] = e / n
		events, operations = events+e, operations+n
	}
	return events / operations, by
}

// normal scales shares to a sum of 1.
func normal(shares []float64) []float64 {
	total := 0.0
	for _, s := range shares {
		total += s
	}
	out := make([]float64, len(shares))
	for i, s := range shares {
		out[i] = s / total
	}
	return out
}

// TestCountsFollowTheirRates compares, for every hazard that waits for nothing, the
// number of events with the sum of their chances. Four standard deviations on 20
// comparisons is a chance of about 1 in 800 of a false alarm, paid once by the seed.
func TestCountsFollowTheirRates(t *testing.T) {
	rows := draw(seed)
	for _, h := range hazards {
		if len(h.needs)+len(h.after) > 0 {
			continue
		}
		mean, variance, seen := 0.0, 0.0, 0.0
		for _, r := range rows {
			p := h.chance(r, nil)
			mean, variance = mean+p, variance+p*(1-p)
			if slices.Contains(r.complications, h.complication) {
				seen++
			}
		}
		if math.Abs(seen-mean) > 4*math.Sqrt(variance) {
			t.Errorf("%s: %.0f seen, %.1f expected", h.complication, seen, mean)
		}
	}
}

// TestRowsAreWhole checks what any reader of the logbook may rely on.
func TestRowsAreWhole(t *testing.T) {
	rows := draw(seed)
	if len(rows) != operations {
		t.Errorf("%d rows, want %d", len(rows), operations)
	}
	for i, r := range rows {
		if (len(r.complications) == 0) != (r.step == "") {
			t.Errorf("row %d: step %q with complications %v", i+1, r.step, r.complications)
		}
		if r.step != "" && !slices.Contains(stepsOf[r.technique], r.step) {
			t.Errorf("row %d: %s has no step %s", i+1, r.technique, r.step)
		}
		lost := slices.Index(r.complications, "vitreous-loss")
		torn := slices.ContainsFunc(r.complications, func(c string) bool {
			return c == "posterior-capsule-tear" || c == "zonular-dialysis"
		})
		if lost >= 0 && !torn {
			t.Errorf("row %d: gel without a tear or a dialysis", i+1)
		}
		if lost == 0 {
			t.Errorf("row %d: gel before what let it through: %v", i+1, r.complications)
		}
	}
}

// TestSeedIsTheFirst holds the seed to what its comment says: no smaller one shows
// everything.
func TestSeedIsTheFirst(t *testing.T) {
	for s := uint64(1); s < seed; s++ {
		if len(untold(draw(s))) == 0 {
			t.Errorf("seed %d tells the story too, and comes before %d", s, uint64(seed))
		}
	}
}
