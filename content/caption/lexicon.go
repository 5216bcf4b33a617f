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
	derived        // a right name with a piece misheard as another entry shows
	partial        // the one word of a longer name that no other name has
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
	plain   bool // made of ordinary words only
	initial bool // an abbreviation: IOL, m s i c s
}

// lexicon is a vocabulary made ready for listening.
type lexicon struct {
	v           *term.Vocabulary
	terms       []term.Term
	place       map[string]int   // term id to place in terms
	forms       []form           //
	byEnds      [49][]silhouette // forms by the groups of their first and last consonants, see corner; lightest first
	exact       map[string][]int // stems of a right name to terms
	heard       map[string][]int // words of a listed or derived form to forms
	trade       map[string]bool  // words that occur in names
	tradeSounds []tradeSound     // of the longer of them
	domain      map[string]bool  // roots of words with which the trade is explained
	single      map[int][]string // names of a term as one word
	longest     int              // words in the longest right name
	heads       map[string]bool  // last words of complications: tear, loss, prolapse
	pairs       map[string]bool  // words next to each other in names
	parts       map[string][]int // stems that only one label begins with to its term

	slips  map[string]bool       // words that are no English and occur in known mishearings
	pieces map[string][][]string // misheard words to what they may stand for, see pieces.go
}

func newLexicon(v *term.Vocabulary) *lexicon { return lexiconFrom(v, v.All(), heardAs()) }

// lexiconFrom makes terms ready, in place of those v holds under the same ids,
// with a table of misheard pieces.
func lexiconFrom(v *term.Vocabulary, terms []term.Term, pieces []confusion) *lexicon {
	l := &lexicon{
		v: v, terms: terms, place: make(map[string]int), single: make(map[int][]string),
		exact: make(map[string][]int), heard: make(map[string][]int), trade: make(map[string]bool),
		heads: make(map[string]bool), pairs: make(map[string]bool), parts: make(map[string][]int), slips: make(map[string]bool),
	}
	for i, t := range l.terms {
		l.place[t.ID] = i
	}
	for i, t := range l.terms {
		for _, n := range names(t) {
			l.addName(i, n)
		}
		for _, m := range t.Mishearings {
			words := texts(splitWords(m))
			l.addForm(i, listed, words)
			if len(words) >= 5 && !l.begins(t, words[:3]) { // a long phrase is known by its beginning
				l.addForm(i, derived, words[:3])
			}
		}
	}
	l.addDomain()
	l.addTradeSounds()
	l.addParts()
	l.learn(slices.Concat(l.confusions(), pieces))
	for _, c := range pieces {
		for _, t := range l.exact[stems(c.right)] {
			l.addForm(t, derived, c.wrong)
		}
	}
	l.sortByWeight()
	return l
}

// addParts lets a name be heard by its beginning alone where no other label
// begins so: "balanced salt", and by itself a word that is no English:
// "dispersive", "peribulbar". A complication is never named by half: a cannula
// is no detachment of one.
func (l *lexicon) addParts() {
	begun := make(map[string]int)
	for _, t := range l.terms {
		label := names(t)[0]
		for k := 1; k < len(label); k++ {
			begun[stems(label[:k])]++
		}
	}
	for i, t := range l.terms {
		if t.Kind == term.Complication {
			continue
		}
		label := names(t)[0]
		for k := 1; k < len(label); k++ {
			head := stems(label[:k])
			if begun[head] > 1 || len(l.exact[head])+len(l.parts[head]) > 0 || len(head) < 7 || joined(label[:k]) || k == 1 && ordinary(label[:1]) {
				continue
			}
			l.parts[head] = []int{i}
			if k == 1 {
				l.addForm(i, partial, label[:1])
			}
		}
	}
	for i, t := range l.terms {
		if t.Kind == term.Complication {
			continue
		}
		for _, n := range names(t)[1:] {
			if head := stem(n[0]); len(n) > 1 && len(head) >= 7 && begun[head] == 0 && len(l.exact[head])+len(l.parts[head]) == 0 && !ordinary(n[:1]) {
				l.parts[head] = []int{i}
			}
		}
	}
}

func (l *lexicon) addForm(i, source int, words []string) {
	f := form{term: i, source: source, text: strings.Join(words, " "), sound: sounds(words), plain: ordinary(words)}
	f.weight = f.sound.weight()
	f.words = words
	f.initial = source == named && l.isInitials(i, strings.Join(words, ""))
	if source == named && (len(words) == 1 && f.plain || len(strings.Join(words, "")) < 4) || f.text == "" {
		return // "block", "pause", "rd": too easily something else
	}
	at := len(l.forms)
	l.forms = append(l.forms, f)
	if source == listed || source == derived {
		for _, w := range words {
			if _, known := surprise(w); !known {
				l.slips[w] = true
			}
		}
		l.heard[f.text] = append(l.heard[f.text], at)
	}
	if len(f.sound) >= 3 && len(f.sound) < 48 {
		l.draw(at)
	}
}

// isInitials reports whether a name is an abbreviation in capitals.
func (l *lexicon) isInitials(i int, name string) bool {
	t := l.terms[i]
	return slices.ContainsFunc(append([]string{t.Abbreviation}, t.Synonyms...), func(s string) bool {
		return s == strings.ToUpper(s) && strings.EqualFold(strings.ReplaceAll(s, "/", ""), name)
	})
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
