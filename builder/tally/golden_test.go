package tally_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"caseleaf/builder/tally"
	"caseleaf/content"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares with a file of testdata.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s (-want +got)\n%s", name, diff)
	}
}

// mixed is a small logbook with all that a printed result can hold: a reversal,
// a small count, a unit outside its limits, operations without a stratum.
func mixed() *tally.Counter {
	return counted([]group{
		{technique: "chop", risk: "low", surgeon: content.Consultant, events: 5, size: 100, period: "2024-Q4", unit: "A"},
		{technique: "chop", risk: "high", surgeon: content.Consultant, events: 60, size: 300, period: "2025-Q1", unit: "A"},
		{technique: "divide", risk: "low", surgeon: content.Trainee, events: 24, size: 380, period: "2024-Q4", unit: "B"},
		{technique: "divide", risk: "high", surgeon: content.Fellow, events: 18, size: 70, period: "2025-Q1", unit: "B"},
		{technique: "laser", risk: "low", surgeon: content.Fellow, events: 2, size: 40, period: "2025-Q3", unit: "B"},
		{technique: "laser", surgeon: content.Fellow, events: 1, size: 12, period: "2025-Q3", unit: "B"},
	})
}

// TestGolden keeps what is printed. The figures are checked elsewhere; what can
// break here is the form.
func TestGolden(t *testing.T) {
	settings := tally.Settings{Reference: "divide", Strata: []string{"low", "high"}, Threshold: 5}
	logbook := mixed().Result(settings)
	cases := tally.Of(&content.Bank{}, threeCases(t))
	for name, r := range map[string]*tally.Result{"logbook": logbook, "published": logbook.Published(), "cases": cases} {
		text, err := json.MarshalIndent(r, "", " ")
		if err != nil {
			t.Fatal(err)
		}
		golden(t, name+".json", append(text, '\n'))
		var out bytes.Buffer
		if err := r.WriteText(&out, func(id string) string { return id }); err != nil {
			t.Fatal(err)
		}
		golden(t, name+".txt", out.Bytes())
		for _, table := range r.Tables() {
			if table.Name == "complications" && name == "published" {
				out.Reset()
				if err := table.WriteCSV(&out); err != nil {
					t.Fatal(err)
				}
				golden(t, "published.csv", out.Bytes())
			}
		}
	}
}
