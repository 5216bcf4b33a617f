package privacy

import "unicode"

// foldRune gives the plain form of invisible characters, dashes, quotes,
// spaces and digits of other scripts.
func foldRune(r rune) (string, bool) {
	switch {
	case r == 0xAD, r >= 0x200B && r <= 0x200F, r >= 0x202A && r <= 0x202E, r >= 0x2060 && r <= 0x2064, r >= 0x2066 && r <= 0x2069, r == 0xFEFF:
		return "", true
	case r >= 0x2010 && r <= 0x2015, r == 0x2212, r == 0xFE58, r == 0xFE63, r == 0xFF0D:
		return "-", true
	case r == 0x2018, r == 0x2019, r == 0x201B, r == 0x2032, r == 0xB4, r == 0x2BC, r == 0xFF07:
		return "'", true
	case r == 0x201C, r == 0x201D, r == 0x201E, r == 0x2033, r == 0xAB, r == 0xBB:
		return `"`, true
	case r == 0x2028 || r == 0x2029 || r == 0x85:
		return "\n", true
	case r > 0x7F && unicode.IsSpace(r):
		return " ", true
	case r > 0x7F && unicode.Is(unicode.Nd, r):
		return string(rune('0' + digitValue(r))), true
	}
	return "", false
}

// digitValue is the value of a decimal digit of any script: Unicode lays each
// set out as ten code points in order.
func digitValue(r rune) int {
	for _, t := range unicode.Nd.R16 {
		if r >= rune(t.Lo) && r <= rune(t.Hi) {
			return int(r-rune(t.Lo)) % 10
		}
	}
	for _, t := range unicode.Nd.R32 {
		if r >= rune(t.Lo) && r <= rune(t.Hi) {
			return int(r-rune(t.Lo)) % 10
		}
	}
	return 0
}
