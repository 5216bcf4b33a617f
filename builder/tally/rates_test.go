package tally_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/tally"
	"caseleaf/content"
)

// group is operations that are alike: events of size.
type group struct {
	technique, risk string
	surgeon         content.Grade
	events, size    int
	period, unit    string
}

// counted makes a logbook of groups; each event is a posterior-capsule-tear.
func counted(groups []group) *tally.Counter {
	c := &tally.Counter{}
	for _, g := range groups {
		for i := range g.size {
			o := content.Operation{Technique: g.technique, Risk: g.risk, Surgeon: g.surgeon, Period: g.period, Unit: g.unit}
			if i < g.events {
				o.Complications = []string{"pc-tear"}
			}
			c.Add(&o)
		}
	}
	return c
}

// admissions is UCBAdmissions (shipped with R; Bickel et al. Science
// 1975;187:398-404) as a logbook: departments as strata, men against women.
func admissions() *tally.Counter {
	var groups []group
	for i, d := range [][4]int{
		{512, 313, 89, 19}, {353, 207, 17, 8}, {120, 205, 202, 391},
		{138, 279, 131, 244}, {53, 138, 94, 299}, {22, 351, 24, 317},
	} {
		risk := string(rune('A' + i))
		groups = append(groups,
			group{technique: "men", risk: risk, events: d[0], size: d[0] + d[1], period: "2025"},
			group{technique: "women", risk: risk, events: d[2], size: d[2] + d[3], period: "2025"})
	}
	return counted(groups)
}

