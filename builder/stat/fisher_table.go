package stat

import (
	"errors"
	"math"
	"slices"
	"sort"
)

// ErrTableTooLarge is the answer of [FisherExactTable] to a table whose exact
// enumeration would take too long; [ChiSquare] serves such a table, for its
// expected counts are then large.
var ErrTableTooLarge = errors.New("table too large for an exact test")

// tableWork bounds the steps of FisherExactTable (a second or two of work).
const tableWork = 3_000_000

// FisherExactTable is the exact test of a rows x columns table (Freeman and
// Halton): the probability, given the margins, of all tables no more probable
// than the observed one. Empty rows and columns are dropped first; a table with
// fewer than two of either left has one outcome, so p is 1. Ragged rows and
// negative counts give NaN and an error; too large a table gives NaN and
// [ErrTableTooLarge].
//
// A table's weight is Π 1/xᵢⱼ!. All columns but two are filled one after the
// other, equal pasts (same rows left over, same weight so far) being merged; the
// last two are then looked up in the sorted weights of all their fillings. This
// is the idea of the network algorithm, with a meeting in the middle instead of
// its path bounds. Ties are told with the slack of [FisherExact].
//
// Freeman GH, Halton JH. Biometrika 1951;38:141-149; Mehta CR, Patel NR. J Am
// Stat Assoc 1983;78:427-434 (both from memory).
func FisherExactTable(table [][]int) (float64, error) {
	t, ok := dropEmpty(table)
	if !ok {
		return math.NaN(), errors.New("not a table of counts")
	}
	if len(t) < 2 || len(t[0]) < 2 {
		return 1, nil
	}
	if len(t) < len(t[0]) {
		t = transposed(t) // long columns, few of them: fewer stages
	}
	rows, columns, total := margins(t)
	e := newEnumeration(total)
	observed := 0.0
	for _, row := range t {
		for _, v := range row {
			observed -= e.logFactorial[v]
		}
	}
	slices.Sort(columns) // small columns first: fewer pasts to carry
	p := e.pValue(rows, columns, observed+tieSlack)
	if e.work > tableWork {
		return math.NaN(), ErrTableTooLarge
	}
	// Σ over all tables of Π 1/xᵢⱼ! is n!/(Π rows! Π columns!).
	all := e.logFactorial[total]
	for _, m := range slices.Concat(rows, columns) {
		all -= e.logFactorial[m]
	}
	return math.Min(1, p*math.Exp(e.shift-all)), nil
}

// transposed swaps rows and columns.
func transposed(table [][]int) [][]int {
	t := make([][]int, len(table[0]))
	for j := range t {
		for i := range table {
			t[j] = append(t[j], table[i][j])
		}
	}
	return t
}

// enumeration carries what the stages of FisherExactTable share.
type enumeration struct {
	logFactorial []float64
	work         int
	// shift is added back to logarithms: weights are kept near 1 by it.
	shift float64
}

func newEnumeration(total int) *enumeration {
	e := &enumeration{logFactorial: make([]float64, total+1)}
	for i := 2; i <= total; i++ {
		e.logFactorial[i] = e.logFactorial[i-1] + math.Log(float64(i))
	}
	return e
}

// past is one way to have filled the columns so far: the rows' remainders and,
// for each weight met (as its logarithm in units of 1e-9, well inside the tie
// slack), in how many fillings.
type past struct {
	rows     []int
	fillings map[int64]float64
}

const logUnit = 1e9

// pValue sums the weights of all tables whose log weight is at most bound,
// scaled by e^-shift.
func (e *enumeration) pValue(rows, columns []int, bound float64) float64 {
	stage := map[string]*past{"": {rows, map[int64]float64{0: 1}}}
	for _, column := range columns[:len(columns)-2] {
		next := map[string]*past{}
		for _, p := range stage {
			e.fill(p.rows, column, func(left []int, logWeight float64) {
				key := rowsKey(left)
				q := next[key]
				if q == nil {
					q = &past{slices.Clone(left), map[int64]float64{}}
					next[key] = q
				}
				step := int64(math.Round(logWeight * logUnit))
				for w, times := range p.fillings {
					q.fillings[w+step] += times
				}
				e.work += len(p.fillings)
			})
		}
		if e.work > tableWork {
			return math.NaN()
		}
		stage = next
	}
	e.shift = bound // every weight counted is at most e^bound
	return e.meet(stage, columns[len(columns)-2], bound)
}

// meet joins each past with the fillings of the last two columns.
func (e *enumeration) meet(stage map[string]*past, column int, bound float64) float64 {
	keys := make([]string, 0, len(stage))
	for k := range stage {
		keys = append(keys, k)
	}
	sort.Strings(keys) // a fixed order of summation: the same bytes each run
	sum := 0.0
	for _, k := range keys {
		p := stage[k]
		var ends []float64
		e.fill(p.rows, column, func(left []int, logWeight float64) {
			for _, v := range left {
				logWeight -= e.logFactorial[v]
			}
			ends = append(ends, logWeight)
		})
		if e.work > tableWork {
			return math.NaN()
		}
		slices.Sort(ends)
		below := make([]float64, len(ends)+1)
		for i, w := range ends {
			below[i+1] = below[i] + math.Exp(w-ends[len(ends)-1])
		}
		for _, w := range sortedWeights(p.fillings) {
			soFar := float64(w) / logUnit
			i := sort.SearchFloat64s(ends, math.Nextafter(bound-soFar, math.Inf(1)))
			sum += p.fillings[w] * below[i] * math.Exp(soFar+ends[len(ends)-1]-e.shift)
		}
		e.work += len(p.fillings)
	}
	return sum
}

// fill calls yield with the rows' remainders and the log weight of every way
// to put column items into the rows. left is used again: copy it to keep it.
func (e *enumeration) fill(rows []int, column int, yield func(left []int, logWeight float64)) {
	left := slices.Clone(rows)
	after := make([]int, len(rows)+1) // what the rows from i on can still take
	for i := len(rows) - 1; i >= 0; i-- {
		after[i] = after[i+1] + rows[i]
	}
	var place func(i, rest int, logWeight float64)
	place = func(i, rest int, logWeight float64) {
		if e.work > tableWork {
			return
		}
		if i == len(rows) {
			e.work++
			yield(left, logWeight)
			return
		}
		for x := max(0, rest-after[i+1]); x <= min(rows[i], rest); x++ {
			left[i] = rows[i] - x
			place(i+1, rest-x, logWeight-e.logFactorial[x])
		}
		left[i] = rows[i]
	}
	place(0, column, 0)
}

// rowsKey names a multiset of remainders: rows that differ in order only are
// the same past.
func rowsKey(left []int) string {
	sorted := slices.Clone(left)
	slices.Sort(sorted)
	key := make([]byte, 0, 4*len(sorted))
	for _, v := range sorted {
		key = append(key, byte(v), byte(v>>8), byte(v>>16), byte(v>>24))
	}
	return string(key)
}

// sortedWeights gives the weights met in ascending order.
func sortedWeights(fillings map[int64]float64) []int64 {
	w := make([]int64, 0, len(fillings))
	for k := range fillings {
		w = append(w, k)
	}
	slices.Sort(w)
	return w
}
