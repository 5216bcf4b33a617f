package tally_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"caseleaf/builder/tally"
	"caseleaf/content"
)

// published is what a reader of a published result knows of one complication (or
// of the operations): each printed count by name and the sums that tie them.
type published struct {
	counts map[string]tally.Count
	// operations are the counts that this one's are among; nil for themselves.
	operations map[string]tally.Count
	names      []string
	sums       [][2][]string // left names and right names that add up to the same
}

func (p *published) set(name string, c tally.Count) {
	if _, ok := p.counts[name]; !ok {
		p.counts[name] = c
		p.names = append(p.names, name)
	}
}

// addUp notes that a total is the sum of its parts.
func (p *published) addUp(total string, parts []string) {
	p.sums = append(p.sums, [2][]string{{total}, parts})
}

// read collects one complication's counts from the rows as they are printed; with
// "" it collects the operations.
func read(r *tally.Result, complication string) *published {
	p := &published{counts: map[string]tally.Count{}}
	pick := func(rate tally.Rate) tally.Count {
		if complication == "" {
			return rate.Operations
		}
		return rate.Events
	}
	wanted := func(c string) bool { return c == complication || complication == "" }
	techniques, strata, periods, units := []string{}, map[string][]string{}, []string{}, []string{}
	perTechnique, grades := map[string][]string{}, map[string][]string{}
	for _, row := range r.Complications {
		if wanted(row.Complication) {
			name := "technique " + row.Technique
			if _, ok := p.counts[name]; !ok {
				techniques = append(techniques, name)
			}
			p.set(name, pick(row.Rate))
		}
	}
	seen := map[string]bool{}
	for _, row := range r.ByStratum {
		name := fmt.Sprint("cell ", row.Technique, "/", row.Stratum)
		if wanted(row.Complication) && !seen[name] {
			seen[name] = true
			p.set(name, pick(row.Rate))
			strata[string(row.Stratum)] = append(strata[string(row.Stratum)], name)
			perTechnique["technique "+row.Technique] = append(perTechnique["technique "+row.Technique], name)
		}
	}
	for _, row := range r.ByGrade {
		name := fmt.Sprint("grade ", row.Stratum, "/", row.Grade)
		if wanted(row.Complication) && !seen[name] {
			seen[name] = true
			p.set(name, pick(row.Rate))
			grades[string(row.Stratum)] = append(grades[string(row.Stratum)], name)
		}
	}
	for _, row := range r.ByPeriod {
		name := "period " + row.Period
		if wanted(row.Complication) && !seen[name] {
			seen[name] = true
			p.set(name, pick(row.Rate))
			periods = append(periods, name)
		}
	}
	for _, row := range r.LimitsByComplication {
		name := "unit " + row.Unit
		if wanted(string(row.Complication)) && !seen[name] {
			seen[name] = true
			c := row.Events
			if complication == "" {
				c = row.Operations
			}
			p.set(name, c)
			units = append(units, name)
		}
	}
	for t, cells := range perTechnique {
		p.addUp(t, cells)
	}
	for s, cells := range strata {
		p.sums = append(p.sums, [2][]string{cells, grades[s]})
	}
	p.sums = append(p.sums, [2][]string{techniques, periods}, [2][]string{techniques, units})
	if complication == "" {
		p.set("all", r.Source.Operations)
		p.addUp("all", techniques)
	}
	return p
}

// ranges gives what the mark of each hidden count leaves of it. Where every
// withheld count is in truth at least threshold, the reader is granted to know it.
func (p *published) ranges(truth *published, threshold, most int) map[string][2]int {
	least := threshold
	for name, c := range p.counts {
		if c.Hidden == tally.Withheld && truth.counts[name].N < threshold {
			least = 1
		}
	}
	out := map[string][2]int{}
	for name, c := range p.counts {
		switch c.Hidden {
		case tally.Small:
			out[name] = [2]int{1, threshold - 1}
		case tally.Withheld:
			out[name] = [2]int{least, most}
		default:
			continue
		}
		if n, ok := p.operations[name]; ok && n.Hidden == tally.Shown { // never more events than operations
			out[name] = [2]int{out[name][0], min(out[name][1], n.N)}
		}
	}
	return out
}

