package builder

import (
	"math"
	"strconv"
	"strings"

	"caseleaf/builder/tally"
)

// compare sets every technique against the reference: crude, and within strata.
func (b *rateBook) compare(f *Frequency, rows []tally.ComplicationRow, stratified map[[2]string]tally.StratifiedRow) {
	w := b.words
	reference := string(b.result.Source.Reference)
	label := b.met.link(reference).Text
	something := false
	var told warned
	for _, row := range rows {
		if row.Difference == nil {
			continue
		}
		s := stratified[[2]string{row.Complication, row.Technique}]
		line := b.comparison(row, s)
		something = something || line.Crude != "" || line.Strata != "" || line.Odds != ""
		f.Between = f.Between || line.StrataOpen || line.OddsOpen
		f.Comparisons = append(f.Comparisons, line)
		told.add(line.Name.Text, s)
	}
	f.Warnings = b.warnings(told)
	switch {
	case something:
		f.Against = w.say("compared", label)
		f.Caption = w.say("compared-caption", b.sourced(label)...)
		return
	case len(f.Comparisons) > 0:
		f.NotCompared = w.say("compared-not-possible", label)
	case len(rows) == 1:
		f.NotCompared = w.say("compared-alone")
	default:
		f.NotCompared = w.say("compared-no-reference")
	}
	f.Comparisons, f.Between = nil, false
}

// comparison prints one technique's differences.
func (b *rateBook) comparison(row tally.ComplicationRow, s tally.StratifiedRow) ComparisonLine {
	line := ComparisonLine{Name: b.met.link(row.Technique), CrudeGap: b.words.say("not-shown"), StrataGap: b.words.say("not-shown")}
	line.Crude = b.words.limited(row.Difference.Limited, pointsText)
	line.Strata, line.Odds = b.words.limited(s.RiskDifference, pointsText), b.words.limited(s.OddsRatio, ratioText)
	if r := s.RiskDifferenceBetween; line.Strata == "" && r != nil {
		line.Strata, line.StrataOpen = b.words.between(*r, pointsText), true
	}
	if r := s.OddsRatioBetween; line.Odds == "" && r != nil {
		line.Odds, line.OddsOpen = b.words.between(*r, ratioText), true
	}
	return line
}

// warned gathers the techniques of which something must be said beside a
// comparison.
type warned struct {
	reversed, disagreeing []string
	notes                 []string // in the order met
	noted                 map[string][]string
}

func (t *warned) add(technique string, s tally.StratifiedRow) {
	if s.Reversal {
		t.reversed = append(t.reversed, technique)
	}
	if s.StrataDisagree {
		t.disagreeing = append(t.disagreeing, technique)
	}
	note := string(s.Note)
	if note == "" || strings.HasPrefix(note, "withheld") { // the line of the table says so itself
		return
	}
	if t.noted == nil {
		t.noted = map[string][]string{}
	}
	if len(t.noted[note]) == 0 {
		t.notes = append(t.notes, note)
	}
	t.noted[note] = append(t.noted[note], technique)
}

// warnings are what must be said beside a comparison, in sentences.
func (b *rateBook) warnings(t warned) []string {
	w := b.words
	var list []string
	if len(t.reversed) > 0 {
		list = append(list, w.say("reversal", w.clauses(t.reversed)))
	}
	if len(t.disagreeing) > 0 {
		list = append(list, w.say("disagree", w.clauses(t.disagreeing)))
	}
	for _, note := range t.notes {
		list = append(list, w.say("note-line", w.clauses(t.noted[note]), w.note(note)))
	}
	return list
}

// perCent is the sign with the space that a line is not broken at.
const perCent = "\u00a0%"

// percentText prints a proportion as a percentage, as precisely as the figures
// do: one decimal, none from 10 %, two below 1 %.
func percentText(n tally.Number) string {
	if !n.Defined() {
		return ""
	}
	v := 100 * float64(n)
	decimals := 1
	switch {
	case v == 0 || v >= 9.95:
		decimals = 0
	case v < 0.995:
		decimals = 2
	}
	return strconv.FormatFloat(v, 'f', decimals, 64) + perCent
}

// pointsText prints a difference of proportions in percentage points, with its
// sign.
func pointsText(n tally.Number) string {
	text := strconv.FormatFloat(math.Abs(100*float64(n)), 'f', 1, 64)
	switch {
	case text == "0.0":
		return "0.0"
	case n < 0:
		return "−" + text
	}
	return "+" + text
}

func ratioText(n tally.Number) string { return strconv.FormatFloat(float64(n), 'f', 2, 64) }

// limited prints a value with its limits; empty where there is none. An
// infinite limit is left open.
func (w *words) limited(l tally.Limited, form func(tally.Number) string) string {
	if !l.Value.Defined() || !l.Low.Defined() || !l.High.Defined() {
		return ""
	}
	return form(l.Value) + " (" + w.say("interval-text", form(l.Low), form(l.High)) + ")"
}

// between prints what a hidden count leaves open; empty where an end is open.
func (w *words) between(r tally.Between, form func(tally.Number) string) string {
	if !r.Low.Defined() || !r.High.Defined() {
		return ""
	}
	low, high := form(r.Low), form(r.High)
	if low == high {
		return low
	}
	return w.say("interval-text", low, high)
}
