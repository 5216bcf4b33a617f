package content

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"caseleaf/content/diagnose"
	"caseleaf/content/measure"
	"caseleaf/content/term"

	"gopkg.in/yaml.v3"
)

// badParse reports a value that package measure could not read; its errors
// name what was expected and, where sure, the right writing.
func (r *reader) badParse(code string, n *yaml.Node, err error) {
	var e *measure.Error
	if errors.As(err, &e) {
		message := "expected " + e.Want + ", found " + quoteShort(e.Text)
		if e.Why != "" {
			message += ": " + e.Why
		}
		if e.Hint != "" {
			message += "; " + e.Hint
		}
		r.bad(diagnose.Code(code), n, "%s", message)
		return
	}
	r.bad(diagnose.Code(code), n, "%s", err.Error())
}

func pattern(p string) schemaObject { return schemaObject{"type": "string", "pattern": p} }

// otherForms are ways in which people write a value that is read in one way
// only; the message then says how. In hint, $1 and $2 are what was written.
type otherForms []struct {
	form *regexp.Regexp
	hint string
}

var (
	otherTimes = otherForms{
		{regexp.MustCompile(`^(\d+) ?m(?:in)? ?([0-5]\d) ?s?$`), "write $1:$2"},
		{regexp.MustCompile(`^([0-5]\d) ?s(?:ec)?$`), "write 0:$1"},
		{regexp.MustCompile(`^(\d) ?s(?:ec)?$`), "write 0:0$1"},
		{regexp.MustCompile(`^[^\d]+$`), "leave out what isn't known; of the three times of an event write unknown"},
	}
	otherPeriods = otherForms{
		{regexp.MustCompile(`^(\d+)/7$`), "write $1 days"},
		{regexp.MustCompile(`^(\d+)/52$`), "write $1 weeks"},
		{regexp.MustCompile(`^(\d+)/12$`), "write $1 months"},
	}
	otherHours = otherForms{{regexp.MustCompile(`^(\d+)[.:]30$`), "half past is written $1.5"}}
	otherAges  = otherForms{
		{regexp.MustCompile(`^(\d)0 ?(?:[–—]| - | to ) ?(\d)9$`), "write ${1}0-${2}9"},
		{regexp.MustCompile(`^(\d)0'?s$`), "write ${1}0-${1}9"},
	}
)

// hinted adds the hint of the first form that a refused value has.
func hinted[V any](forms otherForms, parse func(string) (V, error)) func(string) (V, error) {
	return func(s string) (V, error) {
		v, err := parse(s)
		if err == nil {
			return v, nil
		}
		var e *measure.Error
		if !errors.As(err, &e) || e.Hint != "" {
			return v, err
		}
		for _, f := range forms {
			if f.form.MatchString(s) {
				told := *e
				told.Hint = f.form.ReplaceAllString(s, f.hint)
				return v, &told
			}
		}
		return v, err
	}
}

var (
	videoTime = parsed("bad-time", "a time of the recording such as 3:05 or 1:02:03",
		pattern(`^\d{1,3}:[0-5]\d(:[0-5]\d)?$`), hinted(otherTimes, measure.ParseTime))
	followUp = parsed("bad-value", "a period such as 6 weeks",
		pattern(`^\d+ (day|week|month|year)s?$`), hinted(otherPeriods, measure.ParsePeriod))
	clockHour = parsed("bad-value", "a clock hour from 1 to 12",
		schemaObject{"type": []string{"number", "string"}}, hinted(otherHours, measure.ParseClockHour))
	arc = parsed("bad-value", "clock hours from and to, such as 5-7 or 11-2",
		pattern(`^(all|\d+(\.5)? ?(-|–|to) ?\d+(\.5)?)$`), measure.ParseArc)
	length = parsed("bad-value", "a length with its unit, such as 2.4 mm",
		pattern(`^\d+(\.\d+)? ?(mm|cm|um|µm)$`), measure.ParseLength)
	volume = parsed("bad-value", "a volume with its unit, such as 0.5 mL",
		pattern(`^\d+(\.\d+)? ?(mL|ml|L|l|uL|ul|µL|µl)$`), measure.ParseVolume)
	concentration = parsed("bad-value", "a strength with its unit, such as 0.06 % or 0.5 mg/mL",
		schemaObject{"type": "string"}, measure.ParseConcentration)
	acuity = parsed("bad-value", "an acuity such as 6/24, 0.30 logMAR, CF or HM",
		schemaObject{"type": []string{"string", "number"}}, measure.ParseAcuity)
	lensGrade = parsed("bad-value", "a LOCS III grade such as NO4 or P2",
		pattern(`^(NO|NC|C|P)\d(\.\d)?$`), measure.ParseLensGrade)
)

