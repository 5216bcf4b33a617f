package measure

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Expected values without a source in this file are arithmetic done by hand; the trade's
// conventions behind them are common practice, no source.

func TestParseTime(t *testing.T) {
	for text, want := range map[string]int{ // the eight good times of field report 5, and ends
		"0:40": 40, "4:12": 252, "09:30": 570, "12:30": 750, "13:05": 785, "59:59": 3599,
		"1:02:03": 3723, "75:10": 4510, "0:00": 0, "23:59:59": 86399, " 4:12 ": 252,
	} {
		got, err := ParseTime(text)
		if err != nil || got.Seconds() != want {
			t.Errorf("ParseTime(%q) = %d, %v; want %d", text, got, err, want)
		}
	}
}

func TestTimeString(t *testing.T) {
	for sec, want := range map[Time]string{0: "0:00", 40: "0:40", 570: "9:30", 3723: "1:02:03", 4510: "1:15:10", -10: "-0:10"} {
		if got := sec.String(); got != want {
			t.Errorf("Time(%d) = %q, want %q", int(sec), got, want)
		}
	}
}

// TestRefusals pins what a message must tell; the other words are free.
func TestRefusals(t *testing.T) {
	parse := map[string]func(string) error{
		"time":     func(s string) error { _, err := ParseTime(s); return err },
		"duration": func(s string) error { _, err := ParseDuration(s); return err },
		"period":   func(s string) error { _, err := ParsePeriod(s); return err },
		"hour":     func(s string) error { _, err := ParseClockHour(s); return err },
		"arc":      func(s string) error { _, err := ParseArc(s); return err },
		"length":   func(s string) error { _, err := ParseLength(s); return err },
		"power":    func(s string) error { _, err := ParsePower(s); return err },
		"gauge":    func(s string) error { _, err := ParseGauge(s); return err },
		"strength": func(s string) error { _, err := ParseConcentration(s); return err },
		"acuity":   func(s string) error { _, err := ParseAcuity(s); return err },
		"grade":    func(s string) error { _, err := ParseLensGrade(s); return err },
		"axis":     func(s string) error { _, err := ParseAxis(s); return err },
		"bottle":   func(s string) error { _, err := Parse("bottle-height", s); return err },
		"own":      func(s string) error { _, err := Parse("some-other-measure", s); return err },
	}
	for _, c := range []struct{ kind, text, tells string }{
		{"time", "4.12", "write 4:12"},
		{"time", "5:75", "seconds over 59"},
		{"time", "5:75", "write 6:15"},
		{"time", "6:5", "two digits"},
		{"time", "6:5", "6:05"},
		{"time", "1:2:03", "two digits are needed for minutes"},
		{"time", "750", "seconds or minutes?"},
		{"time", "750", "12:30"},
		{"time", "-0:10", "negative"},
		{"time", "8:15:30:10", "4 parts"},
		{"time", "1:75:00", "minutes over 59"},
		{"time", "", "m:ss"},
		{"time", "a:bc", "whole number"},
		{"time", "1440:00", "longer than a day"},
		{"duration", "40", "seconds or minutes?"},
		{"duration", "1:30", `write "1 min 30 s"`},
		{"duration", "1,5 min", `write "1.5 min"`},
		{"duration", "30 s 1 min", "larger unit comes first"},
		{"duration", "1 min 2 min", "larger unit comes first"},
		{"duration", "-3 s", "negative"},
		{"duration", "0.3 s", "whole seconds"},
		{"duration", "3 fortnights", "unknown unit"},
		{"period", "6", "days, weeks or months?"},
		{"period", "1.5 years", `write "18 months"`},
		{"period", "3 m", "minutes or months"},
		{"hour", "13", "outside the clock"},
		{"hour", "0", "outside the clock"},
		{"hour", "3.25", "half hours"},
		{"hour", "10,5", "write 10.5"},
		{"arc", "5", "no extent"},
		{"arc", "5", "5-6"},
		{"arc", "6-6", `"all"`},
		{"arc", "5-14", "second end"},
		{"length", "2,4 mm", `write "2.4 mm"`},
		{"length", "2.4", "no unit"},
		{"length", "2.4 inches", "unknown unit"},
		{"length", "-1 mm", "no sign"},
		{"length", "1e3 mm", "unknown unit"},
		{"power", "21.5 D", "plus or minus?"},
		{"gauge", "27.5 G", "whole numbers"},
		{"strength", "0.06", "per cent or mg/mL?"},
		{"strength", "2:1000", "begins with 1"},
		{"strength", "0,06 %", `write "0.06 %"`},
		{"acuity", "0,5", `write "0.5"`},
		{"acuity", "-0.1", "logMAR -0.1"},
		{"acuity", "0.0", "NLP"},
		{"acuity", "24", "fraction"},
		{"acuity", "6/0", "over 0"},
		{"acuity", "6/9-7", "1 to 4"},
		{"acuity", "HM 1 m", "only counting fingers"},
		{"acuity", "N6", "6/24"},
		{"grade", "NO7", "0.1 to 6.9"},
		{"grade", "4", "no scale"},
		{"axis", "0°", `write "180°"`},
		{"bottle", "80", "no unit"},
		{"own", "4", "no unit"},
	} {
		err := parse[c.kind](c.text)
		if err == nil {
			t.Errorf("%s %q: accepted", c.kind, c.text)
			continue
		}
		if !strings.Contains(err.Error(), c.tells) {
			t.Errorf("%s %q: %q doesn't tell %q", c.kind, c.text, err, c.tells)
		}
		var typed *Error
		if !errors.As(err, &typed) || typed.Text != c.text {
			t.Errorf("%s %q: the message doesn't keep the text as typed: %v", c.kind, c.text, err)
		}
	}
}

