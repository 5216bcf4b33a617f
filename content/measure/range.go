package measure

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed data/*.csv
var data embed.FS

// Range tells which values of a measure are usual. The bounds are engineering choices
// around usual values: some true eyes lie outside, so even Refuse needs an override.
type Range struct {
	Usual    [2]float64 // printed without comment
	Warn     [2]float64 // outside: print, but ask for a note
	Reject   [2]float64 // outside: almost certainly a slip of unit, point or key
	Unit     string
	Decimals int    // to print
	Source   string // where the usual range is from
}

// Verdict is what to do with a value.
type Verdict int

// The verdicts.
const (
	Accept Verdict = iota
	Ask
	Refuse
)

// String names the verdict.
func (v Verdict) String() string {
	return [...]string{"accept", "ask", "refuse"}[max(0, min(int(v), 2))]
}

// Judge compares a value, in the range's unit, with the bounds; the bounds belong to the
// better side. A value that is not a number is refused.
func (r Range) Judge(v float64) Verdict {
	switch {
	case v >= r.Warn[0] && v <= r.Warn[1]:
		return Accept
	case v >= r.Reject[0] && v <= r.Reject[1]:
		return Ask
	}
	return Refuse
}

// Words tells the usual range: "usually 2.0 to 2.8 mm".
func (r Range) Words() string {
	return fmt.Sprintf("usually %s to %s %s", strconv.FormatFloat(r.Usual[0], 'f', r.Decimals, 64),
		strconv.FormatFloat(r.Usual[1], 'f', r.Decimals, 64), r.Unit)
}

// rangeKey is a measure and the procedure, step or visit its range belongs to.
type rangeKey struct{ measure, context string }

var loadRanges = sync.OnceValue(func() map[rangeKey]Range {
	out := map[rangeKey]Range{}
	for _, row := range readData("data/ranges.csv") {
		decimals, _ := strconv.Atoi(row[9])
		r := bounds(row[3:9])
		r.Unit, r.Decimals, r.Source = row[2], decimals, row[10]
		out[rangeKey{row[0], row[1]}] = r
	}
	return out
})

var loadStrengths = sync.OnceValue(func() map[string]Range {
	out := map[string]Range{}
	for _, row := range readData("data/strengths.csv") {
		r := bounds(row[2:8])
		r.Unit, r.Decimals, r.Source = row[1], 3, row[8]
		out[row[0]] = r
	}
	return out
})

// readData reads an embedded table without its header. A test reads both whole, so a fault
// in them cannot reach a user; here it would only leave rows out.
func readData(name string) [][]string {
	b, err := data.ReadFile(name)
	if err != nil {
		return nil
	}
	rows, err := csv.NewReader(strings.NewReader(string(b))).ReadAll()
	if err != nil || len(rows) == 0 {
		return nil
	}
	return rows[1:]
}

// bounds reads six cells: usual, warn and reject, low and high.
func bounds(cells []string) Range {
	var v [6]float64
	for i := range v {
		v[i], _ = strconv.ParseFloat(cells[i], 64)
	}
	return Range{Usual: [2]float64{v[0], v[1]}, Warn: [2]float64{v[2], v[3]}, Reject: [2]float64{v[4], v[5]}}
}

// Plausible gives the range of a measure. Some ranges belong to a procedure ("msics"), a
// step ("sculpting") or a visit ("day-1"): the first context that has one wins, and the
// general range serves otherwise. It is false for a measure without a range.
func Plausible(measureTermID string, contexts ...string) (Range, bool) {
	table := loadRanges()
	for _, c := range contexts {
		if r, ok := table[rangeKey{measureTermID, c}]; ok {
			return r, true
		}
	}
	r, ok := table[rangeKey{measureTermID, ""}]
	return r, ok
}

// PlausibleStrength gives the range of a drug, dye, gas or viscoelastic by its term id, in
// mg/mL, mg or %. It checks typed numbers only and never prepares a drug: strengths defer
// to local protocol, pharmacy and licensed practice.
func PlausibleStrength(item string) (Range, bool) {
	r, ok := loadStrengths()[item]
	return r, ok
}

// JudgeStrength compares a strength as written with its item's range. It is false where
// the item has no range or the writing cannot be compared with it: a percentage of a drug
// known by its dose, say.
func JudgeStrength(item string, c Concentration) (Verdict, Range, bool) {
	r, ok := PlausibleStrength(item)
	if !ok {
		return Accept, r, false
	}
	v, comparable := 0.0, false
	switch {
	case r.Unit == "mg/mL":
		v, comparable = c.MilligramsPerML()
	case r.Unit == "%" && c.Form == PercentStrength:
		v, comparable = c.Amount, true
	case r.Unit == "mg" && (c.Form == MassStrength || c.Form == MassInVolume && c.Volume != 1):
		v, comparable = c.Amount, true
	}
	if !comparable {
		return Accept, r, false
	}
	return r.Judge(v), r, true
}
