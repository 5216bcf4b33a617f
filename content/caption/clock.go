package caption

import (
	"math"
	"strconv"
)

func itoa(n int) string { return strconv.Itoa(n) }

// clock writes seconds as m:ss or h:mm:ss, the whole second below, as the
// timeline of a case has it.
func clock(seconds float64) string {
	s := int(math.Floor(seconds + 1e-9))
	two := func(n int) string {
		if n < 10 {
			return "0" + itoa(n)
		}
		return itoa(n)
	}
	if s >= 3600 {
		return itoa(s/3600) + ":" + two(s/60%60) + ":" + two(s%60)
	}
	return itoa(s/60) + ":" + two(s%60)
}

// round keeps a number to some decimals, so that output is short and stable.
func round(x float64, decimals int) float64 {
	p := math.Pow(10, float64(decimals))
	return math.Round(x*p) / p
}

// number writes a value without needless zeros.
func number(x float64) string { return strconv.FormatFloat(round(x, 4), 'f', -1, 64) }
