package measure

import "math"

// Overlap tells how the rim of a round capsule opening lies over a round optic. Lengths in
// mm, areas in mm².
type Overlap struct {
	Least, Most     float64 // overlap at its smallest and largest; negative where bare
	Complete        bool    // Least over 0: touching edges are not complete
	BareDegrees     float64 // of the optic's edge not covered; 360 for equal circles, by convention
	OpeningArea     float64
	OpticArea       float64
	CoveredArea     float64 // of the optic, under the rim
	CoveredFraction float64
}

// BareHours gives the uncovered edge in clock hours.
func (o Overlap) BareHours() float64 { return o.BareDegrees / degreesPerHour }

// RimOverlap computes the overlap of an opening of diameter d over an optic of diameter D
// whose centres lie e apart, by the geometry of two circles: least (D-d)/2-e, most
// (D-d)/2+e, bare edge 2·acos((R²+e²-r²)/(2Re)). Diameters must be over 0.
func RimOverlap(opening, optic, decentration Length) (Overlap, bool) {
	r, big, e := float64(opening)/2, float64(optic)/2, math.Abs(float64(decentration))
	if r <= 0 || big <= 0 {
		return Overlap{}, false
	}
	o := Overlap{
		Least: big - r - e, Most: big - r + e,
		OpeningArea: math.Pi * r * r, OpticArea: math.Pi * big * big,
	}
	const touch = 1e-12 // edges that touch differ by rounding only
	if math.Abs(o.Least) < touch {
		o.Least = 0
	}
	o.Complete = o.Least > 0
	o.BareDegrees = bareDegrees(r, big, e)
	o.CoveredArea = o.OpticArea - lensArea(r, big, e)
	if math.Abs(o.CoveredArea) < touch {
		o.CoveredArea = 0
	}
	o.CoveredFraction = o.CoveredArea / o.OpticArea
	return o, true
}

// bareDegrees gives the part of the optic's edge that lies inside the opening.
func bareDegrees(r, big, e float64) float64 {
	switch {
	case r >= big+e:
		return 360
	case e <= big-r || e >= big+r:
		return 0
	}
	c := (big*big + e*e - r*r) / (2 * big * e)
	return 2 * math.Acos(math.Max(-1, math.Min(1, c))) * 180 / math.Pi
}

// lensArea gives the area common to two circles whose centres lie e apart.
func lensArea(r, big, e float64) float64 {
	small := math.Min(r, big)
	switch {
	case e >= r+big:
		return 0
	case e <= math.Abs(big-r):
		return math.Pi * small * small
	}
	a := r * r * math.Acos((e*e+r*r-big*big)/(2*e*r))
	b := big * big * math.Acos((e*e+big*big-r*r)/(2*e*big))
	k := (-e + r + big) * (e + r - big) * (e - r + big) * (e + r + big)
	return a + b - math.Sqrt(math.Max(0, k))/2
}

// OverlapAt gives the overlap at a clock hour, when the opening's centre lies off the
// optic's by decentration towards the given hour: the way from the opening's edge to the
// optic's along the ray from the optic's centre. Negative where the optic is bare; false
// when the ray misses the opening.
func OverlapAt(opening, optic, decentration Length, towards, at ClockHour) (float64, bool) {
	r, big, e := float64(opening)/2, float64(optic)/2, float64(decentration)
	angle := (at.Degrees() - towards.Degrees()) * math.Pi / 180
	along := e * math.Cos(angle)
	across := e * math.Sin(angle)
	if math.Abs(across) > r {
		return 0, false
	}
	return big - (along + math.Sqrt(r*r-across*across)), true
}

// EllipseArea gives the area of an oval opening and the diameter of the round opening with
// the same area: pi·d1·d2/4 and √(d1·d2).
func EllipseArea(d1, d2 Length) (area float64, equivalent Length) {
	return math.Pi * float64(d1) * float64(d2) / 4, Length(math.Sqrt(float64(d1) * float64(d2)))
}
