package content

import (
	"iter"
	"maps"
	"slices"

	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
)

// Logbook is the consecutive record of operations: logbook.csv, the only
// source of rates. Rows are kept packed, about 40 bytes each, so that a
// logbook of a million operations fits into a laptop's memory.
type Logbook struct {
	Source *diagnose.Source
	// LeftOut counts rows with a fault; they were reported and aren't counted.
	LeftOut int

	rows   []packedRow
	names  []string // names[0] is ""
	sets   [][]string
	acuity []measure.Acuity // acuity[0] stands for none
	codes  map[string]uint16
	setOf  map[string]uint32
}

// Operation is one row of the logbook. Complications must not be changed.
type Operation struct {
	Line          int    // line of the file
	Period        string // 2025 or 2025-Q1
	Technique     string // term
	Surgeon       Grade
	Risk          string   // stratum id; empty when not recorded
	Complications []string // terms; empty for none
	Unit          string
	Step          string // term: where the first complication began
	Before, After Given[measure.Acuity]
}

// packedRow holds indices into the logbook's tables.
type packedRow struct {
	line                                         uint32
	set                                          uint32
	period, technique, surgeon, risk, unit, step uint16
	before, after                                uint16
}

// Len returns the number of operations.
func (l *Logbook) Len() int {
	if l == nil {
		return 0
	}
	return len(l.rows)
}

// All yields the operations in the order of the file.
func (l *Logbook) All() iter.Seq[Operation] {
	return func(yield func(Operation) bool) {
		for i := range l.Len() {
			if !yield(l.At(i)) {
				return
			}
		}
	}
}

// At returns operation i, from 0.
func (l *Logbook) At(i int) Operation {
	r := &l.rows[i]
	return Operation{
		Line: int(r.line), Period: l.names[r.period], Technique: l.names[r.technique], Surgeon: Grade(l.names[r.surgeon]),
		Risk: l.names[r.risk], Complications: l.sets[r.set], Unit: l.names[r.unit], Step: l.names[r.step],
		Before: l.given(r.before), After: l.given(r.after),
	}
}

// Periods lists the years and quarters that the logbook has, sorted.
func (l *Logbook) Periods() []string {
	seen := map[string]bool{}
	for i := range l.Len() {
		seen[l.names[l.rows[i].period]] = true
	}
	return slices.Sorted(maps.Keys(seen))
}

func (l *Logbook) given(code uint16) Given[measure.Acuity] {
	if code == 0 {
		return Given[measure.Acuity]{}
	}
	return Given[measure.Acuity]{Value: l.acuity[code], State: Known}
}

func newLogbook(src *diagnose.Source) *Logbook {
	return &Logbook{
		Source: src, names: []string{""}, sets: [][]string{nil}, acuity: make([]measure.Acuity, 1),
		codes: map[string]uint16{"": 0}, setOf: map[string]uint32{"": 0},
	}
}

// code returns the index of a name. It is called for a name that was checked,
// so there are few of them.
func (l *Logbook) code(name string) uint16 {
	if c, ok := l.codes[name]; ok {
		return c
	}
	c := uint16(len(l.names))
	l.codes[name] = c
	l.names = append(l.names, name)
	return c
}

// acuityCode keeps an acuity and returns its index.
func (l *Logbook) acuityCode(a measure.Acuity) uint16 {
	l.acuity = append(l.acuity, a)
	return uint16(len(l.acuity) - 1)
}
