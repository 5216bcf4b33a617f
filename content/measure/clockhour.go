package measure

import (
	"fmt"
	"math"
	"strings"
)

// ClockHour is a place on the circumference of the eye, as an observer who faces the eye
// sees a clock with 12 towards the brow: 0 < h <= 12 in halves. Half past twelve is 0.5.
// Clock hours belong to the eye, not to the picture; see ScreenAngle.
type ClockHour float64

const (
	wantHour = "a clock hour (1 to 12, halves allowed)"
	// degreesPerHour: 360 degrees over 12 hours (common practice, no source).
	degreesPerHour = 30
)

// ParseClockHour reads "11", "10.5", "12:30" or "3 o'clock".
func ParseClockHour(text string) (ClockHour, error) {
	s := strings.ToLower(tidy(text))
	for _, tail := range []string{"o'clock", "o’clock", "oclock"} {
		s = strings.TrimSpace(strings.TrimSuffix(s, tail))
	}
	if point, ok := decimalComma(s); ok {
		return 0, refuse(text, wantHour, "a comma in a number", "write "+point)
	}
	if h, m, found := strings.Cut(s, ":"); found {
		switch m {
		case "00":
			s = h
		case "30":
			s = h + ".5"
		default:
			return 0, refuse(text, wantHour, "whole and half hours only", "")
		}
	}
	v, ok := number(s, 0)
	if !ok || strings.HasPrefix(s, "+") {
		return 0, refuse(text, wantHour, "", "")
	}
	if v*2 != math.Trunc(v*2) {
		return 0, refuse(text, wantHour, "whole and half hours only", "")
	}
	if v <= 0 || v >= 13 {
		return 0, refuse(text, wantHour, "outside the clock", "")
	}
	return wrapHour(v), nil
}

// wrapHour brings any hour into 0 < h <= 12.
func wrapHour(v float64) ClockHour {
	v = math.Mod(v, 12)
	if v <= 0 {
		v += 12
	}
	return ClockHour(v)
}

// String writes "11", "10.5" and, for half past twelve, "12.5".
func (h ClockHour) String() string {
	if h > 0 && h < 1 {
		return format(float64(h) + 12)
	}
	return format(float64(h))
}

// Degrees gives the place as degrees clockwise from 12: 0 <= d < 360.
func (h ClockHour) Degrees() float64 {
	return math.Mod(float64(wrapHour(float64(h)))*degreesPerHour, 360)
}

// Angle gives the place as a drawing has it, in degrees counter-clockwise from 3 o'clock.
func (h ClockHour) Angle() float64 {
	return math.Mod(450-h.Degrees(), 360)
}

// Axis gives the astigmatic axis through the place: 0 < a <= 180, 180 at 3 and 9.
func (h ClockHour) Axis() float64 {
	a := math.Mod(h.Angle(), 180)
	if a == 0 {
		return 180
	}
	return a
}

// hoursOf writes a number of clock hours: "1 clock hour", "2.5 clock hours".
func hoursOf(v float64) string {
	if v == 1 {
		return "1 clock hour"
	}
	return fmt.Sprintf("%s clock hours", format(v))
}