func near(t *testing.T, what string, got tally.Number, want float64) {
	t.Helper()
	if math.Abs(float64(got)-want) > 1e-8*math.Abs(want) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// TestReversalIsSeen: UCBAdmissions reverses. (check values, mh-ucb-*)
func TestReversalIsSeen(t *testing.T) {
	r := admissions().Result(tally.Settings{Reference: "women"})
	if len(r.Stratified) != 1 {
		t.Fatalf("%+v", r.Stratified)
	}
	row := r.Stratified[0]
	if !row.Reversal || !row.StrataDisagree || row.ComparableStrata != 6 {
		t.Errorf("%+v", row)
	}
	near(t, "crude", row.CrudeOddsRatio, 1.84108003718)
	near(t, "odds ratio", row.OddsRatio.Value, 0.904696828259)
	near(t, "low", row.OddsRatio.Low, 0.771907361759)
	near(t, "high", row.OddsRatio.High, 1.06032976444)
	near(t, "difference", row.RiskDifference.Value, -0.0184251961909)
	near(t, "difference low (Sato)", row.RiskDifference.Low, -0.0474824353465)
	near(t, "Breslow-Day", row.BreslowDayP, 0.00207139034992)
	near(t, "crude difference", r.Complications[1].Difference.Value, 0.141645428247)
}

// TestReversalOfGrade is the trade reference's invented table of trainees and
// consultants, here as techniques: better in each stratum, worse in all.
func TestReversalOfGrade(t *testing.T) {
	c := counted([]group{
		{technique: "trainee", risk: "soft", events: 3, size: 150}, {technique: "trainee", risk: "dense", events: 1, size: 10},
		{technique: "consultant", risk: "soft", events: 1, size: 60}, {technique: "consultant", risk: "dense", events: 8, size: 140},
	})
	row := c.Result(tally.Settings{Reference: "trainee"}).Stratified[0]
	if !row.Reversal || !(row.CrudeRiskDifference > 0) || !(row.RiskDifference.Value < 0) {
		t.Errorf("%+v", row)
	}
}

// TestNoReversalWithEqualCaseMix: the same rates, but every technique with the
// same share of each stratum.
func TestNoReversalWithEqualCaseMix(t *testing.T) {
	var groups []group
	for i, risk := range []string{"low", "medium", "high"} {
		size := 400 - 100*i
		groups = append(groups,
			group{technique: "a", risk: risk, events: 8 * (i + 1), size: size},
			group{technique: "b", risk: risk, events: 12 * (i + 1), size: size})
	}
	row := counted(groups).Result(tally.Settings{Reference: "a"}).Stratified[0]
	if row.Reversal || !(row.CrudeRiskDifference > 0) || !(row.RiskDifference.Value > 0) {
		t.Errorf("%+v", row)
	}
}

func TestNothingToCompareIsSaid(t *testing.T) {
	for name, c := range map[string]struct {
		groups []group
		want   string
	}{
		"no stratum has both": {[]group{
			{technique: "a", risk: "low", events: 2, size: 40}, {technique: "b", risk: "high", events: 9, size: 40},
		}, "no stratum has operations by both techniques"},
		"no risk recorded": {[]group{
			{technique: "a", events: 2, size: 40}, {technique: "b", events: 9, size: 40},
		}, "the logbook names no risk strata"},
		"no event where both are": {[]group{
			{technique: "a", risk: "low", size: 40}, {technique: "b", risk: "low", size: 40}, {technique: "b", risk: "high", events: 3, size: 9},
		}, "no event in a stratum with both techniques"},
		"all events on one side": {[]group{
			{technique: "a", risk: "low", size: 40}, {technique: "b", risk: "low", events: 3, size: 40},
		}, "in the strata with both, every event came with one technique: no ratio"},
	} {
		row := counted(c.groups).Result(tally.Settings{Reference: "a"}).Stratified[0]
		if string(row.Note) != c.want || row.OddsRatio.Value.Defined() || row.Reversal {
			t.Errorf("%s: %+v", name, row)
		}
	}
}

// TestRatesAreDefinedOrNot: figures of prop-12 and diff-11 of the check values;
// no operations, no rate.
func TestRatesAreDefinedOrNot(t *testing.T) {
	c := counted([]group{
		{technique: "a", risk: "low", events: 3, size: 300, period: "2024-Q4", unit: "U1"},
		{technique: "b", risk: "low", events: 9, size: 310, period: "2025-Q2", unit: "U2"},
	})
	r := c.Result(tally.Settings{Reference: "b", Threshold: 5})
	first, second := r.Complications[0], r.Complications[1]
	if first.Technique != "b" || first.Difference != nil || first.FisherP.Defined() {
		t.Errorf("the reference comes first and is not compared with itself: %+v", first)
	}
	near(t, "rate", second.Rate.Rate, 0.01)
	near(t, "low", second.Interval.Low, 0.00340661843772)
	near(t, "difference low", second.Difference.Low, -0.0450940371)
	if len(r.ByPeriod) != 3 || r.ByPeriod[1].Period != "2025-Q1" || r.ByPeriod[1].Rate.Rate.Defined() {
		t.Errorf("a quarter without operations is no data and stays on the axis: %+v", r.ByPeriod)
	}
	if got := r.Source; got.From != "2024-Q4" || got.To != "2025-Q2" || got.Operations.N != 610 {
		t.Errorf("%+v", got)
	}
}

// TestLimitsAskTheTail: one event in ten lies above the drawn 95 % line of a
// target near 2 % and is not outside. (check values, funnel-03)
func TestLimitsAskTheTail(t *testing.T) {
	c := counted([]group{
		{technique: "a", unit: "small", events: 1, size: 10}, {technique: "a", unit: "large", events: 19, size: 990},
		{technique: "a", unit: "", events: 5, size: 5},
	})
	r := c.Result(tally.Settings{})
	if len(r.Limits) != 2 {
		t.Fatalf("%+v", r.Limits)
	}
	small := r.Limits[1]
	if small.Unit != "small" || !(small.Rate > small.High95) || *small.Outside || *small.Outside998 {
		t.Errorf("%+v", small)
	}
	near(t, "target", small.Target, 0.02)
	near(t, "high 95", small.High95, 0.0947092161)
	if diff := cmp.Diff("pc-tear", string(r.LimitsByComplication[0].Complication)); diff != "" {
		t.Error(diff)
	}
}

// TestJSONHasNoNaN: whatever was counted, the JSON is valid, its lists are lists,
// and the keys are those agreed.
func TestJSONHasNoNaN(t *testing.T) {
	for name, c := range map[string]*tally.Counter{"empty": {}, "admissions": admissions(), "zero": counted([]group{{technique: "a", size: 3}})} {
		for kind, r := range map[string]*tally.Result{"all": c.Result(tally.Settings{Threshold: 5}), "published": c.Result(tally.Settings{Threshold: 5}).Published()} {
			text, err := json.Marshal(r)
			if err != nil {
				t.Fatalf("%s, %s: %v", name, kind, err)
			}
			var form map[string]any
			if err := json.Unmarshal(text, &form); err != nil {
				t.Fatal(err)
			}
			for _, key := range []string{"complications", "stratified", "limits", "delays", "durations", "onsets", "choices", "decisions"} {
				if _, ok := form[key].([]any); !ok {
					t.Errorf("%s, %s: %s is %v, want a list", name, kind, key, form[key])
				}
			}
		}
	}
}

// TestJSONShape is the agreed form, key by key.
func TestJSONShape(t *testing.T) {
	c := counted([]group{{technique: "a", risk: "x", events: 5, size: 50, unit: "U"}, {technique: "b", risk: "x", events: 9, size: 40, unit: "U"}})
	text, err := json.Marshal(c.Result(tally.Settings{Reference: "a"}))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`{"complication":"pc-tear","technique":"a","events":5,"operations":50,"rate":0.1,"interval":{"method":"wilson","level":0.95,"low":`,
		`"difference":null,"fisher_p":null,"holm_p":null}`,
		`"difference":{"reference":"a","value":0.125,"low":`,
		`{"complication":"pc-tear","technique":"b","reference":"a","crude_odds_ratio":`,
		`"odds_ratio":{"value":`, `"risk_difference":{"value":`, `"breslow_day_p":null,"reversal":false`,
		`{"unit":"U","events":14,"operations":90,"rate":`, `"low95":`, `"high95":`, `"low998":`, `"high998":`, `"outside":false`,
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
}

// TestPublishedLeavesOut: no p values, no percentage under 30 operations, nothing
// computed from a hidden count, and the author's own result untouched.
func TestPublishedLeavesOut(t *testing.T) {
	c := counted([]group{
		{technique: "a", risk: "low", surgeon: "trainee", events: 3, size: 300, period: "2025", unit: "U1"},
		{technique: "b", risk: "low", surgeon: "trainee", events: 30, size: 310, period: "2025", unit: "U2"},
		{technique: "c", risk: "low", surgeon: "fellow", events: 7, size: 20, period: "2025", unit: "U2"},
	})
	all := c.Result(tally.Settings{Reference: "b", Threshold: 5})
	before, _ := json.Marshal(all)
	p := all.Published()
	if after, _ := json.Marshal(all); !bytes.Equal(before, after) {
		t.Error("publishing changes the author's result")
	}
	for _, row := range p.Complications {
		if row.FisherP.Defined() || row.HolmP.Defined() {
			t.Errorf("a p value in %+v", row)
		}
		if row.Technique == "a" && (row.Events.Hidden != tally.Small || row.Rate.Rate.Defined() || row.Difference.Value.Defined()) {
			t.Errorf("3 of 300 is shown: %+v", row)
		}
		if row.Technique == "c" && row.Rate.Rate.Defined() {
			t.Errorf("a percentage of 20 operations: %+v", row)
		}
	}
	for _, row := range p.Stratified {
		if row.BreslowDayP.Defined() || row.Technique == "a" && row.OddsRatio.Value.Defined() {
			t.Errorf("%+v", row)
		}
	}
	if len(p.Limits) != 0 || !p.Source.Published {
		t.Errorf("%+v %+v", p.Limits, p.Source)
	}
}

// TestCSVIsSafe: RFC 4180 with CRLF; a name that a spreadsheet would run is made
// harmless, a negative number is not touched, and both read back.
func TestCSVIsSafe(t *testing.T) {
	c := &tally.Counter{}
	for i := range 90 {
		o := content.Operation{Technique: []string{"=HYPERLINK(\"x\")", "-2+3", "\"b\", c"}[i%3], Risk: "low"}
		if i%3 == 1 && i < 9 || i%3 == 2 {
			o.Complications = []string{"@tear"}
		}
		c.Add(&o)
	}
	for _, table := range c.Result(tally.Settings{Reference: "\"b\", c"}).Tables() {
		var out bytes.Buffer
		if err := table.WriteCSV(&out); err != nil {
			t.Fatal(err)
		}
		if strings.Count(out.String(), "\n") != strings.Count(out.String(), "\r\n") {
			t.Errorf("%s: a bare line end", table.Name)
		}
		records, err := csv.NewReader(&out).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", table.Name, err)
		}
		if len(records) != 1+table.Len {
			t.Errorf("%s: %d records of %d rows", table.Name, len(records), table.Len)
		}
		for _, record := range records[1:] {
			for i, field := range record {
				if strings.HasPrefix(field, "'") {
					continue
				}
				if len(field) > 0 && strings.ContainsAny(field[:1], "=+@\t\r") || field == "-2+3" {
					t.Errorf("%s: %s is %q", table.Name, table.Columns[i], field)
				}
			}
		}
		if table.Name == "complications" {
			if got := records[2][2:5]; fmt.Sprint(got) != "[3 30 0.1]" {
				t.Errorf("complications: %v", records)
			}
			if value := records[2][10]; value != "-0.9" {
				t.Errorf("a negative difference is %q", value)
			}
		}
	}
}
