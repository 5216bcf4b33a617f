package caption

import (
	_ "embed" // plain.txt
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// word is one word of a cue.
type word struct {
	text       string // lower case, without punctuation
	start, end int    // bytes of the cue's text
	pause      bool   // a comma, stop or other mark of a pause stands before it
}

// splitWords takes text apart at spaces, hyphens, slashes and dashes.
// Apostrophes vanish: "tenon's" is "tenons". A decimal point stays.
func splitWords(text string) []word {
	var words []word
	start := -1
	flush := func(end int) {
		if start < 0 {
			return
		}
		raw := text[start:end]
		cut := strings.TrimRight(raw, ".,")
		w := strings.ToLower(apostrophes.Replace(cut))
		if w != "" {
			from := 0
			if n := len(words); n > 0 {
				from = words[n-1].end
			}
			words = append(words, word{w, start, start + len(cut), strings.ContainsAny(text[from:start], ",.;:?!")})
		}
		start = -1
	}
	for i, r := range text {
		if inWord(text, i, r) {
			if start < 0 {
				start = i
			}
			continue
		}
		flush(i)
	}
	flush(len(text))
	return words
}

var apostrophes = strings.NewReplacer("'", "", "’", "")

func inWord(text string, i int, r rune) bool {
	switch {
	case unicode.IsLetter(r) || unicode.IsDigit(r):
		return true
	case r == '\'' || r == '’':
		return i > 0
	case r == '.' || r == ',': // inside a number only
		next, _ := utf8.DecodeRuneInString(text[i+1:])
		return i > 0 && text[i-1] >= '0' && text[i-1] <= '9' && unicode.IsDigit(next)
	}
	return false
}

// texts returns the words alone.
func texts(words []word) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = w.text
	}
	return out
}

//go:embed plain.txt
var plainText string

// rare is the surprise, in nats, of a word that is in no list.
const rare = 10

// plainWords maps ordinary words to their surprise; see plain.txt.
var plainWords = sync.OnceValue(func() map[string]float64 {
	m := make(map[string]float64, 2500)
	tier := 0.0
	for line := range strings.Lines(plainText) {
		line = strings.TrimSpace(line)
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
		case len(line) == 1:
			tier = float64(line[0] - '0')
		default:
			for _, w := range strings.Fields(line) {
				if _, seen := m[w]; !seen {
					m[w] = tier
				}
			}
		}
	}
	return m
})

// surprise returns how unexpected a word is in ordinary speech, whether or not
// it is a word of the trade. An inflected form counts as its stem.
func surprise(w string) (nats float64, known bool) {
	m := plainWords()
	if n, ok := m[w]; ok {
		return n, true
	}
	for _, suffix := range []string{"s", "es", "ed", "d", "ing", "ly", "er", "ers"} {
		if stem, ok := strings.CutSuffix(w, suffix); ok && len(stem) >= 3 {
			if n, ok := m[stem]; ok {
				return n + 0.5, true
			}
			if n, ok := m[stem+"e"]; ok {
				return n + 0.5, true
			}
		}
	}
	if isNumber(w) {
		return 4, true
	}
	return rare, false
}

func isNumber(w string) bool { return w != "" && w[0] >= '0' && w[0] <= '9' }

// stem makes a plural single and one spelling of British and American, so that
// names are found in either.
func stem(w string) string {
	if len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "is") && !strings.HasSuffix(w, "us") {
		w = w[:len(w)-1]
	}
	if strings.Contains(w, "ae") || strings.Contains(w, "oe") || strings.Contains(w, "sulph") || strings.Contains(w, "re") || strings.Contains(w, "ll") || w == "disk" {
		return britishAmerican.Replace(w)
	}
	return w
}

var britishAmerican = strings.NewReplacer("ae", "e", "oe", "e", "sulph", "sulf", "fibre", "fiber", "calliper", "caliper", "centre", "center", "dialling", "dialing", "disk", "disc")

func stems(words []string) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = stem(w)
	}
	return strings.Join(out, " ")
}
