package measure

import (
	"math"
	"testing"
)

// TestTablesAreSound reads every row: bounds in order and nested, a source each, a unit that
// the measure's own reader gives.
func TestTablesAreSound(t *testing.T) {
	ranges := loadRanges()
	if len(ranges) != len(readData("data/ranges.csv")) || len(ranges) < 45 {
		t.Fatalf("%d ranges from %d rows: a row is doubled or lost", len(ranges), len(readData("data/ranges.csv")))
	}
	for key, r := range ranges {
		soundRange(t, key.measure+"/"+key.context, r)
	}
	for item, r := range loadStrengths() {
		soundRange(t, item, r)
	}
}

func soundRange(t *testing.T, name string, r Range) {
	t.Helper()
	if r.Unit == "" || r.Source == "" {
		t.Errorf("%s: unit %q, source %q", name, r.Unit, r.Source)
	}
	nested := r.Reject[0] <= r.Warn[0] && r.Warn[0] <= r.Usual[0] && r.Usual[0] <= r.Usual[1] &&
		r.Usual[1] <= r.Warn[1] && r.Warn[1] <= r.Reject[1]
	if !nested {
		t.Errorf("%s: bounds are not nested: %+v", name, r)
	}
}

// TestEveryMeasureHasARange keeps the readers and the table together.
func TestEveryMeasureHasARange(t *testing.T) {
	for _, id := range KnownMeasures() {
		if _, ok := Plausible(id); !ok && id != "block-volume" {
			t.Errorf("%s has a reader and no range", id)
		}
	}
}

// TestJudge: bounds from the trade reference, tables of measurements.
func TestJudge(t *testing.T) {
	for _, c := range []struct {
		id, context string
		value       float64
		want        Verdict
	}{
		{"incision-width", "", 2.4, Accept},
		{"incision-width", "", 6.5, Refuse},
		{"incision-width", "msics", 6.5, Accept},
		{"incision-width", "paracentesis", 1.0, Accept},
		{"axial-length", "phacoemulsification", 31, Ask},
		{"axial-length", "phacoemulsification", 2.35, Refuse},
		{"vacuum-limit", "sculpting", 350, Ask},
		{"intraocular-pressure", "day-1", 30, Accept},
		{"pupil-diameter", "", math.NaN(), Refuse},
	} {
		r, ok := Plausible(c.id, c.context)
		if !ok || r.Judge(c.value) != c.want {
			t.Errorf("%s %s %v: %v, want %v", c.id, c.context, c.value, r.Judge(c.value), c.want)
		}
	}
	if _, ok := Plausible("no-such-measure"); ok {
		t.Error("an unknown measure has no range")
	}
}

func TestJudgeStrength(t *testing.T) {
	for _, c := range []struct {
		item, text string
		want       Verdict
		comparable bool
	}{
		{"trypan-blue", "0.06 %", Accept, true},
		{"trypan-blue", "0.6 %", Refuse, true}, // ten times: the slip the check is for
		{"trypan-blue", "0.6 mg/mL", Accept, true},
		{"adrenaline", "1:4000", Accept, true},
		{"adrenaline", "1:2000", Ask, true},
		{"adrenaline", "1:100", Refuse, true},
		{"cefuroxime", "1 mg/0.1 mL", Accept, true},
		{"cefuroxime", "9 mg/0.1 mL", Refuse, true},
		{"cefuroxime", "1 %", Accept, false},
		{"cefuroxime", "10 mg/mL", Accept, false}, // a concentration tells no dose
		{"mannitol", "20 %", Accept, false},
	} {
		strength, err := ParseConcentration(c.text)
		if err != nil {
			t.Fatal(err)
		}
		got, _, ok := JudgeStrength(c.item, strength)
		if got != c.want || ok != c.comparable {
			t.Errorf("%s %s: %v, %v; want %v, %v", c.item, c.text, got, ok, c.want, c.comparable)
		}
	}
}

// TestOverlapAt: hand-worked (common practice, no source). A 5.0 mm opening 0.3 mm towards 3
// o'clock under a 6.0 mm optic overlaps 0.2 mm at 3, 0.8 mm at 9 and 3 - √(2.5² - 0.3²) =
// 0.51807 mm at 12.
func TestOverlapAt(t *testing.T) {
	for at, want := range map[ClockHour]float64{3: 0.2, 9: 0.8, 12: 0.518065} {
		got, ok := OverlapAt(5, 6, 0.3, 3, at)
		if !ok || math.Abs(got-want) > 1e-6 {
			t.Errorf("at %v: %v, %v; want %v", at, got, ok, want)
		}
	}
}

// TestOverlapAgreesAllRound checks the ray form against the least and most of the circle form.
func TestOverlapAgreesAllRound(t *testing.T) {
	o, _ := RimOverlap(5.2, 6, 0.35)
	low, high := math.Inf(1), math.Inf(-1)
	for h := 0.5; h <= 12; h += 0.5 {
		v, _ := OverlapAt(5.2, 6, 0.35, 4.5, ClockHour(h))
		low, high = min(low, v), max(high, v)
	}
	if math.Abs(low-o.Least) > 1e-9 || math.Abs(high-o.Most) > 1e-9 {
		t.Errorf("rays give %v to %v, circles %v to %v", low, high, o.Least, o.Most)
	}
}
