package measure

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// roundTrip fuzzes one parser: whatever it accepts must print to a text that it reads back
// to a value that prints the same.
func roundTrip[T fmt.Stringer](f *testing.F, parse func(string) (T, error), seeds ...string) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := parse(text)
		if err != nil {
			if !strings.Contains(err.Error(), "is not ") {
				t.Errorf("%q: the message doesn't say what was expected: %v", text, err)
			}
			return
		}
		again, err := parse(v.String())
		if err != nil {
			t.Fatalf("%q reads as %v, which is refused: %v", text, v, err)
		}
		if again.String() != v.String() {
			t.Errorf("%q reads as %v, then as %v", text, v, again)
		}
	})
}

func FuzzParseTime(f *testing.F) {
	roundTrip(f, ParseTime, "4:12", "4.12", "1:02:03", "750", "-0:10", "75:10", "6:5")
}

func FuzzParseDuration(f *testing.F) {
	roundTrip(f, ParseDuration, "40 s", "1 h 5 min", "1.5 min", "1:30", "1 min 2 h")
}

func FuzzParsePeriod(f *testing.F) { roundTrip(f, ParsePeriod, "6 weeks", "day 1", "1.5 years", "3 m") }

func FuzzParseClockHour(f *testing.F) {
	roundTrip(f, ParseClockHour, "11", "10.5", "12:30", "3 o'clock")
}

func FuzzParseArc(f *testing.F) { roundTrip(f, ParseArc, "5-7", "11–2", "4 to 6", "all", "6-6") }

func FuzzParseLength(f *testing.F) {
	roundTrip(f, ParseLength, "2.4 mm", "350 µm", "1.2 cm", "2,4 mm")
}

func FuzzParsePower(f *testing.F) { roundTrip(f, ParsePower, "+21.5 D", "−0.50 D", "0 D") }

func FuzzParsePressure(f *testing.F) { roundTrip(f, ParsePressure, "15 mmHg", "80 cmH2O") }

func FuzzParseGauge(f *testing.F) { roundTrip(f, ParseGauge, "27 G", "27.5 G", "0 G") }

func FuzzParseConcentration(f *testing.F) {
	roundTrip(f, ParseConcentration, "0.06 %", "1:1000", "1 mg/0.1 mL", "15 IU/mL", "1 in 4000")
}

func FuzzParseLensGrade(f *testing.F) {
	roundTrip(f, ParseLensGrade, "NO4", "NC 3.5", "C5.9", "hardness 3", "P0")
}

func FuzzParseAcuity(f *testing.F) {
	roundTrip(f, func(s string) (Acuity, error) {
		a, err := ParseAcuity(s)
		if v, ok := a.LogMAR(); err == nil && ok && (math.IsNaN(v) || math.Abs(v) > 3.1) {
			return a, fmt.Errorf("%q has logMAR %v", s, v) // told as a refusal without "is not"
		}
		return a, err
	}, "6/24", "20/40", "0.5", "logMAR 0.30", "70 letters", "6/9-2", "CF 1 m", "HM", "NLP")
}

// FuzzParse runs every measure of the vocabulary over one text.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"5.5 mm", "+21.5 D", "4.5 s", "6/24", "11-2", "80 cm", "12 stone", "1e9 mm"} {
		f.Add(s)
	}
	ids := append(KnownMeasures(), "a-measure-of-another-trade")
	f.Fuzz(func(t *testing.T, text string) {
		for _, id := range ids {
			q, err := Parse(id, text)
			if err == nil && (math.IsInf(q.Value, 0) || q.Unit == "" || q.Text == "") {
				t.Errorf("Parse(%s, %q) = %+v", id, text, q)
			}
		}
	})
}
