package caption

import (
	_ "embed" // english.txt
	"strings"
	"sync"
)

//go:embed english.txt
var englishText string

// englishWords are words that are no names though plain.txt has no price for
// them.
var englishWords = sync.OnceValue(func() map[string]bool {
	m := make(map[string]bool, 4000)
	for line := range strings.Lines(englishText) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		for _, w := range strings.Fields(line) {
			m[w] = true
		}
	}
	return m
})

var (
	endings = []string{"s", "es", "ed", "d", "ing", "ly", "er", "ers", "or", "ors", "est", "ness", "able", "ment", "ments", "y", "less", "ful", "ish", "al", "ic", "ion", "ions", "ation", "ive", "en", "ens", "ened", "ve", "ll", "t", "nt"}
	// manners are endings that hardly a name has.
	manners  = []string{"tion", "tions", "ness", "ment", "ments", "ence", "ences", "ance", "ances", "ency", "ancy", "ism", "isms", "ist", "ists", "ity", "ities", "ous", "ously", "ical", "ically", "ology", "ising", "izing", "ated", "ating", "ible", "ably", "ibly", "tive", "tives", "graphy", "sion", "sions", "ures", "ified", "ifies"}
	prefixes = []string{"un", "re", "over", "under", "pre", "mis", "non", "dis", "in", "out", "inter", "sub", "super", "micro", "post", "anti", "semi", "hydro"}
)

// english reports whether a word is English: listed, or built from a listed
// word by an ending or a prefix.
func english(w string) bool {
	if inEnglish(w) {
		return true
	}
	for _, p := range prefixes {
		if rest, ok := strings.CutPrefix(w, p); ok && len(rest) >= 4 && (inEnglish(rest) || built(rest)) {
			return true
		}
	}
	for _, e := range manners {
		if len(w) >= len(e)+4 && strings.HasSuffix(w, e) {
			return true
		}
	}
	return built(w)
}

func inEnglish(w string) bool {
	_, plain := surprise(w)
	return plain || englishWords()[w]
}

// built reports whether a listed word with an ending makes w.
func built(w string) bool {
	for _, e := range endings {
		base, ok := strings.CutSuffix(w, e)
		if !ok || len(base) < 3 {
			continue
		}
		n := len(base)
		if inEnglish(base) || inEnglish(base+"e") || base[n-1] == 'i' && inEnglish(base[:n-1]+"y") || base[n-1] == base[n-2] && inEnglish(base[:n-1]) {
			return true
		}
	}
	return false
}
