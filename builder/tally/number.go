package tally

import (
	"encoding/json"
	"math"
	"strconv"
)

// Number is a float64 that is null in JSON where it is undefined or infinite,
// and empty in a table.
type Number float64

// undefined is the Number of nothing.
var undefined = Number(math.NaN())

// Defined says whether there is a number to print.
func (n Number) Defined() bool { return !math.IsNaN(float64(n)) && !math.IsInf(float64(n), 0) }

// MarshalJSON writes the shortest text that reads back as the same number.
func (n Number) MarshalJSON() ([]byte, error) {
	if !n.Defined() {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n))
}

// Text is the number unrounded, empty where undefined.
func (n Number) Text() string {
	if !n.Defined() {
		return ""
	}
	return strconv.FormatFloat(float64(n), 'g', -1, 64)
}

// Word is a text that is null in JSON where there is none.
type Word string

// MarshalJSON writes null for the empty word.
func (w Word) MarshalJSON() ([]byte, error) {
	if w == "" {
		return []byte("null"), nil
	}
	return json.Marshal(string(w))
}

// Hiding is why a count is not shown; empty when it is.
type Hiding uint8

const (
	// Shown: the count is printed.
	Shown Hiding = iota
	// Small: the count is 1 to threshold-1 and printed as "<5" (for 5).
	Small
	// Withheld: the count is kept back so that a small one cannot be worked out.
	Withheld
)

// Count is a whole number, or the fact that it is hidden. N of a hidden count is
// 0, so that no template can print it by mistake.
type Count struct {
	N      int
	Hidden Hiding
}

// count is a shown Count.
func count(n int) Count { return Count{N: n} }

// MarshalJSON writes the number, or null for a hidden count.
func (c Count) MarshalJSON() ([]byte, error) {
	if c.Hidden != Shown {
		return []byte("null"), nil
	}
	return strconv.AppendInt(nil, int64(c.N), 10), nil
}

// Text is the count as printed under a threshold: a number, "<5" or "withheld".
func (c Count) Text(threshold int) string {
	switch c.Hidden {
	case Small:
		return "<" + strconv.Itoa(threshold)
	case Withheld:
		return "withheld"
	}
	return strconv.Itoa(c.N)
}