func TestParseDuration(t *testing.T) {
	for text, want := range map[string]struct {
		seconds int
		text    string
	}{
		"40 s": {40, "40 s"}, "12 min": {720, "12 min"}, "1 h 5 min": {3900, "1 h 5 min"},
		"15min": {900, "15 min"}, "90 s": {90, "1 min 30 s"}, "1.5 min": {90, "1 min 30 s"},
		"1 min 30 s": {90, "1 min 30 s"}, "0 s": {0, "0 s"}, "2 hours": {7200, "2 h"},
	} {
		got, err := ParseDuration(text)
		if err != nil || got.Seconds() != want.seconds || got.String() != want.text {
			t.Errorf("ParseDuration(%q) = %d, %q, %v; want %v", text, got, got, err, want)
		}
	}
}

func TestPeriod(t *testing.T) {
	for text, want := range map[string]struct {
		text string
		days int
	}{
		"6 weeks": {"6 weeks", 42}, "3 months": {"3 months", 91}, "1 day": {"1 day", 1},
		"1 year": {"1 year", 365}, "day 1": {"1 day", 1}, "week 6": {"6 weeks", 42}, "7 hours": {"7 hours", 0},
	} {
		got, err := ParsePeriod(text)
		if err != nil || got.String() != want.text || got.Days() != want.days {
			t.Errorf("ParsePeriod(%q) = %q, %d days, %v; want %v", text, got, got.Days(), err, want)
		}
	}
}

func TestArc(t *testing.T) {
	for text, want := range map[string]struct {
		hours, degrees float64
		text           string
	}{
		"4-6": {2, 60, "4-6"}, "4 to 6": {2, 60, "4-6"}, "11-2": {3, 90, "11-2"}, "11–2": {3, 90, "11-2"},
		"5-7": {2, 60, "5-7"}, "10.5-1.5": {3, 90, "10.5-1.5"}, "12:30-3": {2.5, 75, "12.5-3"},
		"all": {12, 360, "all"}, "7 to 6 o'clock": {11, 330, "7-6"},
	} {
		got, err := ParseArc(text)
		if err != nil || got.Hours() != want.hours || got.Degrees() != want.degrees || got.String() != want.text {
			t.Errorf("ParseArc(%q) = %v h, %v°, %q, %v; want %v", text, got.Hours(), got.Degrees(), got, err, want)
		}
	}
}

func TestArcContains(t *testing.T) {
	across := Arc{From: 11, To: 2}
	var inside []string
	for h := 0.5; h <= 12; h += 0.5 {
		if across.Contains(ClockHour(h)) {
			inside = append(inside, ClockHour(h).String())
		}
	}
	want := strings.Fields("12.5 1 1.5 2 11 11.5 12")
	if diff := cmp.Diff(want, inside); diff != "" {
		t.Errorf("11-2 contains (-want +got):\n%s", diff)
	}
	if !(Arc{Whole: true}).Contains(5) || (Arc{From: 6, To: 6}).Contains(7) {
		t.Error("the whole circle holds every hour, an arc of no length only its end")
	}
}

func TestSides(t *testing.T) {
	for _, c := range []struct {
		eye  Eye
		hour ClockHour
		want string
	}{
		{RightEye, 10.5, "superotemporal"}, {LeftEye, 10.5, "superonasal"}, {RightEye, 5, "inferonasal"},
		{LeftEye, 5, "inferotemporal"}, {RightEye, 0.5, "superonasal"}, {UnknownEye, 12, "superior"}, {UnknownEye, 3, ""},
	} {
		if got := c.eye.Side(c.hour); got != c.want {
			t.Errorf("%v eye at %v = %q, want %q", c.eye, c.hour, got, c.want)
		}
	}
}

