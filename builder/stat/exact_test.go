package stat_test

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"caseleaf/builder/stat"
)

// exactFisher is the two-sided p by whole numbers only: products of binomial
// coefficients, compared exactly.
func exactFisher(a, b, c, d int) float64 {
	n1, n2, m := int64(a+b), int64(c+d), int64(a+c)
	weight := func(k int64) *big.Int {
		return new(big.Int).Mul(new(big.Int).Binomial(n1, k), new(big.Int).Binomial(n2, m-k))
	}
	observed, sum := weight(int64(a)), new(big.Int)
	for k := max(0, m-n2); k <= min(n1, m); k++ {
		if w := weight(k); w.Cmp(observed) <= 0 {
			sum.Add(sum, w)
		}
	}
	p, _ := new(big.Rat).SetFrac(sum, new(big.Int).Binomial(n1+n2, m)).Float64()
	return p
}

// TestFisherAgainstWholeNumbers holds the floating-point test, ties included,
// against exact arithmetic.
func TestFisherAgainstWholeNumbers(t *testing.T) {
	r := source()
	ties := 0
	for range 3000 {
		limit := 3 + r.IntN(60)
		a, b, c, d := r.IntN(limit), r.IntN(limit), r.IntN(limit), r.IntN(limit)
		want, got := exactFisher(a, b, c, d), stat.FisherExact(a, b, c, d)
		if math.Abs(got.TwoSided-want) > 1e-12*want {
			t.Fatalf("FisherExact(%d, %d, %d, %d) = %v, want %v", a, b, c, d, got.TwoSided, want)
		}
		if got.TwoSided > got.Less+1e-12 && got.TwoSided > got.Greater+1e-12 {
			ties++ // both tails are in the sum
		}
		swapped := stat.FisherExact(c, d, a, b)
		if math.Abs(swapped.TwoSided-got.TwoSided) > 1e-12 || math.Abs(swapped.Less-got.Greater) > 1e-12 {
			t.Fatalf("FisherExact(%d, %d, %d, %d): groups swapped %+v, %+v", a, b, c, d, swapped, got)
		}
	}
	if ties == 0 {
		t.Error("no table used both tails: the draw tests nothing")
	}
}

// TestFisherTableAgreesWithTwoByTwo holds the general test against the special
// one, and against a plain enumeration for larger tables.
func TestFisherTableAgreesWithTwoByTwo(t *testing.T) {
	r := source()
	for range 500 {
		a, b, c, d := r.IntN(20), r.IntN(20), r.IntN(20), r.IntN(20)
		want := stat.FisherExact(a, b, c, d).TwoSided
		got, err := stat.FisherExactTable([][]int{{a, b}, {c, d}})
		if err != nil || math.Abs(got-want) > 1e-9*want {
			t.Fatalf("table %d %d / %d %d = %v, %v; want %v", a, b, c, d, got, err, want)
		}
	}
	for range 60 {
		table := randomTable(r, 2+r.IntN(2), 2+r.IntN(3), 4)
		want := enumeratedFisher(table)
		got, err := stat.FisherExactTable(table)
		if err != nil || math.Abs(got-want) > 1e-9 {
			t.Fatalf("table %v = %v, %v; want %v", table, got, err, want)
		}
	}
}

func randomTable(r *rand.Rand, rows, columns, limit int) [][]int {
	t := make([][]int, rows)
	for i := range t {
		for range columns {
			t[i] = append(t[i], r.IntN(limit))
		}
	}
	return t
}

// enumeratedFisher visits every table with the margins, cell by cell.
func enumeratedFisher(table [][]int) float64 {
	rows, columns := make([]int, len(table)), make([]int, len(table[0]))
	total := 0
	weight := func(t [][]int) float64 {
		s := 0.0
		for _, row := range t {
			for _, v := range row {
				g, _ := math.Lgamma(float64(v) + 1)
				s -= g
			}
		}
		return s
	}
	for i, row := range table {
		for j, v := range row {
			rows[i] += v
			columns[j] += v
			total += v
		}
	}
	if total == 0 {
		return 1
	}
	observed, below, all := weight(table), 0.0, 0.0
	filled := make([][]int, len(table))
	for i := range filled {
		filled[i] = make([]int, len(columns))
	}
	var place func(i, j int)
	place = func(i, j int) {
		if i == len(rows) {
			for _, c := range columns {
				if c != 0 {
					return
				}
			}
			w := weight(filled)
			all += math.Exp(w)
			if w <= observed+1e-7 {
				below += math.Exp(w)
			}
			return
		}
		if j == len(columns) {
			if rows[i] == 0 {
				place(i+1, 0)
			}
			return
		}
		for v := 0; v <= min(rows[i], columns[j]); v++ {
			filled[i][j] = v
			rows[i], columns[j] = rows[i]-v, columns[j]-v
			place(i, j+1)
			rows[i], columns[j] = rows[i]+v, columns[j]+v
		}
	}
	place(0, 0)
	return below / all
}

func TestFisherTableRefusesWhatWouldNotEnd(t *testing.T) {
	table := randomTable(source(), 8, 8, 200)
	p, err := stat.FisherExactTable(table)
	if !errors.Is(err, stat.ErrTableTooLarge) || !math.IsNaN(p) {
		t.Errorf("8 x 8 of thousands = %v, %v; want ErrTableTooLarge", p, err)
	}
	if _, err := stat.FisherExactTable([][]int{{1, 2}, {3}}); err == nil {
		t.Error("a ragged table is accepted")
	}
}

func TestHolmKeepsOrder(t *testing.T) {
	r := source()
	for range draws {
		p := make([]float64, 1+r.IntN(9))
		for i := range p {
			p[i] = r.Float64()
		}
		adjusted := stat.Holm(p)
		for i := range p {
			if adjusted[i] < p[i] || adjusted[i] > 1 {
				t.Fatalf("Holm(%v) = %v", p, adjusted)
			}
			for j := range p {
				if p[i] < p[j] && adjusted[i] > adjusted[j] {
					t.Fatalf("Holm(%v) = %v turns an order round", p, adjusted)
				}
			}
		}
	}
	got := stat.Holm([]float64{0.01, math.NaN(), 0.04})
	if got[0] != 0.02 || !math.IsNaN(got[1]) || got[2] != 0.04 {
		t.Errorf("a comparison that was not made counts: %v", got)
	}
}

// Trap: the upper tail must be taken directly. (check values, mh-titanic-test)
func TestSmallTailsAreNotZero(t *testing.T) {
	p := stat.MantelHaenszelTest(titanic).P
	if !(p > 7.3e-81 && p < 7.4e-81) {
		t.Errorf("Titanic: p = %v, want 7.37e-81", p)
	}
}