var ageForm = regexp.MustCompile(`^\d{1,3}$`)

// ageBand is a ten-year band, or one of twenty where ten are too few to hide
// among; an exact age is refused, since it identifies.
var ageBand = parsed("bad-value", "an age band of ten years such as 70-79, or 90+",
	pattern(`^([0-8]0?-\d?9|[89]0\+)$`), hinted(otherAges, func(s string) (string, error) {
		var low, high int
		if s == "90+" || s == "80+" {
			return s, nil
		}
		if n, _ := fmt.Sscanf(strings.ReplaceAll(s, "–", "-"), "%d-%d", &low, &high); n == 2 &&
			s == fmt.Sprintf("%d-%d", low, high) && high < 90 &&
			(low%10 == 0 && high == low+9 || low%20 == 0 && high == low+19) {
			return s, nil
		}
		err := &measure.Error{Text: s, Want: "an age band of ten years such as 70-79, or 90+"}
		if ageForm.MatchString(s) {
			years, _ := strconv.Atoi(s)
			err.Why = "an exact age can identify somebody"
			err.Hint = "write " + bandOf(years)
		}
		return "", err
	}))

func bandOf(years int) string {
	if years >= 90 {
		return "90+"
	}
	low := years / 10 * 10
	return fmt.Sprintf("%d-%d", low, low+9)
}

var periodForm = regexp.MustCompile(`^\d{4}(-Q[1-4])?$`)

// quarter is a year or a quarter; anything finer is refused.
var quarter = parsed("bad-value", "a year such as 2026 or a quarter such as 2026-Q1",
	pattern(`^\d{4}(-Q[1-4])?$`), parseQuarter)

func parseQuarter(s string) (string, error) {
	if periodForm.MatchString(s) {
		return s, nil
	}
	return "", &measure.Error{Text: s, Want: "a year such as 2026 or a quarter such as 2026-Q1"}
}

var dayTime = parsed("bad-time", `a time of day such as "09:30"`,
	pattern(`^([01]\d|2[0-3]):[0-5]\d$`), parseDayTime)

var dayTimeForm = regexp.MustCompile(`^([01]?\d|2[0-3]):([0-5]\d)$`)

func parseDayTime(s string) (DayTime, error) {
	m := dayTimeForm.FindStringSubmatch(s)
	if m == nil {
		return 0, &measure.Error{Text: s, Want: `a time of day such as "09:30"`}
	}
	h, _ := strconv.Atoi(m[1])
	min, _ := strconv.Atoi(m[2])
	return DayTime(h*60 + min), nil
}

// Lengths of time in the day of a course are minutes, whatever unit is told, so
// a bare number is read as minutes there.
var (
	minutes = parsed("bad-value", wantMinutes,
		schemaObject{"anyOf": []any{schemaObject{"type": "integer", "minimum": 1, "maximum": mostMinutes}, wholeMinutes}}, parseMinutes)
	changeover = parsed("bad-value", "minutes such as 5",
		schemaObject{"anyOf": []any{schemaObject{"type": "integer", "minimum": 0, "maximum": mostMinutes}, pattern(`^\d+ (s|min|h)( \d+ (s|min))?$`)}}, parseChangeover)
	wholeMinutes = pattern(`^\d+ (min|h)( \d+ min)?$`)
	bareNumber   = regexp.MustCompile(`^\d+$`)
)