func TestParseMeasures(t *testing.T) {
	for _, c := range []struct {
		id, text string
		value    float64
		unit     string
		printed  string
	}{
		{"pupil-diameter", "5.5 mm", 5.5, "mm", "5.5 mm"},
		{"rhexis-diameter", "0.5 cm", 5, "mm", "5 mm"},
		{"incision-width", "350 um", 0.35, "mm", "0.35 mm"},
		{"corneal-thickness", "534 µm", 534, "µm", "534 µm"},
		{"corneal-thickness", "0.534 mm", 534, "µm", "534 µm"},
		{"keratometry", "43.25 D", 43.25, "D", "43.25 D"},
		{"iol-power", "+21.5 D", 21.5, "D", "+21.5 D"},
		{"target-refraction", "−0.50 D", -0.5, "D", "-0.5 D"},
		{"ultrasound-time", "45 s", 45, "s", "45 s"},
		{"effective-phaco-time", "4.5 s", 4.5, "s", "4.5 s"},
		{"operating-time", "14 min", 14, "min", "14 min"},
		{"mean-ultrasound-power", "20%", 20, "%", "20 %"},
		{"dissipated-energy", "6.3", 6.3, "index", "6.3"},
		{"intraocular-pressure", "15 mmHg", 15, "mmHg", "15 mmHg"},
		{"bottle-height", "80 cm", 80, "cm", "80 cm"},
		{"bottle-height", "60 mmHg", 60, "mmHg", "60 mmHg"},
		{"aspiration-flow", "35 mL/min", 35, "mL/min", "35 mL/min"},
		{"cut-rate", "4000 cuts/min", 4000, "cuts/min", "4000 cuts/min"},
		{"endothelial-cell-density", "2400 cells/mm2", 2400, "cells/mm²", "2400 cells/mm²"},
		{"endothelial-cell-loss", "-3 %", -3, "%", "-3 %"},
		{"clock-hours", "3 clock hours", 3, "hours", "3 clock hours"},
		{"clock-hours", "11-2", 3, "hours", "11 to 2 o’clock (3 clock hours)"},
		{"needle-gauge", "27G", 27, "G", "27 G"},
		{"axis-marking", "90°", 90, "°", "90°"},
		{"corrected-acuity", "20/200", 1, "logMAR", "20/200"},
		{"tourniquet-pressure", "250 mmHg", 250, "mmHg", "250 mmHg"}, // only a bank's own vocabulary knows it
	} {
		got, err := Parse(c.id, c.text)
		want := Quantity{c.value, c.unit, c.printed}
		if err != nil {
			t.Errorf("Parse(%s, %q): %v", c.id, c.text, err)
			continue
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("Parse(%s, %q) (-want +got):\n%s", c.id, c.text, diff)
		}
	}
}

func TestConcentration(t *testing.T) {
	for text, want := range map[string]struct {
		text string
		mgml float64
	}{
		"0.06 %": {"0.06 %", 0.6}, "1:1000": {"1:1000", 1}, "1 in 4000": {"1:4000", 0.25}, "1:10 000": {"1:10000", 0.1},
		"0.5 mg/mL": {"0.5 mg/mL", 0.5}, "1 mg/0.1 mL": {"1 mg/0.1 mL", 10}, "500 µg/mL": {"0.5 mg/mL", 0.5},
		"1 mg": {"1 mg", math.NaN()}, "15 IU/mL": {"15 IU/mL", math.NaN()},
	} {
		got, err := ParseConcentration(text)
		if err != nil || got.String() != want.text {
			t.Errorf("ParseConcentration(%q) = %q, %v; want %q", text, got, err, want.text)
			continue
		}
		v, ok := got.MilligramsPerML()
		if ok == math.IsNaN(want.mgml) || ok && math.Abs(v-want.mgml) > 1e-12 {
			t.Errorf("%q is %v mg/mL, %v; want %v", text, v, ok, want.mgml)
		}
	}
}

func TestPressureUnits(t *testing.T) {
	p, err := ParsePressure("100 cmH2O")
	if err != nil || p.String() != "100 cmH2O" || math.Abs(p.MmHg()-73.5559) > 1e-3 { // 73.56, from memory
		t.Errorf("100 cmH2O = %v, %v mmHg, %v", p, p.MmHg(), err)
	}
}

func ExampleArc() {
	a, _ := ParseArc("11-2")
	mid, _ := a.Midpoint()
	fmt.Println(a.Hours(), a.Degrees(), mid, a.Contains(12))
	// Output: 3 90 12.5 true
}

func ExampleParseTime() {
	_, err := ParseTime("4.12")
	fmt.Println(err)
	// Output: "4.12" is not a time of the recording (m:ss or h:mm:ss): minutes and seconds are parted by a colon; write 4:12
}
