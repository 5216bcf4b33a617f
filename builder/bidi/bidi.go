// Package bidi keeps what is written from left to right in order on a page that is written
// from right to left.
//
// The Unicode bidirectional algorithm (UAX #9) orders a line by its characters. Inside Arabic
// it puts the unit of "2.4 mm" before the number, the sign of "−0.10" behind it, and turns
// "11–2" o'clock into "2–11": each of them a different statement. So a quantity, a range or a
// signed number is an island: always shown from left to right, in the order in which it was
// written, which is also how it stands on the machine, on the label and in the figures. Text
// without a letter of the page's own script is an island too, so that its full stop stays at
// its end.
//
// [Page] marks islands in HTML with bdi elements, [Text] in plain text with the isolates of
// Unicode, and [Line] does that for one line of a figure, whose own base is left to right.
package bidi

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

const (
	leftToRight = "\u2066"
	rightToLeft = "\u2067"
	popIsolate  = "\u2069"
)

// island finds what begins with a number, or with its sign, and goes on in digits, units and
// Latin letters, across the marks of ranges, products and ratios. In HTML some signs are
// written as entities.
var island = func() *regexp.Regexp {
	const (
		gap  = "[ \u00a0\u202f]"
		sign = `(?:(?:[+\-−±≤≥<>≈~]|&lt;|&gt;|&#43;)` + gap + `?)?`
		word = `[0-9A-Za-zµμ%°²³]+`
		join = `(?:[.,:/]|` + gap + `?[–\-−×÷=/]` + gap + `?|` + gap + `:` + gap + `|` + gap + `)`
	)
	return regexp.MustCompile(sign + `\d[0-9A-Za-zµμ%°²³]*(?:` + join + sign + word + `)*`)
}()

// plain is a number that every line keeps in order by itself: digits with single separators
// between them (rules W4 and N1 of UAX #9).
var plain = regexp.MustCompile(`^\d+(?:[.,:/]\d+)*$`)

// isRight reports letters of scripts that are written from right to left, and the marks that
// the algorithm orders as it does those (class AL).
func isRight(r rune) bool {
	return r == '؛' || r == '؟' || r >= 0x590 && unicode.In(r, unicode.Arabic, unicode.Hebrew, unicode.Syriac, unicode.Thaana, unicode.Nko) && unicode.IsLetter(r)
}

// HasRight reports whether a text holds a letter of a script written from right to left.
func HasRight(s string) bool { return strings.IndexFunc(s, isRight) >= 0 }

func hasLeft(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return unicode.IsLetter(r) && !isRight(r) }) >= 0
}

// islands calls with the start and the end of every island of a text.
func islands(s string, found func(from, to int)) {
	for _, at := range island.FindAllStringIndex(s, -1) {
		before, _ := utf8.DecodeLastRuneInString(s[:at[0]])
		switch {
		case plain.MatchString(s[at[0]:at[1]]):
		case unicode.IsLetter(before) && !isRight(before), unicode.IsDigit(before), strings.ContainsRune("-_./#&", before) && at[0] > 0:
			// The end of a name, such as the -007 of HB-007, is no number.
		default:
			found(at[0], at[1])
		}
	}
}

// mark puts open and shut around the islands of a text.
func mark(s, open, shut string) string {
	var b strings.Builder
	done := 0
	islands(s, func(from, to int) {
		b.WriteString(s[done:from] + open + s[from:to] + shut)
		done = to
	})
	if done == 0 {
		return s
	}
	return b.String() + s[done:]
}

// Text isolates the islands of a plain text that is shown from right to left, with characters
// that have no width. A text without a letter from right to left is one island.
func Text(s string) string {
	if from, to := whole(s); !HasRight(s[from:to]) && hasLeft(s) {
		return s[:from] + leftToRight + s[from:to] + popIsolate + s[to:]
	}
	return mark(s, leftToRight, popIsolate)
}

// whole gives the part of a text that is an island as a whole: all but the blanks, and but the
// marks of a list on the page that it stands in.
func whole(s string) (from, to int) {
	head := strings.TrimLeft(s, " \t\r\n\u00a0،؛؟,;:·–")
	return len(s) - len(head), len(s) - len(head) + len(strings.TrimRight(head, " \t\r\n\u00a0،؛؟,;:·–"))
}

// Line is a line of text in a drawing, which is laid out from left to right: words from right
// to left become one isolate, with their own islands. Other texts stay as they are.
func Line(s string) string {
	if !HasRight(s) {
		return s
	}
	return rightToLeft + mark(s, leftToRight, popIsolate) + popIsolate
}
