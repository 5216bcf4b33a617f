package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// Time is a moment of the recording in whole seconds from its start.
type Time int

const (
	wantTime = "a time of the recording (m:ss or h:mm:ss)"
	// maxTime is a day: no recording of one operation is longer.
	maxTime = 24 * 3600
)

// ParseTime reads "m:ss", "mm:ss" or "h:mm:ss". Minutes may exceed 59 only in the short
// form: 75:10 is 75 min 10 s. A bare or fractional number is refused, since some readers
// of the front matter turn 12:30 into 750 and a person may write 4.12 for 4:12.
func ParseTime(text string) (Time, error) {
	s := tidy(text)
	if strings.HasPrefix(s, "-") {
		return 0, refuse(text, wantTime, "a time is never negative", "")
	}
	parts := strings.Split(s, ":")
	switch len(parts) {
	case 1:
		return 0, bareTime(text, s)
	case 2, 3:
		return clockTime(text, parts)
	}
	return 0, refuse(text, wantTime, fmt.Sprintf("%d parts, where three are the most", len(parts)), "")
}

// bareTime explains a time without a colon.
func bareTime(text, s string) error {
	if n, ok := integer(s); ok {
		hint := "write 0:45 for 45 seconds, 45:00 for 45 minutes"
		if n > 0 && n < maxTime {
			hint = fmt.Sprintf("write %s for %d seconds or %s for %d minutes", Time(n), n, minutesOnly(n), n)
		}
		return refuse(text, wantTime, "a bare number: seconds or minutes?", hint)
	}
	for _, sep := range []string{".", ",", "·"} {
		m, sec, found := strings.Cut(s, sep)
		if !found {
			continue
		}
		minutes, ok1 := integer(m)
		seconds, ok2 := integer(sec)
		if ok1 && ok2 && len(sec) == 2 && seconds < 60 {
			return refuse(text, wantTime, "minutes and seconds are parted by a colon",
				fmt.Sprintf("write %d:%02d", minutes, seconds))
		}
		return refuse(text, wantTime, "minutes and seconds are parted by a colon", "")
	}
	return refuse(text, wantTime, "", "")
}

// minutesOnly writes n minutes in the short form.
func minutesOnly(n int) string { return strconv.Itoa(n) + ":00" }

// clockTime reads two or three parts.
func clockTime(text string, parts []string) (Time, error) {
	var n [3]int
	offset := 3 - len(parts)
	for i, p := range parts {
		v, ok := integer(p)
		if !ok || len(p) > 4 {
			return 0, refuse(text, wantTime, fmt.Sprintf("%q is not a whole number", p), "")
		}
		n[i+offset] = v
		if i > 0 && len(p) != 2 {
			return 0, oneDigit(text, p, i == len(parts)-1)
		}
	}
	if n[2] > 59 {
		total := n[0]*3600 + n[1]*60 + n[2]
		return 0, refuse(text, wantTime, "seconds over 59",
			fmt.Sprintf("if %d min %d s is meant, write %s", n[0]*60+n[1], n[2], Time(total)))
	}
	if len(parts) == 3 && n[1] > 59 {
		return 0, refuse(text, wantTime, "minutes over 59 beside hours", "")
	}
	total := n[0]*3600 + n[1]*60 + n[2]
	if total >= maxTime {
		return 0, refuse(text, wantTime, "longer than a day", "")
	}
	return Time(total), nil
}

// oneDigit explains minutes or seconds that are not two digits.
func oneDigit(text, part string, last bool) error {
	word := "minutes"
	if last {
		word = "seconds"
	}
	hint := ""
	if len(part) == 1 {
		cut := strings.LastIndex(tidy(text), ":"+part)
		head, tail := tidy(text)[:cut+1], tidy(text)[cut+1+len(part):]
		hint = fmt.Sprintf("write %s0%s%s if %s %s is meant", head, part, tail, part, word)
	}
	return refuse(text, wantTime, "two digits are needed for "+word, hint)
}

// String writes the one form used everywhere: 0:40, 9:30, 1:02:03.
func (t Time) String() string {
	if t < 0 {
		return "-" + (-t).String()
	}
	h, m, s := int(t)/3600, int(t)/60%60, int(t)%60
	var text []byte
	if h > 0 {
		text = append(strconv.AppendInt(text, int64(h), 10), ':', '0'+byte(m/10), '0'+byte(m%10))
	} else {
		text = strconv.AppendInt(text, int64(m), 10)
	}
	return string(append(text, ':', '0'+byte(s/10), '0'+byte(s%10)))
}

// Seconds gives the time in seconds from the start of the recording.
func (t Time) Seconds() int { return int(t) }

// Sub gives the duration from u to t; negative when t is earlier.
func (t Time) Sub(u Time) Duration { return Duration(t - u) }

// Add moves a time by a duration.
func (t Time) Add(d Duration) Time { return t + Time(d) }
