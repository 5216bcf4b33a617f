package measure

import (
	"fmt"
	"sort"
	"strings"
)

// unit is a unit as authors write it, scaled by a power of ten to the family's own unit.
type unit struct {
	exp10 int
}

// family is one kind of quantity: what to call it, its own unit, the accepted ones.
type family struct {
	want  string // for messages: `a length ("2.4 mm")`
	own   string // the unit values are held and printed in
	units map[string]unit
	sign  signRule
}

// signRule says what may stand before the number.
type signRule int

const (
	noSign       signRule = iota // a plus or minus is refused
	mayHaveSign                  // either, or none
	mustHaveSign                 // plus or minus is required, unless the value is zero
)

var (
	lengths = family{`a length ("2.4 mm", "350 µm", "1.2 cm")`, "mm", map[string]unit{
		"mm": {0}, "µm": {-3}, "um": {-3}, "micrometre": {-3}, "micrometres": {-3}, "microns": {-3}, "cm": {1}}, noSign}
	volumes = family{`a volume ("0.2 mL")`, "mL", map[string]unit{
		"mL": {0}, "ml": {0}, "µL": {-3}, "uL": {-3}, "µl": {-3}, "ul": {-3}, "L": {3}, "l": {3}}, noSign}
	masses = family{`a dose ("1 mg")`, "mg", map[string]unit{
		"mg": {0}, "µg": {-3}, "ug": {-3}, "mcg": {-3}, "g": {3}}, noSign}
	powers = family{`a power in dioptres with its sign ("+21.5 D", "-0.50 D")`, "D", map[string]unit{
		"D": {0}, "DS": {0}, "dioptres": {0}, "dioptre": {0}}, mustHaveSign}
	curvatures = family{`a curvature in dioptres ("43.25 D")`, "D", map[string]unit{
		"D": {0}, "dioptres": {0}, "dioptre": {0}}, noSign}
	percents  = family{`a percentage ("20 %")`, "%", map[string]unit{"%": {0}, "percent": {0}, "per cent": {0}}, noSign}
	percentsS = family{`a percentage ("12 %")`, "%", map[string]unit{"%": {0}, "percent": {0}, "per cent": {0}}, mayHaveSign}
	flows     = family{`a flow ("35 mL/min")`, "mL/min", map[string]unit{
		"mL/min": {0}, "ml/min": {0}, "cc/min": {0}}, noSign}
	angles = family{`an angle in degrees ("90°")`, "°", map[string]unit{
		"°": {0}, "deg": {0}, "degrees": {0}, "degree": {0}}, noSign}
	densities = family{`a cell density ("2400 cells/mm2")`, "cells/mm²", map[string]unit{
		"cells/mm²": {0}, "cells/mm2": {0}, "cells/mm^2": {0}, "/mm²": {0}, "/mm2": {0}}, noSign}
	cutRates = family{`a cut rate ("4000 cuts/min")`, "cuts/min", map[string]unit{
		"cuts/min": {0}, "cpm": {0}, "CPM": {0}}, noSign}
	gauges = family{`a gauge ("27 G")`, "G", map[string]unit{"G": {0}, "g": {0}, "gauge": {0}}, noSign}
)

// parse reads one number with one of the family's units into the family's own unit.
func (f family) parse(text string) (float64, error) {
	s := tidy(text)
	num, written := split(s)
	if point, ok := decimalComma(s); ok {
		return 0, refuse(text, f.want, "a comma in a number", fmt.Sprintf("write %q", point))
	}
	if num == "" {
		return 0, refuse(text, f.want, "", "")
	}
	u, known := f.units[written]
	switch {
	case written == "" && f.own == "°":
		return 0, refuse(text, f.want, "no unit", fmt.Sprintf("write \"%s°\" if degrees are meant", num))
	case written == "":
		return 0, refuse(text, f.want, "no unit", fmt.Sprintf("write \"%s %s\" if %s is meant", num, f.own, f.own))
	case !known:
		return 0, refuse(text, f.want, fmt.Sprintf("unknown unit %q; %s", written, f.known()), "")
	}
	if err := f.checkSign(text, num); err != nil {
		return 0, err
	}
	v, ok := number(num, u.exp10)
	if !ok {
		return 0, refuse(text, f.want, fmt.Sprintf("%q is not a number", num), "")
	}
	return v, nil
}

// checkSign applies the family's rule to the number as typed.
func (f family) checkSign(text, num string) error {
	has := num[0] == '+' || num[0] == '-'
	switch {
	case f.sign == noSign && has:
		return refuse(text, f.want, "no sign belongs here", "")
	case f.sign == mustHaveSign && !has && strings.Trim(num, "0.") != "":
		return refuse(text, f.want, "plus or minus?", fmt.Sprintf("write +%s or -%s", num, num))
	}
	return nil
}

// known lists the units of a family for messages.
func (f family) known() string {
	list := make([]string, 0, len(f.units))
	for u := range f.units {
		list = append(list, u)
	}
	sort.Strings(list)
	return "known are " + strings.Join(list, ", ")
}

// text writes a value in the family's own unit.
func (f family) text(v float64) string {
	n := format(v)
	if f.sign == mustHaveSign {
		n = signed(v)
	}
	if f.own == "°" {
		return n + f.own
	}
	return n + " " + f.own
}
