package term

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// spelling makes British and American spellings the same. It works on folded
// text, so it may also touch letters that merely look like an ending; that
// does no harm as long as no two terms become one, which a test watches.
var spelling = strings.NewReplacer(
	"ae", "e", // haemorrhage, anaesthesia
	"oe", "e", // oedema
	"our", "or", // colour
	"isation", "ization",
	"ise", "ize",
	"yse", "yze",
	"sulph", "sulf",
	"ll", "l", // calliper, dialling
	"tre", "ter", // centre, theatre
	"bre", "ber", // fibre
	"grey", "gray",
)

// letters that have no decomposition of their own.
var ligature = strings.NewReplacer("æ", "ae", "œ", "oe", "ø", "o", "ß", "ss", "ł", "l", "đ", "d")

// fold reduces a name to its key: lower-case letters and digits without
// accents, separators or punctuation, in one spelling. "Side-port", "side port"
// and "sideport" share a key, as do "I/A" and "IA", "oedema" and "edema".
func fold(s string) string {
	s = plain(s)
	var b strings.Builder
	b.Grow(len(s))
	for _, r := range s {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			b.WriteRune(r)
		}
	}
	return spelling.Replace(b.String())
}

// plain lower-cases s and takes accents and ligatures away; separators stay.
func plain(s string) string {
	if ascii(s) {
		return strings.ToLower(s)
	}
	s = ligature.Replace(strings.ToLower(s))
	var b strings.Builder
	b.Grow(len(s))
	for _, r := range norm.NFKD.String(s) {
		if !unicode.Is(unicode.Mn, r) {
			b.WriteRune(unicode.ToLower(r))
		}
	}
	return b.String()
}

// words returns the folded words of s, in order.
func words(s string) []string {
	parts := strings.FieldsFunc(plain(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	for i, p := range parts {
		parts[i] = spelling.Replace(p)
	}
	return parts
}

func ascii(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= 0x80 {
			return false
		}
	}
	return true
}

// letterSet marks which of a to z occur in key, and bit 26 for anything else.
func letterSet(key string) uint32 {
	var set uint32
	for _, r := range key {
		if r >= 'a' && r <= 'z' {
			set |= 1 << (r - 'a')
		} else {
			set |= 1 << 26
		}
	}
	return set
}
