package measure

import (
	"cmp"
	"math"
	"slices"
)

// CompareAcuity orders from worse to better sight by rank: no light perception, light
// perception, hand movements, counting fingers (nearer is worse, where both distances are
// told), then any measured acuity by logMAR. No substitution is needed.
func CompareAcuity(a, b Acuity) int {
	la, oka := a.LogMAR()
	lb, okb := b.LogMAR()
	switch {
	case oka && okb:
		return cmp.Compare(lb, la)
	case oka:
		return 1
	case okb:
		return -1
	case a.Kind != b.Kind:
		return cmp.Compare(b.Kind, a.Kind)
	case a.Distance > 0 && b.Distance > 0:
		return cmp.Compare(a.Distance, b.Distance)
	}
	return 0
}

// MedianAcuity gives the middle acuity by rank; of an even number of eyes it gives both
// middle ones, worse first, since the middle of "HM" and "6/60" has no name. It is false
// for an empty list. Acuities of no kind are left out.
func MedianAcuity(list []Acuity) (worse, better Acuity, ok bool) {
	var known []Acuity
	for _, a := range list {
		if a.Kind != NoAcuity {
			known = append(known, a)
		}
	}
	if len(known) == 0 {
		return Acuity{}, Acuity{}, false
	}
	slices.SortStableFunc(known, CompareAcuity)
	n := len(known)
	return known[(n-1)/2], known[n/2], true
}

// AcuityMean is an average in logMAR, which is the geometric mean of decimals. Averaging
// decimals is wrong: 20/20 and 20/200 average to 20/63, not to 0.55 (Holladay 2004).
type AcuityMean struct {
	LogMAR   float64
	N        int // eyes averaged
	Replaced int // of these, categories given a number by the table
	Left     int // eyes left out: no number
}

// MeanAcuity averages the measured acuities. Categories are left out and counted, unless a
// table is named; light perception and its absence are left out always. N is 0, and LogMAR
// NaN, where nothing was measured.
func MeanAcuity(list []Acuity, table LowVisionTable) AcuityMean {
	m, sum := AcuityMean{LogMAR: math.NaN()}, 0.0
	for _, a := range list {
		v, ok := a.LogMAR()
		if !ok && a.Kind < LightPerception {
			v, ok = table.Substitute(a)
			if ok {
				m.Replaced++
			}
		}
		if !ok {
			m.Left++
			continue
		}
		sum += v
		m.N++
	}
	if m.N > 0 {
		m.LogMAR = sum / float64(m.N)
	}
	return m
}
