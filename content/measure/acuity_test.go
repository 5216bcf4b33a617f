package measure

import (
	"math"
	"testing"
)

func acuities(t *testing.T, texts ...string) []Acuity {
	t.Helper()
	var list []Acuity
	for _, s := range texts {
		a, err := ParseAcuity(s)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, a)
	}
	return list
}

// TestNotations gives one acuity in each notation; arithmetic as in the reference values.
func TestNotations(t *testing.T) {
	for text, want := range map[string]float64{
		"6/24": 0.602059991328, "20/40": 0.301029995664, "0.5": 0.301029995664, "logMAR 0.30": 0.30,
		"0.30 logMAR": 0.30, "logmar -0.10": -0.10, "70 letters": 0.3, "6/9-2": 0.216091259056,
		"6/9 +2": 0.136091259056, "6 / 12": 0.301029995664, "1.0": 0,
	} {
		v, ok := acuities(t, text)[0].LogMAR()
		if !ok || math.Abs(v-want) > 1e-9 || math.Signbit(v) != math.Signbit(want) {
			t.Errorf("%q = logMAR %v, %v; want %v", text, v, ok, want)
		}
	}
}

func TestCategoriesStayCategories(t *testing.T) {
	for text, want := range map[string]AcuityKind{
		"CF": CountingFingers, "counting fingers": CountingFingers, "CF 1 m": CountingFingers, "CF at 2 ft": CountingFingers,
		"HM": HandMovements, "LP": LightPerception, "PL": LightPerception, "NLP": NoLightPerception, "npl": NoLightPerception,
	} {
		a := acuities(t, text)[0]
		if a.Kind != want || a.Measured() || a.String() != text {
			t.Errorf("%q = %+v", text, a)
		}
		if v, ok := a.LogMAR(); ok {
			t.Errorf("%q silently became logMAR %v", text, v)
		}
		if q, err := Parse("corrected-acuity", text); err != nil || !math.IsNaN(q.Value) {
			t.Errorf("%q as a quantity is %v, %v", text, q.Value, err)
		}
	}
}

func TestMeanLeavesCategoriesOut(t *testing.T) {
	list := acuities(t, "6/6", "6/60", "CF", "LP")
	if m := MeanAcuity(list, ""); m != (AcuityMean{LogMAR: 0.5, N: 2, Left: 2}) {
		t.Errorf("no table: %+v", m)
	}
	if m := MeanAcuity(list, UKAudit); m.N != 3 || m.Replaced != 1 || m.Left != 1 || math.Abs(m.LogMAR-3.1/3) > 1e-12 {
		t.Errorf("table named: %+v (LP stays out of means whatever the table)", m)
	}
	if m := MeanAcuity(nil, ""); m.N != 0 || !math.IsNaN(m.LogMAR) {
		t.Errorf("nobody: %+v", m)
	}
}

func TestMedianOfEven(t *testing.T) {
	worse, better, ok := MedianAcuity(acuities(t, "6/60", "HM", "6/6", "NLP"))
	if !ok || worse.String() != "HM" || better.String() != "6/60" {
		t.Errorf("median = %v and %v, %v", worse, better, ok)
	}
	if _, _, ok := MedianAcuity([]Acuity{{}}); ok {
		t.Error("an acuity of no kind has no rank")
	}
}

func TestAcuityWords(t *testing.T) {
	for text, want := range map[string]string{"CF 30 cm": "counting fingers at 0.3 m", "hm": "hand movements", "6/9": "6/9"} {
		if got := acuities(t, text)[0].Words(); got != want {
			t.Errorf("%q in words = %q, want %q", text, got, want)
		}
	}
}