// mostMinutes is the longest that one part of a day may be.
const mostMinutes = 600

const wantMinutes = "minutes from 1 to 600, such as 40"

func parseMinutes(s string) (int, error) {
	d, err := parseChangeover(s)
	if err != nil || d%60 != 0 || d < 60 || d > mostMinutes*60 {
		return 0, &measure.Error{Text: s, Want: wantMinutes}
	}
	return int(d / 60), nil
}

func parseChangeover(s string) (measure.Duration, error) {
	if bareNumber.MatchString(s) {
		s += " min"
	}
	return measure.ParseDuration(s)
}

// perCent is a share written with its sign, such as 10 %.
var perCent = parsed("bad-value", "a percentage such as 10 %",
	pattern(`^\d+(\.\d+)? ?%$`), func(s string) (float64, error) {
		v, ok := parseNumber(strings.TrimSpace(strings.TrimSuffix(s, "%")))
		if !ok || !strings.HasSuffix(s, "%") || v < 0 || v > 100 {
			return 0, &measure.Error{Text: s, Want: "a percentage such as 10 %"}
		}
		return v, nil
	})

// probability is a probability from 0 to 1, or the word rest.
var probability = parsed("bad-value", "a probability from 0 to 1, or rest",
	schemaObject{"anyOf": []any{schemaObject{"type": "number", "minimum": 0, "maximum": 1}, schemaObject{"const": "rest"}}},
	func(s string) (Probability, error) {
		if s == "rest" {
			return Probability{Rest: true}, nil
		}
		v, ok := parseNumber(s)
		if !ok || v < 0 || v > 1 {
			return Probability{}, &measure.Error{Text: s, Want: "a probability from 0 to 1, or rest"}
		}
		return Probability{Value: v}, nil
	})

// valueRange is the range of an end value, such as 90-98.
var valueRange = parsed("bad-value", "a range of values such as 90-98",
	pattern(`^\d+(\.\d+)? ?- ?\d+(\.\d+)?$`), func(s string) ([2]float64, error) {
		low, high, found := strings.Cut(strings.ReplaceAll(s, "–", "-"), "-")
		a, okA := parseNumber(strings.TrimSpace(low))
		b, okB := parseNumber(strings.TrimSpace(high))
		if !found || !okA || !okB || a > b || b > 100 {
			return [2]float64{}, &measure.Error{Text: s, Want: "a range of values from 0 to 100 such as 90-98"}
		}
		return [2]float64{a, b}, nil
	})

var measureTerm = termOf(term.Measure)

// readMeasures reads a mapping from measure terms to values with units.
func readMeasures(r *reader, n *yaml.Node) []Measured {
	if n.Kind != yaml.MappingNode {
		r.bad("wrong-kind", n, "expected measures and their values, found %s", kindWord(n))
		return nil
	}
	if len(n.Content) == 0 {
		return nil
	}
	out := make([]Measured, 0, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		m := Measured{Term: readGiven(r, n.Content[i], measureTerm, false, false)}
		if !m.Term.Known() {
			continue
		}
		m.Value = readGiven(r, n.Content[i+1], quantityOf(m.Term.Value), true, false)
		if m.Value.State != Absent {
			out = append(out, m)
		}
	}
	return out
}

// quantityOf is a value with the unit that its measure needs.
func quantityOf(measureTerm string) kind[measure.Quantity] {
	return parsed("bad-value", "a value with its unit", schemaObject{"type": []string{"string", "number"}},
		func(s string) (measure.Quantity, error) { return measure.Parse(measureTerm, s) })
}
