package chart

import (
	"bytes"
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/tally"
)

var update = flag.Bool("update", false, "rewrite golden files")

// hostile are titles of the field reports: the end of a script inside the data,
// and the marks by which the library's renderer finds functions.
var hostile = []string{
	`</script><img src=x onerror=alert(1)> __f__alert(2)__f__ ` + "\u2028 end",
	`__f__alert(4)__f__`,
	`<!--<script>`,
	`"};alert(5);//`,
	`{a|alert} {b}: {c}`,
}

func rate(events, operations int, v, low, high float64) tally.Rate {
	return tally.Rate{
		Events: tally.Count{N: events}, Operations: tally.Count{N: operations}, Rate: tally.Number(v),
		Interval: tally.Interval{Method: "wilson", Level: 0.95, Low: tally.Number(low), High: tally.Number(high)},
	}
}

var nan = math.NaN()

// sample is one chart of each sort; every text in it is s.
func sample(t *testing.T, s string) []Chart {
	t.Helper()
	head := func(id string) Head { return Head{ID: id, Title: s, Caption: s} }
	var list []Chart
	add := func(c Chart, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, c)
	}
	add(Rates(head("rates"), []RateRow{
		{s, s, rate(12, 500, 0.024, 0.0138, 0.0415)}, // Wilson, 12/500: trade reference
		{s, s, tally.Rate{Rate: tally.Number(nan), Interval: tally.Interval{Low: tally.Number(nan), High: tally.Number(nan)}}},
	}))
	outside := true
	add(Limits(head("limits"), 0.05, []Limit{{50, nan, 0.13, nan, 0.18}, {100, 0.01, 0.1, nan, 0.13}}, []Unit{
		{tally.LimitRow{Unit: s, Events: tally.Count{N: 9}, Operations: tally.Count{N: 90}, Rate: 0.1, Outside: &outside}, s},
		{tally.LimitRow{Unit: s, Operations: tally.Count{N: 90}, Rate: tally.Number(nan)}, s},
	}, LimitWords{s, s, s, s, s}))
	add(Onsets(head("onsets"), []string{s}, []string{s}, []Cell{{0, 0, 3, s}}))
	add(Delays(head("delays"), []Delay{{s, 7, nan, s}, {s, nan, nan, s}}, s))
	add(Acuity(head("acuity"), []Eye{{s, 0.6, 0, s}, {s, nan, 0, s}}, s, s, s))
	return list
}

// texts lists every string of a JSON value.
func texts(v any, to *[]string) {
	switch v := v.(type) {
	case string:
		*to = append(*to, v)
	case []any:
		for _, e := range v {
			texts(e, to)
		}
	case map[string]any:
		for _, e := range v {
			texts(e, to)
		}
	}
}

// The library's own renderer does what the guards are for; if it stops doing so,
// the guards may be looked at again. Measured with v2.6.7 (field report FR-26).
func TestRendererIsUnsafe(t *testing.T) {
	c := charts.NewBar()
	c.SetGlobalOptions(charts.WithTitleOpts(opts.Title{Title: hostile[0], Subtitle: hostile[1]}))
	var page bytes.Buffer
	if err := c.Render(&page); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(page.String(), `</script><img src=x onerror=alert(1)>`) {
		t.Error("the renderer escapes titles now")
	}
	if !strings.Contains(page.String(), `:alert(4)`) {
		t.Error("the renderer no longer takes marked text for code")
	}
	bad := charts.NewBar()
	bad.AddSeries("x", []opts.BarData{{Value: nan}})
	page.Reset()
	if err := bad.Render(&page); err != nil {
		t.Error("the renderer reports a number that is not one now")
	}
}

// Titles, names and tips reach the script as the text they are and end nothing.
func TestScriptKeepsTextAsText(t *testing.T) {
	for _, s := range hostile {
		data, err := Script(sample(t, s))
		if err != nil {
			t.Fatal(err)
		}
		for _, never := range []string{"<", ">", "\u2028", "\u2029"} {
			if bytes.Contains(data, []byte(never)) {
				t.Errorf("%q: the script holds %q", s, never)
			}
		}
		if bytes.Contains(data, []byte("://")) {
			t.Errorf("%q: the script names a server", s)
		}
		body := strings.TrimSuffix(strings.TrimPrefix(string(data), "window.caseleafCharts="), ";\n")
		var back map[string]struct{ Option map[string]any }
		if err := json.Unmarshal([]byte(body), &back); err != nil {
			t.Fatalf("%q: what is assigned is no plain JSON: %v", s, err)
		}
		for id, c := range back {
			var got []string
			texts(c.Option["title"], &got)
			if diff := cmp.Diff([]string{s}, got); diff != "" {
				t.Errorf("%s: title (-typed +written):\n%s", id, diff)
			}
		}
	}
}

