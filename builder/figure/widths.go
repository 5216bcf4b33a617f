package figure

import "unicode"

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

// otherWidth serves characters outside the table: Greek and Cyrillic capitals stay below it,
// East Asian ideographs fill it, emoji may pass it a little.
const otherWidth = 1150

// emWidths is the table by character, and lowWidths the same for the first characters, which
// are nearly all there are: 0 where the table has none.
var emWidths, lowWidths = func() (map[rune]Px, [0x180]Px) {
	m, low := map[rune]Px{}, [0x180]Px{}
	for w, chars := range widthTable {
		for _, r := range chars {
			m[r] = Px(w) / 1000
			if r < 0x180 {
				low[r] = Px(w) / 1000
			}
		}
	}
	return m, low
}()

// textWidth gives a width that the text will not pass at the given size.
func textWidth(s string, size Px) Px {
	var w Px
	for _, r := range s {
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
