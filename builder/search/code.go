package search

import (
	"unicode/utf16"
	"unicode/utf8"
)

// Numbers are written by a dense code of stoppers and continuers (after
// Brisaboa and others: (S,C)-dense coding, 2003): the last symbol of a number
// is one of the stoppers, those before it are of the others. A number below the
// count of stoppers is one symbol long.
//
// The symbols are small consonants without r and s, and signs, so that no run of
// them spells a name or one of the words that stand before names (mr, ms, dr),
// and none holds a figure, an @, a full stop, a slash, a colon or a blank, without
// which there is no number, date or address. A test lets the privacy check read
// two million of them.
const (
	symbols   = "bcdfghjklmnpqtvwxz!#$%&()*+,;<=>?[]^_{|}~-"
	stoppers  = 32
	continues = len(symbols) - stoppers
)

// appendNumber writes one number, which is not negative.
func appendNumber(out []byte, n int) []byte {
	last := symbols[n%stoppers]
	if n /= stoppers; n > 0 {
		var lead [16]byte
		k := len(lead)
		for ; n > 0; n = (n - 1) / continues {
			k--
			lead[k] = symbols[stoppers+(n-1)%continues]
		}
		out = append(out, lead[k:]...)
	}
	return append(out, last)
}

// appendList writes a list of postings: of each document the gap from the one
// before and its level, as one number.
func appendList(out []byte, list []posting, level func(posting) int) []byte {
	before := int32(-1)
	for _, p := range list {
		out = appendNumber(out, int(p.doc-before-1)*levels+level(p))
		before = p.doc
	}
	return out
}

// signs are the symbols that are no letter. In the list of words they say how
// much of a word is that of the one before, and so end the one before.
const signs = "!#$%&()*+,;<=>?[]^_{|}~-"

// appendWords writes sorted words, each as what it does not share with the one
// before. Lengths are in UTF-16 units, which is what scripts count in.
func appendWords(out []byte, words []string) []byte {
	before := ""
	for _, w := range words {
		units, size := shared(before, w, len(signs)-1)
		out = append(out, signs[units])
		out = append(out, w[size:]...)
		before = w
	}
	return out
}

// shared is how long the common beginning of two words is, in UTF-16 units and
// in bytes: whole code points only, and at most limit units.
func shared(a, b string, limit int) (units, size int) {
	for i, r := range b {
		n := utf16.RuneLen(r)
		end := i + utf8.RuneLen(r)
		if units+n > limit || end > len(a) || a[i:end] != b[i:end] {
			break
		}
		units, size = units+n, end
	}
	return units, size
}

// compareUnits orders words as scripts compare strings, by UTF-16 units: letters
// beyond the basic plane stand before those at its end.
func compareUnits(a, b string) int {
	_, n := shared(a, b, len(a)+len(b))
	x, _ := utf8.DecodeRuneInString(a[n:])
	y, _ := utf8.DecodeRuneInString(b[n:])
	switch {
	case n == len(a) || n == len(b):
		return len(a) - len(b)
	case (x > 0xffff) != (y > 0xffff):
		x, y = unit(x), unit(y)
	}
	return int(x) - int(y)
}

// unit is the first UTF-16 unit of a code point.
func unit(r rune) rune {
	if high, _ := utf16.EncodeRune(r); r > 0xffff {
		return high
	}
	return r
}
