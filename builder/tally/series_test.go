package tally_test

import (
	"math"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"caseleaf/builder/tally"
	"caseleaf/content"
)

// bookOf reads a logbook written as CSV.
func bookOf(t *testing.T, rows string) *content.Logbook {
	t.Helper()
	bank, found, err := content.Read(fstest.MapFS{
		"bank.yaml":   {Data: []byte("title: A bank\nedition: \"1\"\nstrata:\n  - {id: low, label: Low}\n  - {id: high, label: High}\n")},
		"logbook.csv": {Data: []byte("period,technique,risk,complications,unit\n" + rows)},
	})
	if err != nil || bank.Logbook.Len() != strings.Count(rows, "\n") {
		var text strings.Builder
		_ = found.WriteText(&text) // a strings.Builder takes everything
		t.Fatalf("%d operations: %v\n%s", bank.Logbook.Len(), err, text.String())
	}
	return bank.Logbook
}

// TestSeriesAgainstATarget is cusum-path-01 of the check values as a logbook.
func TestSeriesAgainstATarget(t *testing.T) {
	var rows strings.Builder
	for _, y := range []int{0, 0, 1, 0, 1, 0, 0, 0, 1, 0, 1, 0} {
		rows.WriteString("2025-Q1,horizontal-chop,low," + []string{"", "iris-prolapse"}[y] + ",A\n")
	}
	s := tally.SeriesOf(bookOf(t, rows.String()), "iris-prolapse", tally.Watch{Target: 0.02, Limit: 1.2})
	if len(s.Path.Signals) != 2 || s.Path.Signals[0] != 5 || s.Path.Signals[1] != 11 {
		t.Errorf("signals %v, want 5 and 11", s.Path.Signals)
	}
	if got := s.Path.Scores[4]; math.Abs(got-1.32688647923) > 1e-9 {
		t.Errorf("score %v", got)
	}
	if other := tally.SeriesOf(bookOf(t, rows.String()), "iris-prolapse", tally.Watch{Unit: "B"}); other.Path.Scores != nil {
		t.Errorf("a unit without operations has a path: %+v", other)
	}
}

// TestSeriesExpectsByStratum: without a target the whole logbook ends as
// expected, and the chosen limit lets an unchanged series of its length run.
func TestSeriesExpectsByStratum(t *testing.T) {
	bank, _, err := content.Read(os.DirFS("../../casebank"))
	if err != nil {
		t.Fatal(err)
	}
	top := tally.Of(bank, nil).Complications[0].Complication
	s := tally.SeriesOf(bank.Logbook, top, tally.Watch{})
	if len(s.Events) != bank.Logbook.Len() || math.Abs(float64(s.Excess.Observed)-s.Excess.Expected) > 1e-6 {
		t.Errorf("%d observed, %v expected of %d", s.Excess.Observed, s.Excess.Expected, len(s.Events))
	}
	if s.RunLength < float64(len(s.Events)) || s.Limit <= 0 {
		t.Errorf("limit %v, run length %v", s.Limit, s.RunLength)
	}
}
