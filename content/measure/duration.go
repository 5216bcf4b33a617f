package measure

import (
	"fmt"
	"math"
	"strings"
)

// Duration is a length of time in whole seconds.
type Duration int

const wantDuration = `a duration ("40 s", "12 min", "1 h 5 min")`

// durationUnits maps every accepted unit to its seconds.
var durationUnits = map[string]int{
	"s": 1, "sec": 1, "second": 1, "seconds": 1,
	"min": 60, "mins": 60, "minute": 60, "minutes": 60,
	"h": 3600, "hr": 3600, "hour": 3600, "hours": 3600,
}

// ParseDuration reads one to three parts, largest unit first: "40 s", "1 min 30 s",
// "1.5 min", "1 h 5 min". The unit is required; only the last part may have a fraction and
// it must come to whole seconds.
func ParseDuration(text string) (Duration, error) {
	s := tidy(text)
	switch {
	case s == "":
		return 0, refuse(text, wantDuration, "", "")
	case strings.HasPrefix(s, "-"):
		return 0, refuse(text, wantDuration, "a duration is never negative", "")
	case strings.Contains(s, ":"):
		return 0, colonDuration(text, s)
	}
	if point, ok := decimalComma(s); ok {
		return 0, refuse(text, wantDuration, "a comma in a number", fmt.Sprintf("write %q", point))
	}
	total, last := 0, math.MaxInt
	for rest := s; rest != ""; {
		num, after := split(rest)
		unit := after
		if i := strings.IndexAny(after, " 0123456789"); i >= 0 {
			unit = after[:i]
		}
		rest = strings.TrimSpace(after[len(unit):])
		seconds, err := durationPart(text, num, unit, rest == "")
		if err != nil {
			return 0, err
		}
		size := durationUnits[unit]
		if size >= last {
			return 0, refuse(text, wantDuration, "the larger unit comes first, each unit once", "")
		}
		last = size
		total += seconds
	}
	if total >= 30*24*3600 {
		return 0, refuse(text, wantDuration, "longer than a month", `a follow-up is written "6 weeks"`)
	}
	return Duration(total), nil
}

// durationPart reads one number with its unit into seconds.
func durationPart(text, num, unit string, last bool) (int, error) {
	if num == "" {
		return 0, refuse(text, wantDuration, "a number is needed before the unit", "")
	}
	if unit == "" {
		return 0, refuse(text, wantDuration, "no unit: seconds or minutes?",
			fmt.Sprintf("write \"%s s\" or \"%s min\"", num, num))
	}
	size, ok := durationUnits[unit]
	if !ok {
		return 0, refuse(text, wantDuration, fmt.Sprintf("unknown unit %q; s, min and h are known", unit), "")
	}
	v, ok := number(num, 0)
	if !ok || v > 1e7 {
		return 0, refuse(text, wantDuration, fmt.Sprintf("%q is not a number", num), "")
	}
	seconds := v * float64(size)
	if seconds != math.Trunc(seconds) || (!last && v != math.Trunc(v)) {
		return 0, refuse(text, wantDuration, "durations are kept in whole seconds", "")
	}
	return int(seconds), nil
}

// colonDuration explains a duration written like a time of the recording.
func colonDuration(text, s string) error {
	t, err := ParseTime(s)
	if err != nil {
		return refuse(text, wantDuration, "a colon belongs to a time of the recording", "")
	}
	return refuse(text, wantDuration, "a colon belongs to a time of the recording",
		fmt.Sprintf("write %q", Duration(t)))
}

// String writes the largest units that lose nothing: "40 s", "1 min 30 s", "1 h 5 min".
func (d Duration) String() string {
	if d < 0 {
		return "-" + (-d).String()
	}
	h, m, s := int(d)/3600, int(d)/60%60, int(d)%60
	var parts []string
	if h > 0 {
		parts = append(parts, fmt.Sprintf("%d h", h))
	}
	if m > 0 {
		parts = append(parts, fmt.Sprintf("%d min", m))
	}
	if s > 0 || len(parts) == 0 {
		parts = append(parts, fmt.Sprintf("%d s", s))
	}
	return strings.Join(parts, " ")
}

// Seconds gives the duration in seconds.
func (d Duration) Seconds() int { return int(d) }

// Minutes gives the duration in minutes.
func (d Duration) Minutes() float64 { return float64(d) / 60 }
