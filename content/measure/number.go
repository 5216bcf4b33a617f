package measure

import (
	"math"
	"strconv"
	"strings"
)

// maxDigits keeps a number within what a float64 holds exactly and what a person means.
const maxDigits = 12

// tidy trims and unifies what editors and phones change unseen: unusual spaces, the true
// minus sign, the two code points of the micro sign.
func tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		switch r {
		case '\u00a0', '\u202f', '\u2009', '\u2007', '\t':
			return ' '
		case '\u2212':
			return '-'
		case '\u03bc':
			return 'µ'
		case '\u2044', '\u2215':
			return '/'
		}
		return r
	}, s)
	return strings.TrimSpace(s)
}

// split parts a leading number from the unit that follows it: "2.4 mm" gives "2.4", "mm".
// The number part is empty when the text doesn't begin with one.
func split(s string) (number, unit string) {
	i := 0
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	start := i
	for i < len(s) && (s[i] >= '0' && s[i] <= '9' || s[i] == '.') {
		i++
	}
	if i == start {
		return "", s
	}
	return s[:i], strings.TrimSpace(s[i:])
}

// number reads [sign]digits[.digits] and scales it by a power of ten. Scaling in the text
// keeps 350 µm at exactly the float64 nearest to 0.35 mm.
func number(s string, exp10 int) (float64, bool) {
	digits, dots := 0, 0
	for i, r := range s {
		switch {
		case r >= '0' && r <= '9':
			digits++
		case r == '.':
			dots++
		case (r == '+' || r == '-') && i == 0:
		default:
			return 0, false
		}
	}
	if digits == 0 || digits > maxDigits || dots > 1 || strings.HasSuffix(s, ".") {
		return 0, false
	}
	bare := strings.TrimLeft(s, "+-")
	if strings.HasPrefix(bare, ".") {
		return 0, false
	}
	v, err := strconv.ParseFloat(s+"e"+strconv.Itoa(exp10), 64)
	if err != nil || math.IsInf(v, 0) || digitsOf(format(v)) > maxDigits {
		return 0, false // also what only its unit makes too long to be written back
	}
	if v == 0 {
		v = 0 // no negative zero
	}
	return v, true
}

// digitsOf counts the digits of a number as written.
func digitsOf(s string) int {
	return len(s) - strings.Count(s, "-") - strings.Count(s, ".")
}

// integer reads a run of at most maxDigits digits.
func integer(s string) (int, bool) {
	if s == "" || len(s) > maxDigits {
		return 0, false
	}
	for _, r := range s {
		if r < '0' || r > '9' {
			return 0, false
		}
	}
	n, err := strconv.Atoi(s)
	return n, err == nil
}

// decimalComma reports a number written with a comma, and its writing with a point.
func decimalComma(s string) (string, bool) {
	i := strings.IndexByte(s, ',')
	if i <= 0 || i+1 >= len(s) || strings.Count(s, ",") > 1 {
		return "", false
	}
	if s[i-1] < '0' || s[i-1] > '9' || s[i+1] < '0' || s[i+1] > '9' {
		return "", false
	}
	return s[:i] + "." + s[i+1:], true
}

// format writes a value in its shortest exact form, never with an exponent.
func format(v float64) string {
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// signed writes a value with an explicit sign, zero without one.
func signed(v float64) string {
	if v > 0 {
		return "+" + format(v)
	}
	return format(v)
}
