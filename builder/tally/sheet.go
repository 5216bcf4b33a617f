package tally

import (
	"cmp"
	"slices"

	"caseleaf/builder/stat"
	"caseleaf/content"
)

// level is the confidence of every interval.
const level = 0.95

// fewestForRate is the fewest operations of which a percentage is published.
const fewestForRate = 30

// split is a way in which operations are split; a key with it names one count.
type split uint8

const (
	byTotal split = iota
	byTechnique
	byTechniqueStratum
	byStratum
	byStratumGrade
	byPeriod
	byUnit
)

// key names one count of a layer: its split and its place in the indices.
type key struct {
	split split
	i, j  int
}

// at is the count that a key names.
func (l *layer) at(k key) int {
	switch k.split {
	case byTechnique:
		return l.techniqueStratum.row(k.i)
	case byTechniqueStratum:
		return l.techniqueStratum.at(k.i, k.j)
	case byStratum:
		return l.stratumGrade.row(k.i)
	case byStratumGrade:
		return l.stratumGrade.at(k.i, k.j)
	case byPeriod:
		return at(l.period, k.i)
	case byUnit:
		return at(l.unit, k.i)
	}
	return l.total
}

// mask says which counts of a layer are hidden.
type mask map[key]Hiding

// sheet is a counter with its tables' orders and, when it is published, its
// masks.
type sheet struct {
	*Counter
	settings Settings
	// The orders in which tables list the indices.
	technique, stratum, grade, period, unit, complication []int
	reference                                             int // -1 without
	published                                             bool
	operationsMask                                        mask
	eventsMask                                            []mask
}

// Settings is what a bank says about its tables.
type Settings struct {
	Reference string   // technique; empty: the most frequent one
	Strata    []string // in the order of the bank
	Threshold int      // counts 1 to Threshold-1 are small
}

func newSheet(c *Counter, s Settings) *sheet {
	t := &sheet{Counter: c, settings: s, reference: -1}
	most := func(l func(i int) int, x *index) func(a, b int) int {
		return func(a, b int) int {
			return cmp.Or(cmp.Compare(l(b), l(a)), cmp.Compare(x.names[a], x.names[b]))
		}
	}
	byName := func(x *index) func(a, b int) int {
		return func(a, b int) int { return cmp.Compare(x.names[a], x.names[b]) }
	}
	t.technique = ordered(&c.techniques, most(c.operations.techniqueStratum.row, &c.techniques))
	t.complication = ordered(&c.complications, most(func(i int) int { return c.events[i].total }, &c.complications))
	t.period, t.unit = ordered(&c.periods, byName(&c.periods)), ordered(&c.units, byName(&c.units))
	t.stratum = ordered(&c.strata, listed(&c.strata, s.Strata))
	var grades []string
	for _, g := range content.Grades() {
		grades = append(grades, string(g))
	}
	t.grade = ordered(&c.grades, listed(&c.grades, grades))
	t.placeReference()
	return t
}

// ordered gives the places of an index in an order.
func ordered(x *index, by func(a, b int) int) []int {
	order := make([]int, len(x.names))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, by)
	return order
}

// listed orders by a list, names outside it after it by name, and what was not
// recorded last.
func listed(x *index, list []string) func(a, b int) int {
	rank := func(i int) int {
		switch r := slices.Index(list, x.names[i]); {
		case x.names[i] == "":
			return len(list) + 1
		case r < 0:
			return len(list)
		default:
			return r
		}
	}
	return func(a, b int) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(x.names[a], x.names[b]))
	}
}

// placeReference puts the reference technique first.
func (t *sheet) placeReference() {
	if len(t.technique) == 0 {
		return
	}
	t.reference = t.technique[0]
	if t.settings.Reference == "" {
		return
	}
	i, ok := t.techniques.of[t.settings.Reference]
	if !ok {
		t.reference = -1 // named by the bank, but nobody used it
		return
	}
	t.reference = i
	at := slices.Index(t.technique, i)
	t.technique = slices.Insert(slices.Delete(t.technique, at, at+1), 0, i)
}

// size and event give counts as they may be shown.
func (t *sheet) size(k key) Count { return shownBy(t.operationsMask, k, t.operations.at(k)) }

func (t *sheet) event(complication int, k key) Count {
	var m mask
	if t.eventsMask != nil {
		m = t.eventsMask[complication]
	}
	return shownBy(m, k, t.events[complication].at(k))
}

func shownBy(m mask, k key, n int) Count {
	if h := m[k]; h != Shown {
		return Count{Hidden: h}
	}
	return count(n)
}

// rate gives events of operations with the interval, where both are shown and,
// on a published sheet, there are enough operations.
func (t *sheet) rate(complication int, k key) Rate {
	r := Rate{Events: t.event(complication, k), Operations: t.size(k), Rate: undefined}
	r.Interval = Interval{Method: "wilson", Level: level, Low: undefined, High: undefined}
	if t.percentage(r.Events, r.Operations) {
		w := stat.Wilson(r.Events.N, r.Operations.N, level)
		r.Rate, r.Interval.Low, r.Interval.High = Number(w.Value), Number(w.Low), Number(w.High)
	}
	return r
}

// percentage says whether a rate of these counts may be printed.
func (t *sheet) percentage(events, operations Count) bool {
	if events.Hidden != Shown || operations.Hidden != Shown || operations.N == 0 {
		return false
	}
	return !t.published || operations.N >= fewestForRate
}
