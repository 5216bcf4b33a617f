package caption

import (
	"slices"
	"strings"

	"caseleaf/content/term"
)

// begins reports whether a right name of t begins with these words.
func (l *lexicon) begins(t term.Term, words []string) bool {
	return slices.ContainsFunc(names(t), func(n []string) bool {
		return len(n) >= len(words) && slices.Equal(n[:len(words)], words)
	})
}

// names returns the right names of a term as words: id, label, synonyms, and
// the abbreviation both as a word and letter by letter.
func names(t term.Term) [][]string {
	out := [][]string{texts(splitWords(t.Label))}
	add := func(name string) {
		w := texts(splitWords(name))
		if len(w) > 0 && !slices.ContainsFunc(out, func(o []string) bool { return slices.Equal(o, w) }) {
			out = append(out, w)
		}
	}
	add(t.ID)
	for _, s := range t.Synonyms {
		add(s)
	}
	for _, s := range append([]string{t.Abbreviation}, t.Synonyms...) {
		if len(s) >= 3 && len(s) <= 5 && strings.ToUpper(s) == s && !strings.Contains(s, " ") {
			add(s)
			add(strings.Join(strings.Split(strings.ReplaceAll(s, "/", ""), ""), " "))
		}
	}
	if len(t.Abbreviation) >= 4 && strings.ToUpper(t.Abbreviation) != t.Abbreviation {
		add(t.Abbreviation)
	}
	return out
}

func (l *lexicon) addName(i int, words []string) {
	key := stems(words)
	if !slices.Contains(l.exact[key], i) {
		l.exact[key] = append(l.exact[key], i)
	}
	if short := slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == "and" || w == "of" || w == "the" }); len(short) > 1 && len(short) < len(words) {
		l.parts[stems(short)] = []int{i} // "irrigation aspiration"
	}
	l.longest = max(l.longest, len(words))
	if one := strings.Join(words, ""); len(words) < 3 && len(one) > 6 {
		l.single[i] = append(l.single[i], one)
	}
	if len(words) > 1 {
		for k := 1; k < len(words); k++ {
			l.pairs[stem(words[k-1])+" "+stem(words[k])] = true
		}
		if last := words[len(words)-1]; l.terms[i].Kind == term.Complication && len(last) > 3 {
			l.heads[stem(last)] = true
		}
	}
	for _, w := range words {
		if n, known := surprise(w); len(w) > 2 && (!known || n >= 5) {
			l.trade[stem(w)] = true
			if r := root(stem(w)); len(r) > 3 {
				l.trade[r] = true
			}
		}
	}
	if k := l.terms[i].Kind; len(words) == 2 && (k == term.Sign || k == term.RiskFactor) {
		turned := stems([]string{words[1], "is", words[0]}) // "the pupil is peaked"
		l.exact[turned] = append(l.exact[turned], i)
		l.longest = max(l.longest, 3)
	}
	if spoken := sayDigits(words); spoken != nil {
		l.addName(i, spoken)
	}
	l.addForm(i, named, words)
}

// sayDigits turns "10 0 nylon" into "ten oh nylon"; nil without digits.
func sayDigits(words []string) []string {
	said := map[string]string{"0": "oh", "1": "one", "2": "two", "3": "three", "4": "four", "5": "five", "6": "six", "7": "seven", "8": "eight", "9": "nine", "10": "ten", "15": "fifteen", "27": "twenty seven"}
	var out []string
	changed := false
	for _, w := range words {
		if s, ok := said[w]; ok {
			out, changed = append(out, strings.Fields(s)...), true
			continue
		}
		out = append(out, w)
	}
	if !changed {
		return nil
	}
	return out
}
