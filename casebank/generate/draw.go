package main

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"strings"
)

// header is the first line of the logbook.
const header = "period,technique,surgeon,risk,complications,unit,step,acuity_before,acuity_after\n"

// row is one operation before it is written down.
type row struct {
	period, technique, surgeon, risk, unit string
	complications                          []string // in the order in which they began
	step                                   string   // where the first began, empty for none
	before, after                          string   // after is empty when the eye was not seen again
}

// weighted is a value with its weight in a draw, or a cause with the factor by which
// it raises a chance.
type weighted struct {
	value  string
	weight float64
}

// dice draws from a seeded source. Only the raw 64-bit words of the PCG generator
// are used, because its stream is fixed while the functions above it may change.
type dice struct{ source *rand.PCG }

// uniform returns the next number in [0, 1).
func (d dice) uniform() float64 { return float64(d.source.Uint64()>>11) / (1 << 53) }

// pick returns an index with a chance in proportion to its weight.
func (d dice) pick(weights []float64) int {
	total := 0.0
	for _, w := range weights {
		total += w
	}
	left := d.uniform() * total
	for i, w := range weights {
		if left < w {
			return i
		}
		left -= w
	}
	return len(weights) - 1
}

// value is pick for named values.
func (d dice) value(from []weighted) string {
	weights := make([]float64, len(from))
	for i, w := range from {
		weights[i] = w.weight
	}
	return from[d.pick(weights)].value
}

// logbook draws the whole logbook as CSV. The same seed gives the same bytes.
func logbook(seed uint64) []byte {
	var out bytes.Buffer
	out.WriteString(header)
	for _, r := range draw(seed) {
		// No field can hold a comma, a quote or a line end: all come from the tables.
		out.WriteString(strings.Join([]string{
			r.period, r.technique, r.surgeon, r.risk, strings.Join(r.complications, " "),
			r.unit, r.step, r.before, r.after,
		}, ","))
		out.WriteByte('\n')
	}
	return out.Bytes()
}

// draw returns the operations in the order in which they were done. Periods are
// filled by their share, not drawn, so that every quarter has its size.
func draw(seed uint64) []row {
	d := dice{rand.NewPCG(seed, 0x6361736562616e6b)}
	rows := make([]row, 0, operations)
	total, filled := 0.0, 0.0
	for _, share := range periodShare {
		total += share
	}
	for i, share := range periodShare {
		filled += share
		for until := int(filled/total*operations + 0.5); len(rows) < until; {
			rows = append(rows, d.operation(periods[i]))
		}
	}
	return rows
}

// operation draws one row: the eye, then who operates, how, what happens, and what
// the eye sees.
func (d dice) operation(period string) row {
	r := row{period: period}
	r.unit = units[d.pick(unitShare)]
	r.risk = strata[d.pick(riskShare[r.unit])]
	r.surgeon = grades[d.pick(gradeShare[r.risk])]
	r.technique = techniques[d.pick(techniqueWeights(r.risk, r.surgeon))]
	happened := d.trouble(&r)
	r.before = d.value(acuityBefore[r.risk])
	if d.uniform() >= lostShare[r.risk] {
		r.after = d.value(acuityAfter[ending(r.risk, happened)])
	}
	return r
}

// techniqueWeights is the weight of each technique for an eye and a surgeon.
func techniqueWeights(risk, surgeon string) []float64 {
	weights := slices.Clone(techniqueByRisk[risk])
	for i := range weights {
		weights[i] *= techniqueByGrade[surgeon][i]
	}
	return weights
}

// trouble draws the complications of one operation into r and returns them as a
// set.
func (d dice) trouble(r *row) map[string]bool {
	happened := map[string]bool{}
	began := map[string]int{} // index of the step in the technique's own order
	steps := stepsOf[r.technique]
	for _, h := range hazards {
		if d.uniform() >= h.chance(*r, happened) {
			continue
		}
		weights := make([]float64, len(steps))
		for i, step := range steps {
			if i >= earliest(h.needs, began) {
				weights[i] = h.where[step]
			}
		}
		if slices.Max(weights) == 0 {
			continue // what it needs came too late in the operation for it
		}
		happened[h.complication] = true
		began[h.complication] = d.pick(weights)
		r.complications = append(r.complications, h.complication)
	}
	slices.SortStableFunc(r.complications, func(a, b string) int { return began[a] - began[b] })
	if len(r.complications) > 0 {
		r.step = steps[began[r.complications[0]]]
	}
	return happened
}

// earliest is the index of the first step at which something that needs one of
// these may begin: gel cannot come before the capsule has torn.
func earliest(needs []string, began map[string]int) int {
	first, found := 0, false
	for _, n := range needs {
		if at, ok := began[n]; ok && (!found || at < first) {
			first, found = at, true
		}
	}
	return first
}

// chance is the probability that the hazard strikes this operation, given what has
// already happened in it (see hazard for the formula). It is at most 0.95.
func (h hazard) chance(r row, happened map[string]bool) float64 {
	if len(h.needs) > 0 && !slices.ContainsFunc(h.needs, func(n string) bool { return happened[n] }) {
		return 0
	}
	p := h.perThousand[slices.Index(strata, r.risk)] / 1000 *
		h.byGrade[slices.Index(grades, r.surgeon)] *
		h.byTechnique[slices.Index(techniques, r.technique)]
	for _, cause := range h.after {
		if happened[cause.value] {
			p *= cause.weight
		}
	}
	if h.complication == worseUnit.complication && r.unit == worseUnit.unit && strings.HasPrefix(r.period, worseUnit.year) {
		p *= worseUnit.factor
	}
	return min(p, 0.95)
}
