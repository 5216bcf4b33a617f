package stat_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"caseleaf/builder/stat"
)

// TestLimitsByExactTails: the signal counts against a tail summed term by term,
// and the mirror form exactly 1/n above the published one.
func TestLimitsByExactTails(t *testing.T) {
	r := source()
	for range 100 {
		n, target := 1+r.IntN(150), 0.005+0.6*r.Float64()
		for _, tail := range []float64{stat.Tail95, stat.Tail998} {
			l := stat.ControlLimits(n, target, tail)
			if !(0 <= l.Low && l.Low <= target+1/float64(n) && l.High <= l.HighMirror && l.HighMirror <= 1) {
				t.Fatalf("n %d, target %v: %+v", n, target, l)
			}
			if unclamped := l.High + 1/float64(n); l.High > 0 && unclamped < 1 && math.Abs(l.HighMirror-unclamped) > 1e-9 {
				t.Fatalf("n %d, target %v: mirror %v, published %v", n, target, l.HighMirror, l.High)
			}
			for x := 0; x <= n; x++ {
				high, low := binomialTail(n, target, x) <= tail, 1-binomialTail(n, target, x+1) <= tail
				if l.Outside(x) != (high || low) {
					t.Fatalf("n %d, target %v, tail %v: %d events outside = %v", n, target, tail, x, l.Outside(x))
				}
			}
		}
	}
}

// Trap 1: with 10 operations and a target of 2 %, one event lies above the drawn
// line and is no signal. (check values, funnel-03)
func TestOneEventInTenIsNoSignal(t *testing.T) {
	l := stat.ControlLimits(10, 0.02, stat.Tail95)
	if !(0.1 > l.High) || l.Outside(1) || !l.Outside(2) {
		t.Errorf("%+v: want 1/10 above the line and inside, 2/10 outside", l)
	}
}

// TestRunLengthBySimulation holds the chain against 20,000 simulated series.
func TestRunLengthBySimulation(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1999))
	for _, c := range []struct {
		risk, ratio, limit, p float64
	}{{0.05, 2, 2, 0.05}, {0.05, 2, 2, 0.1}, {0.1, 0.5, 1.5, 0.1}, {0.1, 0.5, 1.5, 0.05}} {
		w := stat.OddsWeights(c.risk, c.ratio)
		sum, squares := 0.0, 0.0
		const runs = 20000
		for range runs {
			steps, score := 0.0, 0.0
			for score < c.limit {
				steps++
				weight := w.NoEvent
				if r.Float64() < c.p {
					weight = w.Event
				}
				score = math.Max(0, score+weight)
			}
			sum += steps
			squares += steps * steps
		}
		mean := sum / runs
		se := math.Sqrt((squares/runs - mean*mean) / runs)
		if got := stat.RunLength(w, c.limit, c.p); math.Abs(got-mean) > 4*se {
			t.Errorf("%+v: %v, simulated %v ± %v", c, got, mean, se)
		}
	}
	if l := stat.RunLength(stat.OddsWeights(0.02, 1), 2, 0.02); !math.IsInf(l, 1) {
		t.Errorf("a ratio of 1 signals after %v", l)
	}
}

func TestCUSUMStaysAtZeroWithoutEvents(t *testing.T) {
	path := stat.CUSUM(make([]bool, 50), []float64{0.02}, 2, 1, true)
	if slices.Max(path.Scores) != 0 || len(path.Signals) != 0 {
		t.Errorf("%+v", path)
	}
	if path := stat.CUSUM(make([]bool, 3), []float64{0.1, 0.2}, 2, 1, true); path.Scores != nil {
		t.Errorf("risks for two of three operations: %+v", path)
	}
}

func TestQuantilesAreOrderedAndUnmoved(t *testing.T) {
	r := source()
	for range draws {
		values := make([]float64, 1+r.IntN(30))
		for i := range values {
			values[i] = float64(r.IntN(40))
		}
		before := slices.Clone(values)
		s := stat.Summarise(values)
		if !slices.Equal(before, values) {
			t.Fatal("the caller's values were sorted")
		}
		if !slices.IsSorted([]float64{s.Min, s.Lower, s.Median, s.Upper, s.Max}) {
			t.Fatalf("%v: %+v", values, s)
		}
		for d := stat.Definition(1); d <= 9; d++ {
			last := math.Inf(-1)
			for p := 0.0; p <= 1; p += 0.05 {
				q := stat.Quantile(values, p, d)
				if q < last-1e-9 || q < s.Min || q > s.Max {
					t.Fatalf("definition %d of %v falls at %v", d, values, p)
				}
				last = q
			}
		}
	}
}

func TestSuppressLeavesNoLineWithOneHole(t *testing.T) {
	r := source()
	for range draws {
		table := randomTable(r, 2+r.IntN(4), 2+r.IntN(4), 15)
		s := stat.Suppress(table, 5)
		columns := make([]int, len(table[0]))
		for i, row := range table {
			inRow := 0
			for j, v := range row {
				if s.Hidden[i][j] {
					inRow++
					columns[j]++
				}
				if v > 0 && v < 5 && !s.Hidden[i][j] {
					t.Fatalf("%v shows %d", table, v)
				}
			}
			if inRow == 1 {
				t.Fatalf("%v: row %d hides one cell", table, i)
			}
		}
		if slices.Contains(columns, 1) {
			t.Fatalf("%v: a column hides one cell", table)
		}
	}
}
