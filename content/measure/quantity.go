package measure

import (
	"fmt"
	"math"
	"slices"
)

// Quantity is a value of any measure of the vocabulary.
type Quantity struct {
	Value float64 // in Unit; the first value where a pair was given
	Unit  string  // "mm", "D", "mmHg", "hours", …
	Text  string  // to print
}

// reader reads the text of one measure.
type reader func(text string) (Quantity, error)

// from makes a reader of a typed parser.
func from[T fmt.Stringer](parse func(string) (T, error), value func(T) float64, unit string) reader {
	return func(text string) (Quantity, error) {
		v, err := parse(text)
		if err != nil {
			return Quantity{}, err
		}
		return Quantity{Value: value(v), Unit: unit, Text: v.String()}, nil
	}
}

// plain is the value of a type that is a float64.
func plain[T ~float64](v T) float64 { return float64(v) }

// readers maps the vocabulary's measures, and the outcomes that are measured, to their
// readers.
var readers = map[string]reader{
	"axial-length":             from(ParseLength, plain, "mm"),
	"anterior-chamber-depth":   from(ParseLength, plain, "mm"),
	"lens-thickness":           from(ParseLength, plain, "mm"),
	"white-to-white":           from(ParseLength, plain, "mm"),
	"pupil-diameter":           from(ParseLength, plain, "mm"),
	"rhexis-diameter":          from(ParseLength, plain, "mm"),
	"incision-width":           from(ParseLength, plain, "mm"),
	"tunnel-length":            from(ParseLength, plain, "mm"),
	"tear-length":              from(ParseLength, plain, "mm"),
	"corneal-thickness":        micrometres,
	"keratometry":              from(ParseCurvature, plain, "D"),
	"corneal-cylinder":         from(ParseCurvature, plain, "D"),
	"iol-power":                from(ParsePower, plain, "D"),
	"target-refraction":        from(ParsePower, plain, "D"),
	"prediction-error":         from(ParsePower, plain, "D"),
	"axis-marking":             from(ParseAxis, plain, "°"),
	"ultrasound-time":          from(ParseDuration, seconds, "s"),
	"effective-phaco-time":     fractionalSeconds,
	"operating-time":           from(ParseDuration, Duration.Minutes, "min"),
	"mean-ultrasound-power":    from(ParsePercent, plain, "%"),
	"endothelial-cell-loss":    lossPercent,
	"dissipated-energy":        index,
	"vacuum-limit":             from(ParsePressure, Pressure.MmHg, "mmHg"),
	"intraocular-pressure":     from(ParsePressure, Pressure.MmHg, "mmHg"),
	"bottle-height":            bottleHeight,
	"aspiration-flow":          from(ParseFlow, plain, "mL/min"),
	"cut-rate":                 from(ParseCutRate, plain, "cuts/min"),
	"endothelial-cell-density": from(ParseCellDensity, plain, "cells/mm²"),
	"clock-hours":              clockHours,
	"needle-gauge":             from(ParseGauge, func(g Gauge) float64 { return float64(g) }, "G"),
	"fluid-used":               from(ParseVolume, plain, "mL"),
	"block-volume":             from(ParseVolume, plain, "mL"),
	"corrected-acuity":         acuityQuantity,
	"uncorrected-acuity":       acuityQuantity,
}

// Known reports whether a measure has a reader of its own.
func Known(measureTermID string) bool { _, ok := readers[measureTermID]; return ok }

// KnownMeasures lists the measures with a reader of their own, sorted.
func KnownMeasures() []string {
	ids := make([]string, 0, len(readers))
	for id := range readers {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// Parse reads the value of a measure by its term id. A measure that only a bank's own
// vocabulary knows is read as a number with any unit, which is kept as typed.
func Parse(measureTermID string, text string) (Quantity, error) {
	if read, ok := readers[measureTermID]; ok {
		return read(text)
	}
	return anyUnit(text)
}

// seconds is the value of a duration.
func seconds(d Duration) float64 { return float64(d) }

// anyUnit reads a number with an unknown unit.
func anyUnit(text string) (Quantity, error) {
	const want = "a number with its unit"
	s := tidy(text)
	if point, ok := decimalComma(s); ok {
		return Quantity{}, refuse(text, want, "a comma in a number", fmt.Sprintf("write %q", point))
	}
	num, u := split(s)
	v, ok := number(num, 0)
	if !ok {
		return Quantity{}, refuse(text, want, "", "")
	}
	if u == "" {
		return Quantity{}, refuse(text, want, "no unit", "")
	}
	return Quantity{v, u, format(v) + " " + u}, nil
}

// micrometres reads a corneal thickness, told in µm.
func micrometres(text string) (Quantity, error) {
	v, err := ParseLength(text)
	if err != nil {
		return Quantity{}, err
	}
	um := math.Round(float64(v)*1e6) / 1e3
	return Quantity{um, "µm", format(um) + " µm"}, nil
}

// fractionalSeconds reads an effective phaco time, which has tenths: "4.5 s".
func fractionalSeconds(text string) (Quantity, error) {
	f := family{`a time in seconds ("4.5 s")`, "s", map[string]unit{"s": {0}, "sec": {0}, "seconds": {0}}, noSign}
	v, err := f.parse(text)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{v, "s", f.text(v)}, nil
}

// lossPercent reads a cell loss, which scatter can make negative.
func lossPercent(text string) (Quantity, error) {
	v, err := percentsS.parse(text)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{v, "%", percentsS.text(v)}, nil
}

// index reads a machine's energy index, the one measure without a unit.
func index(text string) (Quantity, error) {
	s := tidy(text)
	v, ok := number(s, 0)
	if !ok || v < 0 {
		hint := ""
		if point, comma := decimalComma(s); comma {
			hint = fmt.Sprintf("write %q", point)
		}
		return Quantity{}, refuse(text, `a machine's energy index ("6.3", no unit)`, "", hint)
	}
	return Quantity{v, "index", format(v)}, nil
}

// bottleHeight reads a height in cm or a pressure in mmHg; neither is turned into the other.
func bottleHeight(text string) (Quantity, error) {
	if p, err := ParsePressure(text); err == nil && p.Unit == MmHg {
		return Quantity{p.Value, "mmHg", p.String()}, nil
	}
	v, err := bottle.parse(text)
	if err != nil {
		return Quantity{}, err
	}
	return Quantity{v, "cm", bottle.text(v)}, nil
}

// clockHours reads an extent: an arc with its place ("5-7"), or a number of hours.
func clockHours(text string) (Quantity, error) {
	if a, err := ParseArc(text); err == nil {
		return Quantity{a.Hours(), "hours", a.Words()}, nil
	}
	f := family{`an extent ("3 clock hours", or an arc such as "5-7")`, "clock hours",
		map[string]unit{"clock hours": {0}, "clock hour": {0}, "hours": {0}, "hour": {0}}, noSign}
	v, err := f.parse(text)
	switch {
	case err != nil:
		return Quantity{}, err
	case v > 12:
		return Quantity{}, refuse(text, f.want, "a circle has 12", "")
	}
	return Quantity{v, "hours", hoursOf(v)}, nil
}

// acuityQuantity reads an acuity into its logMAR; a category has no value and is NaN.
func acuityQuantity(text string) (Quantity, error) {
	a, err := ParseAcuity(text)
	if err != nil {
		return Quantity{}, err
	}
	v, ok := a.LogMAR()
	if !ok {
		v = math.NaN()
	}
	return Quantity{v, "logMAR", a.String()}, nil
}
