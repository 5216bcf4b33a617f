package front

import (
	"bytes"
	"slices"
	"strings"
)

// hidden lists characters that yaml.v3 takes for line ends (which would shift
// every line after them) or refuses without a place, though to an author they
// are text.
var hidden = []rune{0x85, 0x2028, 0x2029, 0xfeff}

// standIn puts characters that occur nowhere in a text in the place of hidden
// ones while the library reads it. Each takes one column, as the original does.
type standIn map[rune]rune

func hasHidden(text []byte) bool {
	return slices.ContainsFunc(hidden, func(r rune) bool { return bytes.ContainsRune(text, r) })
}

// standInFor chooses the stand-ins a text needs; mostly none.
func standInFor(text []byte) standIn {
	stand := standIn{}
	free := rune(0xe000) // the private use area
	for _, r := range hidden {
		if !bytes.ContainsRune(text, r) {
			continue
		}
		for bytes.ContainsRune(text, free) {
			free++
		}
		stand[r] = free
		free++
	}
	return stand
}

func (s standIn) hide(text []byte) []byte {
	if len(s) == 0 {
		return text
	}
	return bytes.Map(func(r rune) rune {
		if other, ok := s[r]; ok {
			return other
		}
		return r
	}, text)
}

func (s standIn) show(text string) string {
	if len(s) == 0 {
		return text
	}
	back := make(map[rune]rune, len(s))
	for r, other := range s {
		back[other] = r
	}
	return strings.Map(func(r rune) rune {
		if other, ok := back[r]; ok {
			return other
		}
		return r
	}, text)
}
