package caption

import (
	"slices"
	"strings"
)

// inflected reports whether a stretch is the name itself in another form of
// grammar, a part of it, or has the whole name in it: nothing misheard.
func inflected(stretch []string, name string) bool {
	heard := strings.Join(stretch, " ")
	if strings.Contains(" "+heard+" ", " "+name+" ") || strings.Contains(" "+name+" ", " "+heard+" ") || rooted(stretch) == rooted(strings.Fields(name)) {
		return true
	}
	a, b := heard, name
	if len(a) > len(b) {
		a, b = b, a
	}
	return len(stretch) == strings.Count(name, " ")+1 && len(a) >= 4 && len(b)-len(a) <= 3 && strings.HasPrefix(b, a[:len(a)-1]) && grammatical(a, b)
}

// conjugated reports whether a stretch is a right name of a term in another form
// with small words after it: "never hydrodissect in a", where only the sound of
// "hydrodissect in" is that of hydrodissection.
func (l *lexicon) conjugated(stretch []string, t int) bool {
	for i := range stretch {
		run := ""
		for k, w := range stretch[i:min(len(stretch), i+3)] {
			run += w
			content := slices.ContainsFunc(stretch[i+k+1:], func(w string) bool { n, _ := surprise(w); return n > 4 })
			if len(run) > 5 && !content && slices.ContainsFunc(l.single[t], func(name string) bool { return grammatical(run, name) }) {
				return true
			}
		}
	}
	return false
}

// rooted joins the roots of the words that carry meaning.
func rooted(words []string) string {
	var out []string
	for _, w := range words {
		if n, _ := surprise(w); n >= 4 {
			r := root(w)
			if k := len(r); k > 3 && r[k-1] == r[k-2] {
				r = r[:k-1] // prepped
			}
			out = append(out, strings.TrimSuffix(r, "e"))
		}
	}
	return strings.Join(out, " ")
}

// holds reports whether a right name of the term stands within the stretch:
// then it was heard well.
func (l *lexicon) holds(stretch []string, t int) bool {
	for i := range stretch {
		for k := i + 1; k <= len(stretch) && k-i < len(stretch); k++ {
			if len(stretch[i]) > 2 && slices.Contains(l.exact[stems(stretch[i:k])], t) {
				return true
			}
		}
	}
	return false
}

// grammatical reports whether a and b differ by an ordinary ending.
func grammatical(a, b string) bool {
	for _, pair := range [][2]string{{"", "s"}, {"", "es"}, {"", "ed"}, {"", "d"}, {"", "ing"}, {"e", "ing"}, {"e", "ed"}, {"", "al"}, {"is", "es"}, {"y", "ies"}, {"ion", "ing"}, {"e", "ion"}, {"", "ion"}, {"a", "al"}} {
		if x, ok := strings.CutSuffix(a, pair[0]); ok && b == x+pair[1] {
			return true
		}
		if x, ok := strings.CutSuffix(b, pair[0]); ok && a == x+pair[1] {
			return true
		}
	}
	return false
}
