package stat

import (
	"math"
	"slices"
)

// Definition is one of the nine published definitions of a sample quantile, 1
// to 9 in the numbering of Hyndman and Fan.
type Definition int

// Standard is the definition used throughout the handout.
const Standard Definition = 7

// Quantile is the p-quantile of values (any order, untouched) by a definition.
// With n values sorted, definitions 4 to 9 go linearly between neighbours at
// position h:
//
//	4: np   5: np+1/2   6: (n+1)p   7: (n-1)p+1   8: (n+1/3)p+1/3   9: (n+1/4)p+3/8
//
// 1 and 2 invert the distribution function (2 averages at a step), 3 takes the
// nearest even rank. Positions outside 1 to n take the end value. No values, p
// outside [0, 1] or an unknown definition give NaN. The four quarters of the
// same six values differ by definition: always state which.
//
// Hyndman RJ, Fan Y. Am Stat 1996;50:361-365.
func Quantile(values []float64, p float64, definition Definition) float64 {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	return quantileOfSorted(sorted, p, definition)
}

func quantileOfSorted(sorted []float64, p float64, definition Definition) float64 {
	n := float64(len(sorted))
	if n == 0 || !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	var h float64
	switch definition {
	case 1, 2, 3:
		return stepQuantile(sorted, n*p, definition)
	case 4:
		h = n * p
	case 5:
		h = n*p + 0.5
	case 6:
		h = (n + 1) * p
	case 7:
		h = (n-1)*p + 1
	case 8:
		h = (n+1.0/3)*p + 1.0/3
	case 9:
		h = (n+0.25)*p + 0.375
	default:
		return math.NaN()
	}
	// A position that should be whole may come out a last digit short.
	whole := math.Floor(h + 4e-16*n)
	part := math.Max(0, h-whole)
	return at(sorted, whole) + part*(at(sorted, whole+1)-at(sorted, whole))
}

// stepQuantile serves the definitions without interpolation; position is np.
func stepQuantile(sorted []float64, position float64, definition Definition) float64 {
	if definition == 3 {
		return at(sorted, math.RoundToEven(position))
	}
	whole := math.Floor(position + 4e-16*float64(len(sorted)))
	if position-whole > 4e-16*float64(len(sorted)) {
		return at(sorted, whole+1)
	}
	if definition == 2 {
		return (at(sorted, whole) + at(sorted, whole+1)) / 2
	}
	return at(sorted, whole)
}

// at is the value of rank 1 to n, the ends standing for ranks beyond them.
func at(sorted []float64, rank float64) float64 {
	return sorted[int(math.Min(math.Max(rank, 1), float64(len(sorted))))-1]
}

// Summary is a sample in six numbers, all NaN (but N) when it is empty.
type Summary struct {
	N                              int
	Min, Lower, Median, Upper, Max float64
}

// Range is the distance between the quartiles.
func (s Summary) Range() float64 { return s.Upper - s.Lower }

// Summarise gives the median and quartiles of values in any order, by the
// [Standard] definition. The values must have one unit; times in m:ss are turned
// into seconds first. A single value is its own median and quartiles.
func Summarise(values []float64) Summary {
	if len(values) == 0 {
		nan := math.NaN()
		return Summary{0, nan, nan, nan, nan, nan}
	}
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	q := func(p float64) float64 { return quantileOfSorted(sorted, p, Standard) }
	return Summary{len(sorted), sorted[0], q(0.25), q(0.5), q(0.75), sorted[len(sorted)-1]}
}

// Hinges are Tukey's: the medians of the lower and of the upper half, the middle
// value belonging to both. Box plots often use them, and they are not the
// quartiles of [Summarise]. No values give NaN.
//
// Tukey JW. Exploratory Data Analysis, 1977 (from memory).
func Hinges(values []float64) (lower, upper float64) {
	if len(values) == 0 {
		return math.NaN(), math.NaN()
	}
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	half := (len(sorted) + 1) / 2
	return quantileOfSorted(sorted[:half], 0.5, Standard),
		quantileOfSorted(sorted[len(sorted)-half:], 0.5, Standard)
}
