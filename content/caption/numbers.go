package caption

import (
	"strconv"
	"strings"
)

var units = map[string]float64{
	"zero": 0, "nought": 0, "oh": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}

var tens = map[string]float64{"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}

var fractions = map[string]float64{"half": 0.5, "quarter": 0.25}

// numberAt reads a number that starts at words[i], spoken ("two point four",
// "six and a half", "one hundred and fifty", "minus point two five") or
// written, and returns where it ends; end is i when there is none.
func numberAt(words []string, i int) (value float64, end int) {
	at, sign := i, 1.0
	if at < len(words) && (words[at] == "minus" || words[at] == "plus") {
		if words[at] == "minus" {
			sign = -1
		}
		at++
	}
	value, next := wholeAt(words, at)
	if next == at && (at >= len(words) || words[at] != "point") {
		return 0, i
	}
	if next+1 < len(words) && words[next] == "point" {
		if digits, last := pointDigits(words, next+1); last > next+1 {
			f, _ := strconv.ParseFloat("0."+digits, 64)
			return sign * (value + f), last
		}
	}
	if next == at {
		return 0, i
	}
	if f, last := halfAfter(words, next); last > next {
		return sign * (value + f), last
	}
	return sign * value, next
}

// wholeAt reads a whole or written number.
func wholeAt(words []string, i int) (float64, int) {
	if i < len(words) && isNumber(words[i]) {
		if f, err := strconv.ParseFloat(strings.ReplaceAll(words[i], ",", "."), 64); err == nil {
			return f, i + 1
		}
	}
	value, at := belowHundred(words, i)
	if at < len(words) && words[at] == "hundred" && (at > i || i < len(words)) {
		if at == i {
			value = 1
		}
		value *= 100
		at++
		rest := at
		if rest < len(words) && words[rest] == "and" {
			rest++
		}
		if more, last := belowHundred(words, rest); last > rest {
			value, at = value+more, last
		}
	}
	return value, at
}

func belowHundred(words []string, i int) (float64, int) {
	if i >= len(words) {
		return 0, i
	}
	if t, ok := tens[words[i]]; ok {
		if i+1 < len(words) {
			if u, ok := units[words[i+1]]; ok && u > 0 && u < 10 {
				return t + u, i + 2
			}
		}
		return t, i + 1
	}
	if u, ok := units[words[i]]; ok {
		return u, i + 1
	}
	return 0, i
}

// pointDigits reads the digits after "point".
func pointDigits(words []string, i int) (string, int) {
	var b strings.Builder
	for i < len(words) {
		u, ok := units[words[i]]
		if !ok || u > 9 {
			if _, ok := tens[words[i]]; ok && b.Len() == 0 { // "point twenty five"
				n, last := belowHundred(words, i)
				return strconv.Itoa(int(n)), last
			}
			break
		}
		b.WriteString(strconv.Itoa(int(u)))
		i++
	}
	return b.String(), i
}

// halfAfter reads "and a half", "and a quarter".
func halfAfter(words []string, i int) (float64, int) {
	if i+2 < len(words) && words[i] == "and" && words[i+1] == "a" {
		if f, ok := fractions[words[i+2]]; ok {
			return f, i + 3
		}
	}
	return 0, i
}

// numberBefore reads the number that ends right before words[end] and returns
// where it starts; from is end when there is none.
func numberBefore(words []string, end int) (value float64, from int) {
	for i := max(0, end-5); i < end; i++ {
		if v, last := numberAt(words, i); last == end {
			return v, i
		}
	}
	return 0, end
}
