package measure

import "math"

// Eye is the patient's eye.
type Eye int

// The eyes. UnknownEye is the zero value: nothing that depends on the side can be told.
const (
	UnknownEye Eye = iota
	RightEye
	LeftEye
)

// ParseEye reads "right" or "left".
func ParseEye(text string) (Eye, error) {
	switch tidy(text) {
	case "right":
		return RightEye, nil
	case "left":
		return LeftEye, nil
	}
	return UnknownEye, refuse(text, `an eye ("right" or "left")`, "", "")
}

// String writes "right", "left" or nothing.
func (e Eye) String() string { return [...]string{"", "right", "left"}[max(0, min(int(e), 2))] }

// Seat is where the surgeon sits; the picture under the microscope turns with it.
type Seat int

// The seats. UnknownSeat draws the eye as an observer in front of the patient sees it.
const (
	UnknownSeat Seat = iota
	SuperiorSeat
	TemporalSeat
)

// String writes "superior", "temporal" or nothing.
func (s Seat) String() string {
	return [...]string{"", "superior", "temporal"}[max(0, min(int(s), 2))]
}

// TemporalHour gives the clock hour at the temporal side: 9 in the right eye, 3 in the
// left (anatomy; common practice, no source). It is false while the eye is unknown.
func (e Eye) TemporalHour() (ClockHour, bool) {
	switch e {
	case RightEye:
		return 9, true
	case LeftEye:
		return 3, true
	}
	return 0, false
}

// Side names the side of the eye at a clock hour: superior, temporal, inferior or nasal at
// the four marks, and a joined name between them ("superotemporal"). It is empty where the
// side depends on the eye and the eye is unknown.
func (e Eye) Side(h ClockHour) string {
	d := wrapHour(float64(h))
	vertical, right := "", "" // right: the side at 3 o'clock
	switch {
	case d > 9 || d < 3:
		vertical = "superior"
	case d > 3 && d < 9:
		vertical = "inferior"
	}
	switch {
	case d == 12 || d == 6:
		return vertical
	case e == UnknownEye:
		return ""
	case d < 6 == (e == RightEye):
		right = "nasal"
	default:
		right = "temporal"
	}
	if vertical == "" {
		return right
	}
	return vertical[:len(vertical)-3] + "o" + right
}

// ScreenAngle gives where a clock hour appears in the microscope picture, in degrees
// counter-clockwise from the right edge. The surgeon's own side is at the bottom: from the
// head the eye is turned by 180 degrees, from the temporal side by 90. With an unknown eye
// or seat the eye isn't turned (common practice, no source).
func (e Eye) ScreenAngle(seat Seat, h ClockHour) float64 {
	turn := 0.0
	switch {
	case seat == SuperiorSeat:
		turn = 180
	case seat == TemporalSeat && e == RightEye:
		turn = 90
	case seat == TemporalSeat && e == LeftEye:
		turn = 270
	}
	return math.Mod(h.Angle()+turn, 360)
}

// Words tells where the surgeon sits: "head of the table", "temporal side".
func (s Seat) Words() string {
	return [...]string{"front", "head of the table", "temporal side"}[max(0, min(int(s), 2))]
}
