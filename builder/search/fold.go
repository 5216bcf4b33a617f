package search

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// maxWord bounds an index word, in code points: what is longer is cut.
const maxWord = 32

// marks are the accents, vowel points and ornaments that are folded away: of
// Latin, Greek and Cyrillic, of Hebrew and of Arabic. Other scripts keep their
// marks, which carry meaning there.
var marks = &unicode.RangeTable{R16: []unicode.Range16{
	{Lo: 0x0300, Hi: 0x036f, Stride: 1},
	{Lo: 0x0591, Hi: 0x05bd, Stride: 1}, {Lo: 0x05bf, Hi: 0x05bf, Stride: 1},
	{Lo: 0x05c1, Hi: 0x05c2, Stride: 1}, {Lo: 0x05c4, Hi: 0x05c5, Stride: 1}, {Lo: 0x05c7, Hi: 0x05c7, Stride: 1},
	{Lo: 0x0640, Hi: 0x0640, Stride: 1}, {Lo: 0x064b, Hi: 0x065f, Stride: 1}, {Lo: 0x0670, Hi: 0x0670, Stride: 1},
}}

// variants are letters that stand for one another in a reader's typing and that
// have no decomposition.
var variants = strings.NewReplacer(
	"ß", "ss", "æ", "e", "œ", "e", "ø", "o", "ł", "l", "đ", "d", "ð", "d", "þ", "th", "ı", "i",
	"ς", "σ", "ى", "ي", "ی", "ي", "ک", "ك", "ة", "ه", "ٱ", "ا",
	"ך", "כ", "ם", "מ", "ן", "נ", "ף", "פ", "ץ", "צ",
	"ae", "e", "oe", "e", // haemorrhage, oedema
)

// unspaced are the scripts written without spaces between words.
var unspaced = []*unicode.RangeTable{
	unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Thai, unicode.Lao, unicode.Khmer, unicode.Myanmar,
}

const prolonged = 'ー' // the Japanese sign of a long vowel, which Unicode gives to no one script

func isUnspaced(r rune) bool {
	return r >= 0x0e00 && (r == prolonged || unicode.In(r, unspaced...))
}

func isWordRune(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsNumber(r) || unicode.IsMark(r)
}

// Words returns the index words of a text, in order. A run of letters, figures
// and marks is one word, folded; the plural s of a word in basic Latin is taken
// off; a run in a script without spaces becomes every pair of neighbouring
// letters, or its one letter. Single letters and figures are among the words:
// what is indexed of them is for the caller to say.
func Words(text string) []string {
	var words []string
	eachRun(text, func(run string) { words = append(words, foldRun(run)...) })
	return words
}

// eachRun calls yield with every run of word runes of a text.
func eachRun(text string, yield func(run string)) {
	start := -1
	for i, r := range text {
		word := r < utf8.RuneSelf && asciiWord(byte(r)) || r >= utf8.RuneSelf && isWordRune(r)
		switch {
		case word && start < 0:
			start = i
		case !word && start >= 0:
			yield(text[start:i])
			start = -1
		}
	}
	if start >= 0 {
		yield(text[start:])
	}
}

func asciiWord(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9'
}

// foldRun folds one run and cuts it where its script changes between one that
// is written with spaces and one that is not.
func foldRun(run string) []string {
	folded := fold(run)
	if isASCII(folded) {
		if folded == "" {
			return nil
		}
		return []string{stem(cut(folded))}
	}
	var words []string
	for len(folded) > 0 {
		first, _ := utf8.DecodeRuneInString(folded)
		n := strings.IndexFunc(folded, func(r rune) bool { return isUnspaced(r) != isUnspaced(first) })
		if n < 0 {
			n = len(folded)
		}
		if isUnspaced(first) {
			words = append(words, pairs(folded[:n])...)
		} else {
			words = append(words, stem(cut(folded[:n])))
		}
		folded = folded[n:]
	}
	return words
}

// fold takes case, accents and variants out of a run. NFKD first, so that marks
// stand alone and compatibility forms (full width, ligatures) become plain; NFC
// last, so that what keeps its marks is in one form.
func fold(run string) string {
	if isASCII(run) {
		return variants.Replace(strings.ToLower(run))
	}
	var b strings.Builder
	for _, r := range strings.ToLower(norm.NFKD.String(run)) {
		if !unicode.Is(marks, r) && isWordRune(r) {
			b.WriteRune(r)
		}
	}
	return variants.Replace(norm.NFC.String(b.String()))
}

// stem takes the plural s off a word of basic Latin with at least four letters,
// unless it ends in ss, us or is (after the S-stemmer of Harman 1991, without
// its rule for ies).
func stem(word string) string {
	n := len(word)
	if n < 4 || word[n-1] != 's' || !isASCII(word) {
		return word
	}
	switch word[n-2] {
	case 's', 'u', 'i':
		return word
	}
	return word[:n-1]
}

func pairs(run string) []string {
	letters := []rune(run)
	if len(letters) == 1 {
		return []string{run}
	}
	var words []string
	for i := range len(letters) - 1 {
		words = append(words, string(letters[i:i+2]))
	}
	return words
}

func cut(word string) string {
	if len(word) <= maxWord || utf8.RuneCountInString(word) <= maxWord {
		return word
	}
	return string([]rune(word)[:maxWord])
}

func isASCII(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// isNumber reports words that hold no letter: a reader does not look for 12.
func isNumber(word string) bool {
	return strings.IndexFunc(word, func(r rune) bool { return !unicode.IsNumber(r) }) < 0
}
