package measure

import (
	"fmt"
	"math"
	"strings"
)

// PeriodUnit is the unit in which a follow-up is told.
type PeriodUnit int

// The units of a follow-up, smallest first.
const (
	Hours PeriodUnit = iota
	Days
	Weeks
	Months
	Years
)

var periodNames = [...]string{"hour", "day", "week", "month", "year"}

// periodDays is the mean length of each unit in days (Gregorian year of 365.2425 days).
var periodDays = [...]float64{1.0 / 24, 1, 7, 365.2425 / 12, 365.2425}

// Period is a time from surgery as the author told it: "6 weeks" stays six weeks.
type Period struct {
	Count int
	Unit  PeriodUnit
}

// FollowUp is the period from surgery to the visit at which an outcome was measured.
type FollowUp = Period

const wantPeriod = `a period ("1 day", "6 weeks", "3 months", "1 year")`

// ParsePeriod reads a whole count with its unit. "day 1", "week 6" and "month 3", as the
// notes have it, mean the same as "1 day", "6 weeks", "3 months".
func ParsePeriod(text string) (Period, error) {
	s := strings.ToLower(tidy(text))
	num, unit := split(s)
	if num == "" {
		word, count, found := strings.Cut(s, " ")
		if found {
			num, unit = strings.TrimSpace(count), word
		}
	}
	if point, ok := decimalComma(s); ok {
		return Period{}, refuse(text, wantPeriod, "a comma in a number", fmt.Sprintf("write %q in whole units", point))
	}
	if unit == "" && num != "" {
		return Period{}, refuse(text, wantPeriod, "no unit: days, weeks or months?", "")
	}
	if strings.HasPrefix(num, "-") {
		return Period{}, refuse(text, wantPeriod, "a follow-up is never before the operation", "")
	}
	count, ok := integer(num)
	if !ok {
		return Period{}, refuse(text, wantPeriod, "a whole number and a unit are needed", fractionHint(num, unit))
	}
	if count > 100_000 {
		return Period{}, refuse(text, wantPeriod, "longer than a life", "")
	}
	for i, name := range periodNames {
		if unit == name || unit == name+"s" || unit == name[:1] && name != "month" {
			return Period{Count: count, Unit: PeriodUnit(i)}, nil
		}
	}
	if unit == "m" || unit == "min" {
		return Period{}, refuse(text, wantPeriod, fmt.Sprintf("%q could be minutes or months", unit), "")
	}
	return Period{}, refuse(text, wantPeriod, fmt.Sprintf("unknown unit %q", unit), "")
}

// fractionHint turns "1.5 years" into months.
func fractionHint(num, unit string) string {
	v, ok := number(num, 0)
	if !ok || !strings.HasPrefix(unit, "year") || v*12 != math.Trunc(v*12) {
		return ""
	}
	return fmt.Sprintf("write %q", Period{Count: int(v * 12), Unit: Months})
}

// String writes "1 day", "6 weeks".
func (p Period) String() string {
	if p.Unit < Hours || p.Unit > Years {
		return ""
	}
	name := periodNames[p.Unit]
	if p.Count != 1 {
		name += "s"
	}
	return fmt.Sprintf("%d %s", p.Count, name)
}

// Days gives the nearest whole number of days: a month is 30.44, a year 365.24 days on
// average, so that 3 months are 91 days. For ordering and grouping, not for dates.
func (p Period) Days() int {
	if p.Unit < Hours || p.Unit > Years {
		return 0
	}
	return int(math.Round(float64(p.Count) * periodDays[p.Unit]))
}
