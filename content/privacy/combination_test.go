package privacy

import (
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func profile(id, age, sex string, year int, rare string) Profile {
	traits := []Trait{
		{Field: "year", Value: itoa(year), Coarser: CoarserYear(year), Exact: true},
		{Field: "age_band", Value: age, Coarser: CoarserAge(age)},
		{Field: "sex", Value: sex, Coarser: []string{""}},
		{Field: "risk", Value: rare, Coarser: []string{"a connective tissue disorder", ""}, Rare: rare != ""},
	}
	return Profile{ID: id, Traits: traits}
}

func itoa(n int) string { return strconv.Itoa(n) }

// TestRareCombinations: values worked out by hand.
func TestRareCombinations(t *testing.T) {
	profiles := []Profile{
		profile("a", "70-79", "female", 2021, ""), profile("b", "70-79", "female", 2021, ""), profile("c", "70-79", "female", 2022, ""),
		profile("d", "60-69", "female", 2021, ""), profile("e", "30-39", "male", 2021, "marfan"), profile("f", "70-79", "female", 2027, ""),
	}
	got := RareCombinations(profiles, 3)
	want := []Combination{
		{ID: "a", Size: 2, Severity: Warn, Steps: []Step{{"year", "2021", "2020-2024", 3}}},
		{ID: "b", Size: 2, Severity: Warn, Steps: []Step{{"year", "2021", "2020-2024", 3}}},
		{ID: "c", Size: 1, Severity: Warn, Steps: []Step{{"year", "2022", "2020-2024", 3}}},
		{ID: "d", Size: 1, Severity: Warn, Steps: []Step{{"age_band", "60-69", "60-79", 3}}},
		{ID: "e", Size: 1, Severity: Warn, Steps: []Step{{"year", "2021", "2020-2024", 1}, {"year", "2020-2024", "", 1}, {"age_band", "30-39", "20-39", 1}, {"age_band", "20-39", "", 1}, {"sex", "male", "", 1}, {"risk", "marfan", "a connective tissue disorder", 1}, {"risk", "a connective tissue disorder", "", 6}}},
		{ID: "f", Size: 1, Severity: Warn, Steps: []Step{{"year", "2027", "2025-2029", 1}, {"year", "2025-2029", "", 4}}},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if len(RareCombinations(profiles, 1)) != 0 {
		t.Error("k = 1 warns")
	}
	p := profile("g", "30-39", "male", 2021, "marfan")
	p.Traits = append(p.Traits, Trait{Field: "occupation", Value: "farrier", Coarser: []string{""}, Exact: true})
	if got := RareCombinations([]Profile{p}, 1); len(got) != 1 || got[0].Severity != Block {
		t.Errorf("a rare condition beside a year and an occupation: %v", got)
	}
	if m := want[0].Message(); m != "2 in this bank share the published combination; for year 2021, write 2020-2024 (then 3 share it)" {
		t.Error(m)
	}
}

// Banks and logbooks may be large: this must not be quadratic.
func BenchmarkRareCombinations(b *testing.B) {
	var profiles []Profile
	for i := range 10_000 {
		profiles = append(profiles, profile("x", []string{"50-59", "60-69", "70-79", "80-89"}[i%4], []string{"female", "male"}[i/4%2], 2000+i/8%25, []string{"", "", "", "marfan"}[i/200%4]))
	}
	for b.Loop() {
		RareCombinations(profiles, 5)
	}
}