// Marks that stand for functions in the library's renderer are text here, and the
// only names of functions are ours.
func TestNoFunctions(t *testing.T) {
	for _, c := range sample(t, hostile[1]) {
		var option map[string]any
		if err := json.Unmarshal(c.Option, &option); err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(c.Option, []byte("function")) {
			t.Errorf("%s: holds a function", c.ID)
		}
		for _, s := range option["series"].([]any) {
			switch name := s.(map[string]any)["renderItem"]; name {
			case nil, "interval", "stretch":
			default:
				t.Errorf("%s: drawn by %v", c.ID, name)
			}
		}
	}
}

// A value that is not there is a gap, one that is infinite is an error that names
// the chart and the row, and no NaN is written.
func TestNumbers(t *testing.T) {
	for _, c := range sample(t, "plain") {
		for _, never := range []string{"NaN", "Infinity", "undefined"} {
			if bytes.Contains(c.Option, []byte(never)) {
				t.Errorf("%s: holds %s", c.ID, never)
			}
		}
	}
	bad := []RateRow{{"2025-Q1", "", rate(1, 0, math.Inf(1), 0, 1)}}
	_, err := Rates(Head{ID: "rates-tear", Title: "Tear"}, bad)
	if err == nil || !strings.Contains(err.Error(), "rates-tear") || !strings.Contains(err.Error(), "2025-Q1") {
		t.Errorf("got %v, want an error that names chart and row", err)
	}
	// What is handed to the library by another way is caught when it is sealed.
	c := charts.NewBar()
	c.AddSeries("x", []opts.BarData{{Value: nan}})
	if _, err := seal(Head{ID: "by-hand"}, c, 0); err == nil || !strings.Contains(err.Error(), "by-hand") {
		t.Errorf("got %v, want an error that names the chart", err)
	}
}

// A period without operations keeps its place on the axis and has no mark.
func TestGapKeepsItsPlace(t *testing.T) {
	undefined := tally.Number(nan)
	none := tally.Rate{Rate: undefined, Interval: tally.Interval{Low: undefined, High: undefined}}
	c, err := Rates(Head{ID: "periods"}, []RateRow{
		{"2024-Q1", "", rate(2, 40, 0.05, 0.01, 0.17)}, {"2024-Q2", "", none}, {"2024-Q3", "", rate(0, 35, 0, 0, 0.1)},
	})
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		YAxis  []struct{ Data []string }
		Series []struct{ Data []Mark }
	}
	if err := json.Unmarshal(c.Option, &got); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"2024-Q1", "2024-Q2", "2024-Q3"}, got.YAxis[0].Data); diff != "" {
		t.Errorf("axis:\n%s", diff)
	}
	var places []any
	for _, m := range got.Series[0].Data {
		places = append(places, m.Value.([]any)[0])
	}
	if diff := cmp.Diff([]any{0.0, 2.0}, places); diff != "" {
		t.Errorf("rows with a mark:\n%s", diff)
	}
}

func TestIDs(t *testing.T) {
	for _, id := range []string{"", "a b", `a"b`, "A", "a<b", "ä"} {
		if _, err := Rates(Head{ID: id}, nil); err == nil {
			t.Errorf("%q was taken for an id", id)
		}
	}
	c, err := Rates(Head{ID: "a-1"}, nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Script([]Chart{c, c}); err == nil {
		t.Error("two charts of one id were taken")
	}
}

// The same charts give the same bytes, which are those of the golden file.
func TestGolden(t *testing.T) {
	got, err := Script(sample(t, "plain"))
	if err != nil {
		t.Fatal(err)
	}
	again, err := Script(sample(t, "plain"))
	if err != nil || !bytes.Equal(got, again) {
		t.Errorf("two runs differ (%v)", err)
	}
	name := filepath.Join("testdata", "charts.golden.js")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
