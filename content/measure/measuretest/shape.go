package measuretest

import (
	"fmt"

	"caseleaf/content/measure"
)

// arc builds an arc from the row's ends, which may lie on 12.5 or be equal.
func arc(in inputs) (measure.Arc, error) {
	from, err := hour(in.From)
	if err != nil {
		return measure.Arc{}, err
	}
	to, err := hour(in.To)
	return measure.Arc{From: from, To: to}, err
}

// hour reads a clock hour through its parser.
func hour(v float64) (measure.ClockHour, error) {
	return measure.ParseClockHour(fmt.Sprint(v))
}

func clockArc(in inputs) (Results, error) {
	a, err := arc(in)
	if err != nil {
		return nil, err
	}
	mid, _ := a.Midpoint()
	return Results{"hours": a.Hours(), "degrees": a.Degrees(), "midpoint": float64(mid)}, nil
}

func clockAngle(in inputs) (Results, error) {
	h, err := hour(in.Hour)
	return Results{"angle": h.Angle(), "axis": h.Axis()}, err
}

func clockSide(in inputs) (Results, error) {
	eye, err := measure.ParseEye(in.Eye)
	if err != nil {
		return nil, err
	}
	h, err := hour(in.Hour)
	return Results{"side": eye.Side(h)}, err
}

func screenPosition(in inputs) (Results, error) {
	eye, err := measure.ParseEye(in.Eye)
	if err != nil {
		return nil, err
	}
	seat := measure.SuperiorSeat
	if in.Seat == measure.TemporalSeat.String() {
		seat = measure.TemporalSeat
	}
	h, err := hour(in.Hour)
	angle := eye.ScreenAngle(seat, h)
	edge := map[float64]string{0: "right", 90: "top", 180: "left", 270: "bottom"}[angle]
	return Results{"screen_angle": angle, "screen": edge}, err
}

func arcLength(in inputs) (Results, error) {
	to, err := hour(in.Hours)
	a := measure.Arc{From: 12, To: to}
	return Results{"length": float64(a.Length(measure.Length(in.Diameter)))}, err
}

func rimOverlap(in inputs) (Results, error) {
	o, ok := measure.RimOverlap(measure.Length(in.Diameter), measure.Length(in.Optic), measure.Length(in.Decentration))
	if !ok {
		return nil, fmt.Errorf("no overlap of %v over %v", in.Diameter, in.Optic)
	}
	return Results{
		"rhexis_area": o.OpeningArea, "optic_area": o.OpticArea,
		"min_overlap": o.Least, "max_overlap": o.Most, "complete_overlap": o.Complete,
		"optic_edge_uncovered_degrees": o.BareDegrees, "optic_edge_uncovered_clock_hours": o.BareHours(),
		"optic_area_covered_by_capsule": o.CoveredArea, "covered_fraction": o.CoveredFraction,
	}, nil
}

func ellipse(in inputs) (Results, error) {
	area, d := measure.EllipseArea(measure.Length(in.D1), measure.Length(in.D2))
	return Results{"area": area, "equivalent_diameter": float64(d)}, nil
}

func phacoTime(in inputs) (Results, error) {
	var parts []measure.Ultrasound
	for i, s := range in.Seconds {
		parts = append(parts, measure.Ultrasound{Seconds: s, MeanPower: measure.Percent(100 * in.PowerFraction[i])})
	}
	t := measure.SumUltrasound(parts)
	mean, ok := t.MeanPower()
	return Results{"effective_seconds": t.EffectiveSeconds, "total_seconds": t.Seconds,
		"mean_power": optional(mean.Fraction(), ok)}, nil
}
