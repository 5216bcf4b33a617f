package tally

import (
	"slices"

	"caseleaf/builder/stat"
	"caseleaf/content"
)

// Series is one complication followed operation by operation, in the order of
// the logbook: for the CUSUM and the observed-less-expected plot.
//
// It tells in which operation each event came, so it is for the author's own
// audit and is in no published result.
type Series struct {
	Complication string
	// Events says of each operation whether the complication came; Risk is
	// what was expected of it, from 0 to 1.
	Events []bool
	Risk   []float64
	// OddsRatio is the worsening watched for, Limit the score that signals.
	OddsRatio, Limit float64
	// RunLength is the mean number of operations to a signal when nothing has
	// changed, all operations having the mean risk.
	RunLength float64
	Path      stat.CUSUMPath
	Excess    stat.Excess
}

// Watch says what a series is held against. The zero value watches for doubled
// odds against the logbook's own rates by stratum.
type Watch struct {
	// Unit keeps the operations of one unit; empty keeps all.
	Unit string
	// Target is the risk expected of every operation, above 0 and below 1;
	// 0 expects the rate that the whole logbook has in the operation's stratum,
	// so that a series of everything ends with as many events as expected.
	Target float64
	// OddsRatio is 2 when 0; below 1 it watches for improvement.
	OddsRatio float64
	// Limit is chosen when 0: the lowest multiple of 0.5 at which a series
	// without change runs at least as long as this one before it signals.
	Limit float64
}

// highestLimit bounds the choice of a limit.
const highestLimit = 12

// SeriesOf follows one complication through the logbook. The score starts anew
// after each signal. A series without an operation, or without any event to
// expect, has no path.
func SeriesOf(book *content.Logbook, complication string, w Watch) Series {
	s := Series{Complication: complication, OddsRatio: w.OddsRatio, Limit: w.Limit}
	if s.OddsRatio == 0 {
		s.OddsRatio = 2
	}
	expected := ratesByStratum(book, complication)
	mean := 0.0
	for o := range book.All() {
		if w.Unit != "" && o.Unit != w.Unit {
			continue
		}
		risk := w.Target
		if risk == 0 {
			risk = expected[o.Risk]
		}
		s.Events = append(s.Events, slices.Contains(o.Complications, complication))
		s.Risk = append(s.Risk, risk)
		mean += risk
	}
	if mean == 0 {
		return s
	}
	mean /= float64(len(s.Risk))
	weights := stat.OddsWeights(mean, s.OddsRatio)
	if s.Limit == 0 {
		for s.Limit = 0.5; s.Limit < highestLimit && stat.RunLength(weights, s.Limit, mean) < float64(len(s.Events)); {
			s.Limit += 0.5
		}
	}
	s.RunLength = stat.RunLength(weights, s.Limit, mean)
	s.Path = stat.CUSUM(s.Events, s.Risk, s.OddsRatio, s.Limit, true)
	s.Excess = stat.ObservedMinusExpected(s.Events, s.Risk)
	return s
}

// ratesByStratum is the complication's rate in each stratum of the logbook.
func ratesByStratum(book *content.Logbook, complication string) map[string]float64 {
	events, size := map[string]int{}, map[string]int{}
	for o := range book.All() {
		size[o.Risk]++
		if slices.Contains(o.Complications, complication) {
			events[o.Risk]++
		}
	}
	rates := map[string]float64{}
	for risk, n := range size {
		rates[risk] = float64(events[risk]) / float64(n)
	}
	return rates
}
