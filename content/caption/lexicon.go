package caption

import (
	"slices"
	"strings"

	"caseleaf/content/term"
)

// How a form is known to stand for its term.
const (
	named   = iota // a right name
	listed         // a mishearing of the vocabulary
	derived        // a right name with a word misheard as another entry shows
)

// maxStretch is the greatest number of heard words compared with one name.
const maxStretch = 5

// form is one way a term may have been said or heard.
type form struct {
	term    int // place in lexicon.terms
	source  int
	text    string // words joined by spaces
	words   []string
	sound   phones
	weight  float64
	outline outline
	first   int8 // groups of the first and last consonants
	last    int8
	plain   bool // made of ordinary words only
}

// lexicon is a vocabulary made ready for listening.
type lexicon struct {
	v       *term.Vocabulary
	terms   []term.Term
	place   map[string]int   // term id to place in terms
	forms   []form           //
	bySize  map[int][]int    // forms by number of consonants
	exact   map[string][]int // stems of a right name to terms
	heard   map[string][]int // words of a listed or derived form to forms
	trade   map[string]bool  // words that occur in names
	longest int              // words in the longest right name
	heads   map[string]bool  // last words of complications: tear, loss, prolapse
	pairs   map[string]bool  // words next to each other in names
}

// maxForms bounds the derived forms of one name.
const maxForms = 12

func newLexicon(v *term.Vocabulary) *lexicon { return lexiconFrom(v, v.All()) }

// lexiconFrom makes terms ready, in place of those v holds under the same ids.
func lexiconFrom(v *term.Vocabulary, terms []term.Term) *lexicon {
	l := &lexicon{
		v: v, terms: terms, place: make(map[string]int), bySize: make(map[int][]int),
		exact: make(map[string][]int), heard: make(map[string][]int), trade: make(map[string]bool),
		heads: make(map[string]bool), pairs: make(map[string]bool),
	}
	for i, t := range l.terms {
		l.place[t.ID] = i
	}
	confusions := l.confusions()
	for i, t := range l.terms {
		for _, n := range names(t) {
			l.addName(i, n)
			for _, variant := range confuse(n, confusions) {
				l.addForm(i, derived, variant)
			}
		}
		for _, m := range t.Mishearings {
			words := texts(splitWords(m))
			l.addForm(i, listed, words)
			if len(words) >= 5 && !l.begins(t, words[:3]) { // a long phrase is known by its beginning
				l.addForm(i, derived, words[:3])
			}
		}
	}
	return l
}

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
	l.longest = max(l.longest, len(words))
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

func (l *lexicon) addForm(i, source int, words []string) {
	f := form{term: i, source: source, text: strings.Join(words, " "), sound: sounds(words), plain: ordinary(words)}
	f.weight = f.sound.weight()
	var n int
	f.outline, n = f.sound.outline()
	f.first, f.last = f.sound.ends()
	f.words = words
	if source == named && (len(words) == 1 && f.plain || len(strings.Join(words, "")) < 4) || f.text == "" {
		return // "block", "pause", "rd": too easily something else
	}
	at := len(l.forms)
	l.forms = append(l.forms, f)
	if source != named {
		l.heard[f.text] = append(l.heard[f.text], at)
	}
	if len(f.sound) >= 3 && len(f.sound) < 48 {
		l.bySize[n] = append(l.bySize[n], at)
	}
}

// ordinary reports whether every word is in the list of plain words.
func ordinary(words []string) bool {
	for _, w := range words {
		if _, known := surprise(w); !known || len(w) == 1 && w != "a" && w != "i" {
			return false
		}
	}
	return true
}

// confusion is a piece of a name and what was heard in its place.
type confusion struct{ right, wrong []string }

// confusions learns from the listed mishearings which pieces of names are
// misheard as what: "rexis forceps" beside "rhexis forceps" shows that rhexis
// may come out as rexis anywhere.
func (l *lexicon) confusions() []confusion {
	var out []confusion
	seen := make(map[string]bool)
	for _, t := range l.terms {
		all := names(t)
		for _, m := range t.Mishearings {
			wrong := texts(splitWords(m))
			for _, right := range all {
				c := differing(right, wrong)
				key := strings.Join(c.right, " ") + "|" + strings.Join(c.wrong, " ")
				if !seen[key] && plausible(c) {
					seen[key] = true
					out = append(out, c)
				}
			}
		}
	}
	return out
}

// differing drops the words that two phrases begin and end with in common.
func differing(right, wrong []string) confusion {
	for len(right) > 0 && len(wrong) > 0 && right[0] == wrong[0] {
		right, wrong = right[1:], wrong[1:]
	}
	for len(right) > 0 && len(wrong) > 0 && right[len(right)-1] == wrong[len(wrong)-1] {
		right, wrong = right[:len(right)-1], wrong[:len(wrong)-1]
	}
	return confusion{right, wrong}
}

// plausible reports whether the pieces sound alike enough to be confused in
// other phrases too.
func plausible(c confusion) bool {
	if len(c.right) == 0 || len(c.right) > 2 || len(c.wrong) == 0 || len(c.wrong) > 3 {
		return false
	}
	a, b := sounds(c.right), sounds(c.wrong)
	w := max(a.weight(), b.weight())
	return len(strings.Join(c.right, "")) >= 3 && len(strings.Join(c.wrong, "")) >= 4 && unlike(a, b, w) < 0.45*w
}

// joined reports whether words hold a function word: "convert to" is a phrase
// around a term, not part of it.
func joined(words []string) bool {
	for _, w := range words {
		if n, _ := surprise(w); n <= 3 {
			return true
		}
	}
	return false
}

// confuse returns the forms of a name of several words in which one piece is
// replaced by what it has been misheard as.
func confuse(name []string, confusions []confusion) [][]string {
	if len(name) < 2 || len(name) > maxStretch {
		return nil
	}
	var out [][]string
	for _, c := range confusions {
		if len(c.right) >= len(name) {
			continue
		}
		for i := 0; i+len(c.right) <= len(name) && len(out) < maxForms; i++ {
			if slices.Equal(name[i:i+len(c.right)], c.right) && !joined(name[:i]) && !joined(name[i+len(c.right):]) {
				out = append(out, slices.Concat(name[:i], c.wrong, name[i+len(c.right):]))
			}
		}
	}
	return out
}
