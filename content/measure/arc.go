package measure

import (
	"math"
	"strings"
)

// Arc is a stretch of the circumference, clockwise from From to To, through 12 if need be.
// Its length is the difference of the ends, not the number of clock marks touched: 4 to 6
// is 2 hours or 60 degrees, 11 to 2 is 3 hours (common practice, no source). Equal ends
// are an arc of no length; the whole circle is Whole and has no ends.
type Arc struct {
	From, To ClockHour
	Whole    bool
}

const wantArc = `an arc in clock hours, clockwise ("5-7", "11-2", "4 to 6", or "all")`

// ParseArc reads "5-7", "11–2", "4 to 6 o'clock" or, for the whole circle, "all".
func ParseArc(text string) (Arc, error) {
	s := strings.ToLower(tidy(text))
	switch s {
	case "all", "all round", "whole", "360", "360°":
		return Arc{Whole: true}, nil
	}
	s = strings.NewReplacer("–", "-", "—", "-", " to ", "-").Replace(s)
	from, to, found := strings.Cut(s, "-")
	if !found {
		h, err := ParseClockHour(s)
		if err != nil {
			return Arc{}, refuse(text, wantArc, "", "")
		}
		return Arc{}, refuse(text, wantArc, "one place has no extent",
			"write both ends, such as "+h.String()+"-"+wrapHour(float64(h)+1).String())
	}
	a, err := ParseClockHour(from)
	if err != nil {
		return Arc{}, refuse(text, wantArc, "the first end is no clock hour", "")
	}
	b, err := ParseClockHour(to)
	if err != nil {
		return Arc{}, refuse(text, wantArc, "the second end is no clock hour", "")
	}
	if a == b {
		return Arc{}, refuse(text, wantArc, "both ends are the same", `write "all" if the whole circle is meant`)
	}
	return Arc{From: a, To: b}, nil
}

// Hours gives the length in clock hours: (To − From) mod 12, or 12 for the whole circle.
func (a Arc) Hours() float64 {
	if a.Whole {
		return 12
	}
	h := math.Mod(float64(a.To)-float64(a.From), 12)
	if h < 0 {
		h += 12
	}
	return h
}

// Degrees gives the length in degrees, 30 to the hour.
func (a Arc) Degrees() float64 { return a.Hours() * degreesPerHour }

// Midpoint gives the middle of the arc on the circle (11-2: half past 12), and false for
// the whole circle, which has none.
func (a Arc) Midpoint() (ClockHour, bool) {
	if a.Whole {
		return 0, false
	}
	return wrapHour(float64(a.From) + a.Hours()/2), true
}

// Contains reports whether a place lies on the arc, ends included.
func (a Arc) Contains(h ClockHour) bool {
	if a.Whole {
		return true
	}
	return Arc{From: a.From, To: wrapHour(float64(h))}.Hours() <= a.Hours()
}

// Length gives the way along a circle of the given diameter: pi × d × hours/12.
func (a Arc) Length(diameter Length) Length {
	return Length(math.Pi * float64(diameter) * a.Hours() / 12)
}

// String writes "5-7" or "all".
func (a Arc) String() string {
	if a.Whole {
		return "all"
	}
	return a.From.String() + "-" + a.To.String()
}

// Words writes the arc for a reader: "5 to 7 o'clock (2 clock hours)".
func (a Arc) Words() string {
	if a.Whole {
		return "all round (" + hoursOf(12) + ")"
	}
	return a.From.String() + " to " + a.To.String() + " o’clock (" + hoursOf(a.Hours()) + ")"
}