// solved names the hidden counts that have one value only, by linear
// programming: each is made as small and as large as everything printed allows.
func (p *published) solved(t *testing.T, truth *published, threshold, most int) []string {
	t.Helper()
	var names []string
	ranges := p.ranges(truth, threshold, most)
	for _, name := range p.names {
		if _, hidden := ranges[name]; hidden {
			names = append(names, name)
		}
	}
	rows, right := p.equations(names, ranges)
	var out []string
	for k, name := range names {
		var ends [2]float64
		for side, sign := range []float64{1, -1} {
			cost := make([]float64, 2*len(names))
			cost[k] = sign
			value, err := minimise(cost, rows, right)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			ends[side] = sign * value
		}
		if ends[1]-ends[0] < 0.5 {
			out = append(out, name)
		}
	}
	return out
}

// equations writes the sums and the ranges as A·x = b, x >= 0: x are the hidden
// counts less their least value, then what each lacks to its largest.
func (p *published) equations(names []string, ranges map[string][2]int) (rows [][]float64, right []float64) {
	place := map[string]int{}
	for k, name := range names {
		place[name] = k
	}
	for _, s := range p.sums {
		row, rest := make([]float64, 2*len(names)), 0.0
		for side, sign := range []float64{1, -1} {
			for _, name := range s[side] {
				if k, hidden := place[name]; hidden {
					row[k] += sign
					rest -= sign * float64(ranges[name][0])
				} else {
					rest -= sign * float64(p.counts[name].N)
				}
			}
		}
		rows, right = append(rows, row), append(right, rest)
	}
	for k, name := range names {
		row := make([]float64, 2*len(names))
		row[k], row[len(names)+k] = 1, 1
		rows, right = append(rows, row), append(right, float64(ranges[name][1]-ranges[name][0]))
	}
	return independent(rows, right)
}

// independent drops equations that follow from others; the simplex method wants
// none.
func independent(rows [][]float64, right []float64) ([][]float64, []float64) {
	var kept [][]float64
	var keptRight []float64
	var reduced [][]float64
	for i, row := range rows {
		r := slices.Clone(row)
		for _, q := range reduced {
			lead := slices.IndexFunc(q, func(v float64) bool { return v != 0 })
			if f := r[lead] / q[lead]; f != 0 {
				for j := range r {
					r[j] -= f * q[j]
				}
			}
		}
		for j := range r {
			if math.Abs(r[j]) < 1e-9 {
				r[j] = 0
			}
		}
		if slices.ContainsFunc(r, func(v float64) bool { return v != 0 }) {
			reduced = append(reduced, r)
			kept, keptRight = append(kept, row), append(keptRight, right[i])
		}
	}
	return kept, keptRight
}

func minimise(cost []float64, rows [][]float64, right []float64) (float64, error) {
	a := mat.NewDense(len(rows), len(cost), nil)
	for i, row := range rows {
		a.SetRow(i, row)
	}
	value, _, err := lp.Simplex(cost, a, right, 1e-9, nil)
	return value, err
}

// shape is how many groups a drawn logbook has.
type shape struct{ techniques, strata, grades, periods, units int }

// logbook draws operations over few groups, so that small counts and small
// remainders are everywhere. One group of each kind is larger than the others.
func logbook(r *rand.Rand, s shape, operations int, risk float64) *tally.Counter {
	c := &tally.Counter{}
	group := func(n int) int { return min(r.IntN(n), r.IntN(n)) }
	for range operations {
		o := content.Operation{
			Technique: fmt.Sprint("t", group(s.techniques)), Risk: fmt.Sprint("s", group(s.strata)),
			Surgeon: content.Grades()[group(s.grades)], Period: fmt.Sprint("202", group(s.periods)), Unit: fmt.Sprint("u", group(s.units)),
		}
		if r.Float64() < risk {
			o.Complications = []string{"tear"}
		}
		c.Add(&o)
	}
	return c
}

