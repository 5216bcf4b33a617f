package measure

import (
	"fmt"
	"math"
)

// Length is a distance in millimetres, never negative.
type Length float64

// ParseLength reads "2.4 mm", "350 µm" (or um) and "1.2 cm". The unit is required.
func ParseLength(text string) (Length, error) {
	v, err := lengths.parse(text)
	return Length(v), err
}

// String writes millimetres: "2.4 mm".
func (l Length) String() string { return lengths.text(float64(l)) }

// Volume is a volume in millilitres.
type Volume float64

// ParseVolume reads "0.2 mL" or "150 µL".
func ParseVolume(text string) (Volume, error) {
	v, err := volumes.parse(text)
	return Volume(v), err
}

// String writes millilitres.
func (v Volume) String() string { return volumes.text(float64(v)) }

// Mass is a dose in milligrams.
type Mass float64

// ParseMass reads "1 mg" or "250 µg".
func ParseMass(text string) (Mass, error) {
	v, err := masses.parse(text)
	return Mass(v), err
}

// String writes milligrams.
func (m Mass) String() string { return masses.text(float64(m)) }

// Power is a refractive power or refraction in dioptres; its sign is always written.
type Power float64

// ParsePower reads "+21.5 D" or "-0.50 D" (hyphen or true minus). A power without a sign is
// refused, since implants of both signs exist.
func ParsePower(text string) (Power, error) {
	v, err := powers.parse(text)
	return Power(v), err
}

// String writes dioptres with the sign: "+21.5 D".
func (p Power) String() string { return powers.text(float64(p)) }

// Curvature is a corneal curvature or cylinder in dioptres, never negative.
type Curvature float64

// ParseCurvature reads "43.25 D".
func ParseCurvature(text string) (Curvature, error) {
	v, err := curvatures.parse(text)
	return Curvature(v), err
}

// String writes dioptres.
func (c Curvature) String() string { return curvatures.text(float64(c)) }

// Percent is a percentage from 0: 20 is 20 %.
type Percent float64

// ParsePercent reads "20 %".
func ParsePercent(text string) (Percent, error) {
	v, err := percents.parse(text)
	return Percent(v), err
}

// String writes "20 %".
func (p Percent) String() string { return percents.text(float64(p)) }

// Fraction gives the percentage as a part of one.
func (p Percent) Fraction() float64 { return float64(p) / 100 }

// Flow is an aspiration flow in millilitres a minute.
type Flow float64

// ParseFlow reads "35 mL/min".
func ParseFlow(text string) (Flow, error) {
	v, err := flows.parse(text)
	return Flow(v), err
}

// String writes "35 mL/min".
func (f Flow) String() string { return flows.text(float64(f)) }

// Angle is an angle in degrees from 0 to 360.
type Angle float64

// ParseAngle reads "90°" or "90 degrees".
func ParseAngle(text string) (Angle, error) {
	v, err := angles.parse(text)
	if err == nil && v > 360 {
		return 0, refuse(text, angles.want, "over 360", "")
	}
	return Angle(v), err
}

// String writes "90°".
func (a Angle) String() string { return angles.text(float64(a)) }

// ParseAxis reads an astigmatic axis: a whole number of degrees from 1 to 180.
func ParseAxis(text string) (Angle, error) {
	const want = `an axis, 1° to 180° in whole degrees ("90°")`
	a, err := ParseAngle(text)
	switch {
	case err != nil:
		return 0, err
	case float64(a) != math.Trunc(float64(a)):
		return 0, refuse(text, want, "whole degrees only", "")
	case a == 0:
		return 0, refuse(text, want, "there is no axis 0", `write "180°"`)
	case a > 180:
		return 0, refuse(text, want, "over 180", "")
	}
	return a, nil
}

// CellDensity is a count of endothelial cells to the square millimetre.
type CellDensity float64

// ParseCellDensity reads "2400 cells/mm2".
func ParseCellDensity(text string) (CellDensity, error) {
	v, err := densities.parse(text)
	return CellDensity(v), err
}

// String writes "2400 cells/mm²".
func (c CellDensity) String() string { return densities.text(float64(c)) }

// CutRate is the speed of a vitreous cutter in cuts a minute.
type CutRate float64

// ParseCutRate reads "4000 cuts/min".
func ParseCutRate(text string) (CutRate, error) {
	v, err := cutRates.parse(text)
	return CutRate(v), err
}

// String writes "4000 cuts/min".
func (c CutRate) String() string { return cutRates.text(float64(c)) }

// Gauge is the size number of a needle, cannula or cutter; a larger number is finer.
type Gauge int

// ParseGauge reads "27 G", a whole number from 1 to 50.
func ParseGauge(text string) (Gauge, error) {
	v, err := gauges.parse(text)
	switch {
	case err != nil:
		return 0, err
	case v != math.Trunc(v):
		return 0, refuse(text, gauges.want, "gauges are whole numbers", "")
	case v < 1 || v > 50:
		return 0, refuse(text, gauges.want, "outside 1 to 50", "")
	}
	return Gauge(v), nil
}

// String writes "27 G".
func (g Gauge) String() string { return fmt.Sprintf("%d G", int(g)) }
