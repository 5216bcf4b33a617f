// Package measuretest hands a row of the reference values (testdata/check-values) to the
// function of package measure that computes it. It serves tests only: those of measure
// itself and any test that reads the whole table.
//
//	got, ok, err := measuretest.Compute("clock_arc", []byte(`{"from":11,"to":2}`))
//	// got["hours"] is 3.0
package measuretest

import (
	"encoding/json"
	"fmt"
	"slices"
)

// inputs is the union of all inputs that the rows of measures have.
type inputs struct {
	Numerator     float64   `json:"numerator"`
	Denominator   float64   `json:"denominator"`
	Letters       int       `json:"letters"`
	LogMAR        []float64 `json:"logmar"`
	Acuities      []string  `json:"acuities"`
	Table         string    `json:"table"`
	DistanceFt    float64   `json:"distance_ft"`
	From          float64   `json:"from"`
	To            float64   `json:"to"`
	Hour          float64   `json:"hour"`
	Hours         float64   `json:"hours"`
	Eye           string    `json:"eye"`
	Seat          string    `json:"seat"`
	Diameter      float64   `json:"diameter"`
	Optic         float64   `json:"optic"`
	Decentration  float64   `json:"decentration"`
	D1            float64   `json:"d1"`
	D2            float64   `json:"d2"`
	Seconds       []float64 `json:"seconds"`
	PowerFraction []float64 `json:"power_fraction"`
	Scale         string    `json:"scale"`
	Value         float64   `json:"value"`
}

// Results maps a result's key to its value: a float64, bool, string, []float64, or nil for
// an undefined one.
type Results map[string]any

// rows maps the function column of the table to the computation.
var rows = map[string]func(inputs) (Results, error){
	"snellen":                 snellen,
	"snellen_letters":         snellenLetters,
	"etdrs_letters":           letterScore,
	"va_mean":                 meanAcuity,
	"va_median_rank":          medianAcuity,
	"low_vision_substitution": substitution,
	"clock_arc":               clockArc,
	"clock_angle":             clockAngle,
	"clock_side":              clockSide,
	"screen_position":         screenPosition,
	"arc_length":              arcLength,
	"rhexis_overlap":          rimOverlap,
	"ellipse_area":            ellipse,
	"effective_phaco_time":    phacoTime,
	"locs3_valid":             gradeValid,
	"locs3_range":             gradeRange,
	"locs3_tolerance":         gradeTolerance,
	"emery_little_range":      hardnessRange,
}

// Functions lists the function names Compute knows, sorted.
func Functions() []string {
	names := make([]string, 0, len(rows))
	for name := range rows {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// Compute computes one row from its function name and the JSON of its inputs. It is false
// for a function that doesn't belong to measures.
func Compute(function string, inputJSON []byte) (Results, bool, error) {
	f, ok := rows[function]
	if !ok {
		return nil, false, nil
	}
	var in inputs
	if err := json.Unmarshal(inputJSON, &in); err != nil {
		return nil, true, fmt.Errorf("%s: %w", function, err)
	}
	out, err := f(in)
	return out, true, err
}
