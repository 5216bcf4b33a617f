package privacy

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Mask hides a text that may identify somebody: its first letter stays, with
// an honorific before it; all else that is a letter or a digit becomes a dot,
// at most eight of them.
func Mask(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	head := ""
	if first, rest, ok := strings.Cut(text, " "); ok && builtin().roles(strings.TrimSuffix(first, "."))&(rHonorific|rTitle) != 0 {
		head, text = first+" ", rest
	}
	r, size := utf8.DecodeRuneInString(text)
	if !unicode.IsLetter(r) {
		size = 0
	}
	hidden := 0
	for _, r := range text[size:] {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			hidden++
		}
	}
	return head + text[:size] + strings.Repeat("•", min(hidden, 8))
}

// Message says in one line what was found in raw and what to do, with the text
// masked, or in full where reveal is set. The place (file, line, column) is
// the caller's to put before it.
func (f Finding) Message(raw string, reveal bool) string {
	info, _ := infoOf(f.Class)
	found := ""
	if f.Start >= 0 && f.End <= len(raw) && f.Start < f.End {
		found = raw[f.Start:f.End]
	}
	if reveal {
		found = strings.Join(strings.Fields(found), " ")
	} else {
		found = Mask(found)
	}
	return fmt.Sprintf("%s (%s, rule %s): looks like %s. %s", found, f.Class, f.Rule, info.noun, info.advice)
}

// Advice is the sentence that tells an author what to do about a class.
func (c Class) Advice() string {
	info, _ := infoOf(c)
	return info.advice
}

// Noun names what a class holds, for reports: "a person's name".
func (c Class) Noun() string {
	info, _ := infoOf(c)
	return info.noun
}
