package measure

import "fmt"

// PressureUnit is the unit a pressure was written in; it is kept, not converted.
type PressureUnit int

// The units of pressure. A bottle height in cm is the height of a water column, which is
// what CmH2O stands for; it is written "cm" by authors.
const (
	MmHg PressureUnit = iota
	CmH2O
)

// Pressure is a pressure in the unit of its author. Eye pressure and vacuum are told in
// mmHg; the infusion is told either way, so its unit must be typed.
type Pressure struct {
	Value float64
	Unit  PressureUnit
}

const wantPressure = `a pressure ("15 mmHg", "80 cmH2O")`

// mmHgPerCmH2O follows from 1 cmH2O = 98.0665 Pa and 1 mmHg = 133.322387415 Pa
// (conventional definitions, from memory).
const mmHgPerCmH2O = 98.0665 / 133.322387415

var (
	mercury = family{wantPressure, "mmHg", map[string]unit{"mmHg": {0}, "mm Hg": {0}, "mmhg": {0}}, noSign}
	water   = family{wantPressure, "cmH2O", map[string]unit{
		"cmH2O": {0}, "cmH₂O": {0}, "cm H2O": {0}, "cmh2o": {0}}, noSign}
	bottle = family{`a bottle height or infusion pressure ("80 cm", "60 mmHg")`, "cm",
		map[string]unit{"cm": {0}, "cmH2O": {0}, "cmH₂O": {0}, "cm H2O": {0}}, noSign}
)

// ParsePressure reads "15 mmHg" or "80 cmH2O".
func ParsePressure(text string) (Pressure, error) {
	if _, u := split(tidy(text)); hasUnit(water, u) {
		v, err := water.parse(text)
		return Pressure{v, CmH2O}, err
	}
	v, err := mercury.parse(text)
	return Pressure{v, MmHg}, err
}

// hasUnit reports whether a family knows a unit.
func hasUnit(f family, u string) bool {
	_, ok := f.units[u]
	return ok
}

// MmHg gives the pressure in millimetres of mercury.
func (p Pressure) MmHg() float64 {
	if p.Unit == CmH2O {
		return p.Value * mmHgPerCmH2O
	}
	return p.Value
}

// String writes the pressure in its author's unit.
func (p Pressure) String() string {
	if p.Unit == CmH2O {
		return fmt.Sprintf("%s cmH2O", format(p.Value))
	}
	return fmt.Sprintf("%s mmHg", format(p.Value))
}
