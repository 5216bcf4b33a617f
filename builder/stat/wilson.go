package stat

import "math"

// Wilson is the score interval, without continuity correction, for x events in
// n operations:
//
//	centre = (p + z²/2n) / (1 + z²/n)
//	half   = z/(1 + z²/n) · √(p(1-p)/n + z²/4n²),  p = x/n
//
// Domain 0 <= x <= n, n >= 1; otherwise (an empty denominator too) all NaN.
// The lower limit is exactly 0 when x = 0 and the upper exactly 1 when x = n:
// the formula says so and rounding would not.
//
// Wilson EB. J Am Stat Assoc 1927;22:209-212 (from memory); Newcombe RG. Stat
// Med 1998;17:857-872, method 3.
func Wilson(x, n int, level float64) Estimate {
	z := normalQuantile(level)
	if !validCount(x, n) || math.IsNaN(z) {
		return undefined
	}
	size, p := float64(n), float64(x)/float64(n)
	shrink := 1 + z*z/size
	centre := (p + z*z/(2*size)) / shrink
	half := z / shrink * math.Sqrt(p*(1-p)/size+z*z/(4*size*size))
	return ended(x, n, Estimate{p, centre - half, centre + half})
}

// WilsonCorrected is the score interval with continuity correction, wider than
// [Wilson]; a table that prints one must not be compared with the other.
//
//	low  = (2np + z² - 1 - z√(z² - 2 - 1/n + 4p(n(1-p) + 1))) / 2(n + z²)
//	high = (2np + z² + 1 + z√(z² + 2 - 1/n + 4p(n(1-p) - 1))) / 2(n + z²)
//
// Domain and ends as for [Wilson]. Newcombe RG. Stat Med 1998;17:857-872,
// method 4 (from memory).
func WilsonCorrected(x, n int, level float64) Estimate {
	z := normalQuantile(level)
	if !validCount(x, n) || math.IsNaN(z) {
		return undefined
	}
	size, p := float64(n), float64(x)/float64(n)
	scale := 2 * (size + z*z)
	middle := 2*size*p + z*z
	low := (middle - 1 - z*math.Sqrt(z*z-2-1/size+4*p*(size*(1-p)+1))) / scale
	high := (middle + 1 + z*math.Sqrt(z*z+2-1/size+4*p*(size*(1-p)-1))) / scale
	return ended(x, n, Estimate{p, math.Max(0, low), math.Min(1, high)})
}

// ended sets the limit at an end of the scale exactly: no events leave a lower
// limit of 0, all events an upper limit of 1.
func ended(x, n int, e Estimate) Estimate {
	if x == 0 {
		e.Low = 0
	}
	if x == n {
		e.High = 1
	}
	return e
}
