package tally_test

import (
	"testing"

	"caseleaf/builder/tally"
)

// TestOverallIsExactWhereEventsAreFew: fisher-rxc-02 and chisq-01 of the check
// values as logbooks.
func TestOverallIsExactWhereEventsAreFew(t *testing.T) {
	few := counted([]group{
		{technique: "a", events: 2, size: 100}, {technique: "b", events: 5, size: 60}, {technique: "c", events: 4, size: 20},
	}).Result(tally.Settings{})
	row := few.Overall[0]
	near(t, "exact p", row.P, 0.00685094840)
	near(t, "smallest expected", row.MinExpected, 1.22222222222)
	if row.Method != "fisher" {
		t.Errorf("%+v", row)
	}
	// 2 x 2, chisq-03
	many := counted([]group{
		{technique: "a", events: 1600, size: 2700}, {technique: "b", events: 500, size: 2500},
	}).Result(tally.Settings{}).Overall[0]
	near(t, "smallest expected", many.MinExpected, 1009.61538462)
	few2 := counted([]group{{technique: "a", size: 5, events: 1}}).Result(tally.Settings{})
	if len(few2.Overall) != 0 || len(few.Published().Overall) != 0 {
		t.Error("one technique, or a published result, has an overall test")
	}
}
