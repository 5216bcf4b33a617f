package figure

import (
	"maps"
	"unicode"
	"unicode/utf8"
)

// Text is drawn in whatever sans-serif face the reader has, so its width is not known when
// a figure is laid out. The table holds, for each width in thousandths of the text size,
// the characters that are no wider than that in three common faces of the widest sort
// (DejaVu Sans, Liberation Sans, Nimbus Sans); the system faces of phones and desktops are
// narrower. TestWidthsAreConservative compares it with the faces it finds.
var widthTable = map[int]string{
	200:  "\u2009\u202f",
	240:  "′",
	280:  "'ijlìíîïĩīĭįıĵĺļ",
	300:  "IÌÍÎÏĨĪĬĮİł",
	320:  " ,.\u00a0·‘’",
	340:  "/:;\\|¦",
	360:  "fŀ",
	380:  "-\u00adľ″",
	400:  "()[]tţťŧ",
	420:  "!r¡²³¹ŕŗř₂",
	460:  "\"",
	480:  "ªº",
	500:  "*J`¨°´¸Ĵ",
	520:  "“”",
	540:  "szśŝşšźżž",
	560:  "?L_c§¯çćĉċčĳĹĻĽĿ–†",
	580:  "kķĸŁ",
	600:  "vxyýÿŷ•",
	620:  "FTaeo«»¿àáâãäåèéêëðòóôõöøāăąēĕėęěōŏőŢŤŦ",
	640:  "$0123456789bdghnpqu{}¢£¤¥µ¶ßñùúûüþđĝğġģĥńņňŋũūŭůűų€",
	660:  "ď",
	680:  "EKPSYÈÉÊËÝÞĒĔĖĘĚĶŚŜŞŠŶŸ",
	700:  "ABVXZÀÁÂÃÄÅĀĂĄħŹŻŽ",
	740:  "CRUÇÙÚÛÜĆĈĊČĲŔŖŘŨŪŬŮŰŲ",
	760:  "HNÑĤŃŅŇŊ",
	780:  "&DGÐĎĐĜĞĠĢ△",
	800:  "OQÒÓÔÕÖØŌŎŐ",
	820:  "wŉŵ",
	840:  "#+<=>^~¬±×÷↑↓−≤≥",
	880:  "M○●",
	920:  "Ħ",
	960:  "%■□",
	980:  "m¼½¾",
	1000: "W©®ÆæŴ—…←→∅▲◆◇",
	1020: "@",
	1040: "œ",
	1080: "Œ",
	1360: "‰",
}

// arabicWidths are the letters of Arabic, Persian and Urdu where they end a word or stand
// alone, as [widthTable] holds the others: the widest of their forms in DejaVu Sans.
var arabicWidths = map[int]string{
	320:  "؛آأإا",
	340:  "،٫ـ٬",
	520:  "ءؤو",
	540:  "؟ةدذه٠١٢٣٤٥٦٧٨٩٪ڈ۰۱۲۳۴۵۶۷۸۹",
	560:  "رز٭ڑژ",
	600:  "عغ",
	660:  "جحخچ",
	700:  "مھہ",
	760:  "ل",
	780:  "نں",
	860:  "ئقىيكیے",
	900:  "کگ",
	960:  "طظٹ",
	1000: "بتثپ",
	1040: "ف",
	1240: "صض",
	1280: "سش",
}

// joinedWidths are the letters that another follows: the wider of their first and their
// middle form. They are half as wide as the same letters at the end of a word.
var joinedWidths = map[int]string{
	320: "ئبتثنىيٹپی",
	340: "ل",
	520: "فق",
	540: "غهھہ",
	560: "كکگ",
	580: "م",
	600: "ع",
	660: "جحخچ",
	820: "طظ",
	880: "صض",
	900: "سش",
}

// otherWidth serves characters outside the table: Greek and Cyrillic capitals stay below it,
// East Asian ideographs fill it, emoji may pass it a little.
const otherWidth = 1150

// emWidths is the table by character, and lowWidths the same for the first characters, which
// are nearly all there are: 0 where the table has none.
var emWidths, lowWidths = func() (map[rune]Px, [0x180]Px) {
	m, low := byCharacter(widthTable), [0x180]Px{}
	for r, em := range m {
		if r < 0x180 {
			low[r] = em
		}
	}
	maps.Copy(m, byCharacter(arabicWidths))
	return m, low
}()

// joinedEms is the table of letters that another follows, by character.
var joinedEms = byCharacter(joinedWidths)

// byCharacter turns a table round.
func byCharacter(table map[int]string) map[rune]Px {
	m := map[rune]Px{}
	for w, chars := range table {
		for _, r := range chars {
			m[r] = Px(w) / 1000
		}
	}
	return m
}

// joinedWidth gives the width of an Arabic letter that another follows.
func joinedWidth(r rune) Px {
	if em, ok := joinedEms[r]; ok {
		return em
	}
	return emWidth(r)
}

// isArabic reports the letters that change their form with their neighbours.
func isArabic(r rune) bool { return r >= 0x600 && r < 0x700 }

// joins reports whether what follows a letter is one that it can be joined to.
func joins(rest string) bool {
	for _, r := range rest {
		if !unicode.Is(unicode.Mn, r) {
			return isArabic(r) && unicode.IsLetter(r) && r != 'ء'
		}
	}
	return false
}

// textWidth gives a width that the text will not pass at the given size.
func textWidth(s string, size Px) Px {
	var w Px
	for i, r := range s {
		if isArabic(r) && joins(s[i+utf8.RuneLen(r):]) {
			w += min(joinedWidth(r), emWidth(r))
			continue
		}
		w += emWidth(r)
	}
	return w * size
}

// emWidth gives the width of one character in parts of the text size.
func emWidth(r rune) Px {
	if r < 0x180 && lowWidths[r] > 0 {
		return lowWidths[r]
	}
	em, ok := emWidths[r]
	switch {
	case ok:
		return em
	case unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Cf, r):
		return 0
	}
	return otherWidth / 1000.0
}