// TestPublishedTablesCannotBeSolved looks, for every hidden count of many drawn
// logbooks, for another table that agrees with all that is printed and with what
// the marks say, of operations and of events.
func TestPublishedTablesCannotBeSolved(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2018))
	small, withheld, shown := 0, 0, 0
	for run := range 120 {
		s, operations, risk := shape{2, 2, 2, 2, 2}, 6+r.IntN(50), 0.3
		if run%3 == 0 {
			s, operations, risk = shape{4, 3, 3, 4, 3}, 100+r.IntN(1500), 0.02+0.1*r.Float64()
		}
		threshold := 3 + r.IntN(4)
		all := logbook(r, s, operations, risk).Result(tally.Settings{Threshold: threshold})
		p := all.Published()
		for _, complication := range []string{"", "tear"} {
			known, truth := read(p, complication), read(all, complication)
			if complication != "" {
				known.operations = read(p, "").counts
			}
			for _, n := range known.names {
				switch known.counts[n].Hidden {
				case tally.Small:
					small++
				case tally.Withheld:
					withheld++
				default:
					shown++
					if n := truth.counts[n].N; n > 0 && n < threshold {
						t.Fatalf("run %d, %q: %d is shown below %d", run, complication, n, threshold)
					}
				}
			}
			if found := known.solved(t, truth, threshold, operations+20); len(found) > 0 {
				t.Fatalf("run %d, %q: %v can be worked out of %v", run, complication, found, known.counts)
			}
		}
	}
	t.Logf("%d counts shown, %d small, %d withheld", shown, small, withheld)
	if small < 700 || withheld < 700 || shown < 700 {
		t.Errorf("%d shown, %d small and %d withheld counts: the logbooks test nothing", shown, small, withheld)
	}
}

// TestTheSearchFindsALeak: the attack itself works, for with the small counts
// hidden alone it recovers them. (check values, supp-02)
func TestTheSearchFindsALeak(t *testing.T) {
	p := &published{counts: map[string]tally.Count{}}
	p.set("all", tally.Count{N: 22})
	p.set("a", tally.Count{N: 12})
	p.set("b", tally.Count{Hidden: tally.Small})
	p.set("c", tally.Count{N: 7})
	p.addUp("all", []string{"a", "b", "c"})
	truth := &published{counts: map[string]tally.Count{"b": {N: 3}}}
	if found := p.solved(t, truth, 5, 30); len(found) != 1 || found[0] != "b" {
		t.Errorf("found %v, want b", found)
	}
}

// TestRangesHoldTheTruth: what is said in place of a withheld comparison is true
// of the hidden counts.
func TestRangesHoldTheTruth(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	ranges, reversals := 0, 0
	for range 120 {
		all := logbook(r, shape{3, 3, 3, 2, 2}, 150+r.IntN(900), 0.03+0.1*r.Float64()).Result(tally.Settings{Threshold: 5})
		p := all.Published()
		for i, row := range p.Stratified {
			truth := all.Stratified[i]
			if row.Reversal && !truth.Reversal {
				t.Fatalf("a reversal is printed that is none: %+v, %+v", row, truth)
			}
			if row.Note != "" && row.Reversal {
				reversals++
			}
			b := row.OddsRatioBetween
			if b == nil {
				continue
			}
			ranges++
			if truth.OddsRatio.Value < b.Low-1e-12 || truth.OddsRatio.Value > b.High+1e-12 {
				t.Fatalf("odds ratio %v is not in %+v", truth.OddsRatio.Value, *b)
			}
			d := row.RiskDifferenceBetween
			if d == nil || truth.RiskDifference.Value < d.Low-1e-12 || truth.RiskDifference.Value > d.High+1e-12 {
				t.Fatalf("difference %v is not in %+v", truth.RiskDifference.Value, d)
			}
			if row.OddsRatio.Value.Defined() || row.CrudeOddsRatio.Defined() {
				t.Fatalf("a figure beside its range: %+v", row)
			}
		}
	}
	t.Logf("%d ranges, %d reversals among withheld rows", ranges, reversals)
	if ranges < 30 {
		t.Errorf("%d ranges: the logbooks test nothing", ranges)
	}
}

// TestTwinsAreHiddenTogether: one unit is the only one to use a technique, so its
// row and the technique's are the same operations. Where one is hidden, as here
// by a small neighbour, the other must be.
func TestTwinsAreHiddenTogether(t *testing.T) {
	p := counted([]group{
		{technique: "chop", risk: "low", surgeon: content.Consultant, events: 9, size: 90, period: "2024", unit: "A"},
		{technique: "divide", risk: "low", surgeon: content.Consultant, events: 30, size: 300, period: "2024", unit: "B"},
		{technique: "laser", risk: "low", surgeon: content.Consultant, events: 2, size: 60, period: "2024", unit: "B"},
	}).Result(tally.Settings{Threshold: 5}).Published()
	var technique, unit tally.Count
	for _, row := range p.Complications {
		if row.Technique == "chop" {
			technique = row.Events
		}
	}
	for _, row := range p.LimitsByComplication {
		if row.Unit == "A" {
			unit = row.Events
		}
	}
	if technique.Hidden == tally.Shown || unit.Hidden == tally.Shown {
		t.Errorf("chop %v and unit A %v, of which the first is withheld beside laser's 2", technique, unit)
	}
}
